import Link from '#app/ui/link'
import type { LengthUnit } from '#lib/core/units/inches'
import { speciesById } from '#lib/core/wood/species'
import type { HoldView } from '#lib/data/holds'
import { sayDuration } from '#lib/format/instant'
import { saySize } from '#lib/format/length'
import { answerBooking, answerHold } from './actions'
import { Row, Rows, Section } from './ui/sheet'
import { YesNo } from './yes-no'

interface BookingRequest {
  readonly id: string
  readonly startAt: Date
  readonly endAt: Date
  readonly note: string
  readonly station: { readonly id: string; readonly name: string }
  readonly member: { readonly name: string }
  readonly build: { readonly id: string; readonly name: string } | null
}

interface RequestsProps {
  readonly holds: readonly HoldView[]
  readonly bookings: readonly BookingRequest[]
  readonly units: LengthUnit
  readonly say: (at: Date) => string
}

/** Others wait for a yes or a no: a tap each. */
export function Requests({ holds, bookings, units, say }: RequestsProps) {
  if (holds.length + bookings.length === 0) return null
  return (
    <Section title="Others wait for your yes">
      <Rows label="Requests to you">
        {holds.map((h) => (
          <Row
            key={h.id}
            aside={
              <YesNo
                action={answerHold}
                hidden={{ holdId: h.id }}
                yes="Yes, take it"
                about={`board ${h.board.number}`}
              />
            }
          >
            <p className="text-[1.1rem]">
              <strong>{h.memberName}</strong> asks for your{' '}
              <Link href={`/boards/${h.board.id}`} className="link font-semibold">
                board {h.board.number}
              </Link>
            </p>
            <p className="text-[0.95rem] text-ink-soft">
              {speciesById(h.board.species).name},{' '}
              {saySize([h.board.lengthUm, h.board.widthUm, h.board.thicknessUm], units)}, for{' '}
              <Link href={`/builds/${h.buildId}`}>{h.buildName}</Link>. The request runs out{' '}
              {say(h.expiresAt)}.
            </p>
          </Row>
        ))}
        {bookings.map((b) => (
          <Row
            key={b.id}
            aside={
              <YesNo action={answerBooking} hidden={{ bookingId: b.id }} yes="Yes" about={b.station.name} />
            }
          >
            <p className="text-[1.1rem]">
              <strong>{b.member.name}</strong> asks for{' '}
              <Link href={`/stations/${b.station.id}`} className="link font-semibold">
                {b.station.name}
              </Link>
            </p>
            <p className="text-[0.95rem] text-ink-soft">
              {say(b.startAt)}, for {sayDuration(b.endAt.getTime() - b.startAt.getTime())}
              {b.build ? (
                <>
                  , for <Link href={`/builds/${b.build.id}`}>{b.build.name}</Link>
                </>
              ) : null}
              {b.note ? `. «${b.note}»` : ''}
            </p>
          </Row>
        ))}
      </Rows>
    </Section>
  )
}
