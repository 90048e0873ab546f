'use client'
import { TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { copyDesign } from './actions'

/** Asks what the copy is to be called, and makes it. */
export function CopyForm({ from, name }: { readonly from: string; readonly name: string }) {
  return (
    <details>
      <summary className="link min-h-11 content-center font-medium">
        Copy it<span className="sr-only">: {name}</span>
      </summary>
      <Form action={copyDesign} label={`Copy ${name}`} className="mt-1 grid gap-3">
        <input type="hidden" name="from" value={from} />
        <TextField
          label="What your copy is called"
          name="name"
          required
          maxLength={120}
          defaultValue={`My ${name[0].toLowerCase()}${name.slice(1)}`}
        />
        <div>
          <Submit>Copy and change it</Submit>
        </div>
      </Form>
    </details>
  )
}
