import { AskFirst } from '../../ui/dialog'
import { TextArea, TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Section } from '../../ui/sheet'
import { Tap } from '../../ui/tap'
import { abandonBuild, describeBuild, finishBuild, reopenBuild } from './actions'

interface NotesProps {
  readonly buildId: string
  readonly name: string
  readonly notes: string
  readonly mayChange: boolean
}

export function Notes({ buildId, name, notes, mayChange }: NotesProps) {
  if (!mayChange && notes === '') return null
  return (
    <Section title="Notes">
      {notes ? (
        <p className="max-w-[72ch] whitespace-pre-line">{notes}</p>
      ) : (
        <p className="text-ink-soft">Nothing is noted.</p>
      )}
      {mayChange ? (
        <details className="mt-2">
          <summary className="min-h-11 py-2.5 font-medium">Change name or notes</summary>
          <Form
            action={describeBuild}
            label="Name and notes"
            className="mt-2 grid max-w-[44rem] gap-4"
            done="Kept."
          >
            <input type="hidden" name="buildId" value={buildId} />
            <TextField label="Name" name="name" defaultValue={name} maxLength={120} />
            <TextArea label="Notes" name="notes" defaultValue={notes} maxLength={4000} rows={5} />
            <div>
              <Submit look="plain">Keep</Submit>
            </div>
          </Form>
        </details>
      ) : null}
    </Section>
  )
}

interface EndingProps {
  readonly buildId: string
  readonly isOpen: boolean
  readonly partsLeft: number
  readonly held: number
}

const boards = (n: number) => (n === 1 ? '1 board' : `${n} boards`)

/** Finish, give up, take up again. */
export function Ending({ buildId, isOpen, partsLeft, held }: EndingProps) {
  const hidden = { buildId }
  if (!isOpen)
    return (
      <Section title="Taking it up again" note="What it held and booked before is not held or booked again.">
        <Tap action={reopenBuild} hidden={hidden}>
          Take the build up again
        </Tap>
      </Section>
    )
  const givesBack =
    held > 0 ? `${boards(held)} held or asked for go back to the pool.` : 'It holds no boards just now.'
  const left = partsLeft > 0 ? ` ${partsLeft} of its parts are not recorded as cut.` : ''
  return (
    <Section title="Ending">
      <div className="flex flex-wrap gap-3">
        <AskFirst
          label="It is finished"
          question="Is it finished?"
          consequence={`${givesBack} Bookings that have not begun are given up.${left}`}
          yes="Yes, finished"
          stop={false}
          action={finishBuild}
          hidden={hidden}
        />
        <AskFirst
          look="stop"
          label="Give it up"
          question="Give this build up?"
          consequence={`${givesBack} Bookings that have not begun are given up. Design, plan and comments stay to be looked at.`}
          yes="Give it up"
          action={abandonBuild}
          hidden={hidden}
        />
      </div>
    </Section>
  )
}
