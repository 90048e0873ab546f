import { TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { decideAction } from './actions'

/** The keeper's yes or no in one tap, with a note if there is something to say. */
export function Decide({ bookingId, maker }: { readonly bookingId: string; readonly maker: string }) {
  return (
    <Form action={decideAction} label={`Decide for ${maker}`} className="grid gap-2">
      <input type="hidden" name="bookingId" value={bookingId} />
      <div className="flex flex-wrap gap-2">
        <Submit name="approve" value="yes">
          Approve
        </Submit>
        <Submit look="plain" name="approve" value="no">
          Decline
        </Submit>
      </div>
      <TextField
        label={`Note to ${maker}`}
        labelHidden
        name="note"
        placeholder={`Note to ${maker}, if any`}
        maxLength={1000}
      />
    </Form>
  )
}
