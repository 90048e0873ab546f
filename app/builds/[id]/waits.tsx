import { sayDuration } from '#lib/format/instant'
import { WAIT_PRACTICE, type WaitKind, type WaitState } from '#lib/shop/waits'
import { AskFirst } from '../../ui/dialog'
import { TextField } from '../../ui/field'
import { Row, Rows, Section } from '../../ui/sheet'
import { Tag } from '../../ui/tag'
import { Tap } from '../../ui/tap'
import { clearWait, lengthenWait } from './actions'
import { WaitForm } from './wait-form'

export interface WaitShown {
  readonly id: string
  readonly kind: WaitKind
  readonly label: string
  readonly readyAt: Date
  readonly state: WaitState
}

interface WaitsProps {
  readonly buildId: string
  readonly waits: readonly WaitShown[]
  readonly mayWork: boolean
  readonly now: Date
  readonly say: (at: Date) => string
}

/** What is drying, when it is ready, and a place to note more. */
export function Waits({ buildId, waits, mayWork, now, say }: WaitsProps) {
  return (
    <Section title="Drying" id="waits">
      {waits.length === 0 ? (
        <p className="mb-4 text-ink-soft">
          Nothing is drying.
          {mayWork ? ' Note glue, filler or a coat, and it tells you when to look again.' : ''}
        </p>
      ) : (
        <Rows label="Drying">
          {waits.map((w) => (
            <Row key={w.id} aside={mayWork ? <WaitButtons wait={w} /> : undefined}>
              <p className="font-medium">{w.label}</p>
              <WaitTime wait={w} now={now} say={say} />
            </Row>
          ))}
        </Rows>
      )}
      {mayWork ? (
        <details className="mt-4" open={waits.length === 0}>
          <summary className="min-h-11 py-2.5 font-medium">Note something that has to dry</summary>
          <WaitForm buildId={buildId} />
        </details>
      ) : null}
    </Section>
  )
}

export function WaitTime({
  wait,
  now,
  say,
}: {
  readonly wait: Pick<WaitShown, 'state' | 'readyAt' | 'kind'>
  readonly now: Date
  readonly say: (at: Date) => string
}) {
  if (wait.state === 'ready')
    return (
      <p className="flex flex-wrap items-center gap-x-3">
        <Tag tone="good">Time is up</Tag>
        <span className="text-[0.95rem] text-ink-soft">since {say(wait.readyAt)}; look before you go on</span>
      </p>
    )
  return (
    <p className="flex flex-wrap items-center gap-x-3">
      <Tag tone="waiting">{`Ready ${say(wait.readyAt)}`}</Tag>
      <span className="text-[0.95rem] text-ink-soft">
        {sayDuration(wait.readyAt.getTime() - now.getTime())} to go
      </span>
    </p>
  )
}

/** Clear it, or give it longer. Clearing before its time asks first. */
export function WaitButtons({ wait }: { readonly wait: WaitShown }) {
  const hidden = { waitId: wait.id }
  return (
    <>
      {wait.state === 'ready' ? (
        <Tap look="primary" action={clearWait} hidden={hidden}>
          It is dry
        </Tap>
      ) : (
        <AskFirst
          label="Clear"
          question={`Clear «${wait.label}» before its time?`}
          consequence="Do so if it is dry already, or if it was noted by mistake. Loaded too soon, a glue joint can fail later, under a person."
          yes="Clear it"
          stop={false}
          action={clearWait}
          hidden={hidden}
        />
      )}
      <AskFirst
        look="quiet"
        label="Longer"
        question={`Give «${wait.label}» longer?`}
        consequence={WAIT_PRACTICE[wait.kind].practice}
        yes="Wait longer"
        stop={false}
        action={lengthenWait}
        hidden={hidden}
      >
        <TextField label="More hours" name="hours" unit="h" inputMode="decimal" defaultValue="4" />
      </AskFirst>
    </>
  )
}
