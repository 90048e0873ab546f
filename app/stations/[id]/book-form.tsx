import { type Hours, inWholeSteps } from '#lib/shop/bookings'
import { SelectField, TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { bookAction } from '../actions'
import { clock, quarterHours, sayMinutes } from '../words'

const LENGTHS = [
  ...Array.from({ length: 32 }, (_, i) => (i + 1) * 15),
  ...Array.from({ length: 8 }, (_, i) => (i + 9) * 60),
]

interface BookFormProps {
  readonly stationId: string
  readonly needsApproval: boolean
  readonly hours: Hours
  readonly keeper: string
  /** What the form begins with. */
  readonly day: string
  /** Minutes after midnight. */
  readonly startMinute: number
  readonly minutes: number
  readonly today: string
  readonly builds: readonly { readonly id: string; readonly name: string }[]
  readonly buildId?: string
}

/** Day, start and length; a tap on a free time above or below fills them in. */
export function BookForm({ stationId, needsApproval, keeper, builds, hours, ...begin }: BookFormProps) {
  const minutes = inWholeSteps(begin.minutes)
  const lengths = [...new Set([...LENGTHS, minutes])].sort((a, b) => a - b)
  return (
    <Form action={bookAction} label="Book this station" className="grid max-w-2xl gap-4">
      <input type="hidden" name="stationId" value={stationId} />
      <div className="grid grid-cols-2 gap-4 sm:grid-cols-3">
        <TextField label="Day" name="day" type="date" defaultValue={begin.day} min={begin.today} required />
        <SelectField
          label="From"
          name="start"
          options={quarterHours(hours.opensMinute, hours.closesMinute - 15, begin.startMinute)}
          defaultValue={clock(begin.startMinute)}
        />
        <SelectField
          label="For how long"
          name="minutes"
          className="col-span-2 sm:col-span-1"
          options={lengths.map((m) => ({ value: String(m), label: sayMinutes(m) }))}
          defaultValue={String(minutes)}
        />
      </div>
      <div className="grid gap-4 sm:grid-cols-2">
        <SelectField
          label="For"
          name="buildId"
          options={[
            { value: '', label: 'no build in particular' },
            ...builds.map((b) => ({ value: b.id, label: b.name })),
          ]}
          defaultValue={begin.buildId ?? ''}
        />
        <TextField label="Note" name="note" maxLength={1000} help={`Only ${keeper} and you read it.`} />
      </div>
      <div>
        <Submit>{needsApproval ? `Ask ${keeper} for it` : 'Book it'}</Submit>
      </div>
    </Form>
  )
}
