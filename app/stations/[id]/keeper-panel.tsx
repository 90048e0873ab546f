import { Decide } from '../../bookings/decide'
import { AskFirst } from '../../ui/dialog'
import { SelectField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Row, Rows, Section } from '../../ui/sheet'
import { giveInductionAction, revokeInductionAction } from '../actions'

interface Request {
  readonly id: string
  readonly startAt: Date
  readonly endAt: Date
  readonly note: string
  readonly member: { readonly name: string }
  readonly build: { readonly name: string } | null
}

interface RequestsProps {
  readonly requests: readonly Request[]
  readonly saySpan: (startAt: Date, endAt: Date) => string
}

/** What waits for the keeper; nothing where nothing waits. */
export function Requests({ requests, saySpan }: RequestsProps) {
  if (requests.length === 0) return null
  return (
    <Section title="Yours to decide">
      <Rows label="Yours to decide">
        {requests.map((r) => (
          <Row key={r.id} aside={<Decide bookingId={r.id} maker={r.member.name} />}>
            <p className="font-semibold">{r.member.name}</p>
            <p>{saySpan(r.startAt, r.endAt)}</p>
            <p className="text-[0.92rem] text-ink-soft">
              {[r.build && `for ${r.build.name}`, r.note].filter(Boolean).join(' · ')}
            </p>
          </Row>
        ))}
      </Rows>
    </Section>
  )
}

interface Inducted {
  readonly id: string
  readonly name: string
  readonly givenBy: string
  readonly givenAt: Date
}

interface InductionsProps {
  readonly stationId: string
  readonly station: string
  readonly inducted: readonly Inducted[]
  readonly others: readonly { readonly id: string; readonly name: string }[]
  readonly sayDay: (at: Date) => string
}

export function Inductions({ stationId, station, inducted, others, sayDay }: InductionsProps) {
  return (
    <Section
      title="Inductions"
      note="Who has been shown how to use it safely. Tick someone off only after you stood beside them at the machine."
    >
      <div className="grid gap-5">
        {inducted.length === 0 ? (
          <p className="text-ink-soft">Nobody yet.</p>
        ) : (
          <Rows label="Inducted">
            {inducted.map((m) => (
              <Row
                key={m.id}
                aside={
                  <AskFirst
                    label="Take back"
                    look="quiet"
                    question={`Take back ${m.name}’s induction?`}
                    consequence={`${m.name} cannot book ${station} any more until shown again. Bookings that there are stay.`}
                    yes="Take it back"
                    action={revokeInductionAction}
                    hidden={{ stationId, memberId: m.id }}
                  />
                }
              >
                <span className="font-medium">{m.name}</span>
                <span className="block text-[0.92rem] text-ink-soft">
                  shown by {m.givenBy}, {sayDay(m.givenAt)}
                </span>
              </Row>
            ))}
          </Rows>
        )}
        {others.length === 0 ? null : (
          <Form action={giveInductionAction} label="Give an induction" className="grid max-w-md gap-3">
            <input type="hidden" name="stationId" value={stationId} />
            <SelectField
              label="Who was shown"
              name="memberId"
              options={others.map((o) => ({ value: o.id, label: o.name }))}
            />
            <div>
              <Submit look="plain">Give the induction</Submit>
            </div>
          </Form>
        )}
      </div>
    </Section>
  )
}
