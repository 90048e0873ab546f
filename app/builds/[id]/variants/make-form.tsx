import { SelectField, TextField } from '../../../ui/field'
import { Form, Submit } from '../../../ui/form'
import { makeVariant } from './actions'

interface MakeFormProps {
  readonly buildId: string
  readonly variants: readonly { readonly id: string; readonly name: string }[]
}

export function MakeForm({ buildId, variants }: MakeFormProps) {
  return (
    <Form action={makeVariant} label="Make another variant" className="grid max-w-2xl gap-4 sm:grid-cols-2">
      <input type="hidden" name="buildId" value={buildId} />
      <TextField label="What you call it" name="name" maxLength={80} help="Like «With a low back»." />
      <SelectField
        label="Begins with the numbers of"
        name="fromId"
        options={variants.map(({ id, name }) => ({ value: id, label: name }))}
      />
      <div className="sm:col-span-2">
        <Submit>Make it</Submit>
      </div>
    </Form>
  )
}
