import { ChoiceField } from '../../../ui/field'
import { Form, Submit } from '../../../ui/form'
import { askForPlan } from './actions'

const TIMES = [
  { value: '5', label: '5 s' },
  { value: '20', label: '20 s' },
  { value: '60', label: '1 min' },
  { value: '300', label: '5 min' },
] as const

interface Props {
  readonly buildId: string
  readonly label: string
  readonly isFirst: boolean
}

/** How long to look for a better plan; the first one is there at once. */
export function AskForm({ buildId, label, isFirst }: Props) {
  return (
    <Form action={askForPlan} label="Plan the cutting" className="grid gap-4">
      <input type="hidden" name="buildId" value={buildId} />
      <ChoiceField
        label="Look for at most"
        name="seconds"
        options={TIMES}
        defaultValue="20"
        help="A first plan is there in a moment. The rest of the time goes into a better one; stop whenever it is good enough."
      />
      <div>
        <Submit look={isFirst ? 'primary' : 'plain'}>{label}</Submit>
      </div>
    </Form>
  )
}
