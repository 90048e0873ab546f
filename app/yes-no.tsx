'use client'
import type { FormState } from './form-state'
import { Form, Submit } from './ui/form'

interface YesNoProps {
  readonly action: (state: FormState, form: FormData) => Promise<FormState>
  readonly hidden: Readonly<Record<string, string>>
  readonly yes: string
  /** What is answered, for who cannot see the row. */
  readonly about: string
}

/** Two taps' worth of buttons in one form: whichever is pressed answers. */
export function YesNo({ action, hidden, yes, about }: YesNoProps) {
  return (
    <Form action={action} className="grid gap-2" label={`Answer about ${about}`}>
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <div className="flex gap-2">
        <Submit name="answer" value="yes">
          {yes}
        </Submit>
        <Submit look="plain" name="answer" value="no">
          No
        </Submit>
      </div>
    </Form>
  )
}
