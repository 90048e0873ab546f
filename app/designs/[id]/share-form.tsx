'use client'
import { ChoiceField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { shareDesign } from '../actions'

interface ShareProps {
  readonly designId: string
  readonly sharing: 'mine' | 'shop'
}

export function ShareForm({ designId, sharing }: ShareProps) {
  return (
    <Form action={shareDesign} label="Sharing" done="That is how it is shared now.">
      <input type="hidden" name="designId" value={designId} />
      <ChoiceField
        label="Who may see it and build from it"
        name="sharing"
        defaultValue={sharing}
        options={[
          { value: 'mine', label: 'I alone' },
          { value: 'shop', label: 'All members' },
        ]}
        help="Others can copy a shared design; only you and the admins can change it."
      />
      <div>
        <Submit look="plain">Keep it so</Submit>
      </div>
    </Form>
  )
}
