import clsx from 'clsx'
import Link from '#app/ui/link'
import type { Interval } from '#lib/shop/bookings'
import { cancelBookingAction } from '../../bookings/actions'
import { BookingTag } from '../../bookings/status'
import { AskFirst } from '../../ui/dialog'
import { sayMinutes } from '../words'
import type { DayPlan, Entry } from './day'

interface WeekProps {
  readonly days: readonly DayPlan[]
  readonly sayDay: (on: string) => string
  readonly sayTime: (at: Date) => string
  /** The page with the form filled in for a start. */
  readonly hrefFor: (startMs: number) => string
  readonly meId: string
  readonly mayKeep: boolean
}

/** The station's days: a strip of each, then its free stretches to tap and who has the rest. */
export function Week({ days, sayDay, ...rest }: WeekProps) {
  return (
    <ol className="grid gap-x-10 gap-y-7 lg:grid-cols-2">
      {days.map((day) => (
        <li key={day.on}>
          <h3 className="font-semibold">{sayDay(day.on)}</h3>
          <Strip day={day} meId={rest.meId} />
          {day.entries.length === 0 ? (
            <p className="py-2 text-ink-soft">Nothing free.</p>
          ) : (
            <ul className="divide-y divide-hairline">
              {day.entries.map((entry) => (
                <EntryRow key={`${entry.kind}${entry.startMs}`} entry={entry} {...rest} />
              ))}
            </ul>
          )}
        </li>
      ))}
    </ol>
  )
}

type EntryRowProps = Omit<WeekProps, 'days' | 'sayDay'> & { readonly entry: Entry }

function EntryRow({ entry, sayTime, hrefFor, meId, mayKeep }: EntryRowProps) {
  const times = `${sayTime(new Date(entry.startMs))}–${sayTime(new Date(entry.endMs))}`
  if (entry.kind === 'free')
    return (
      <li>
        <Link
          href={hrefFor(entry.startMs)}
          className="flex min-h-11 items-center justify-between gap-4 py-1.5"
        >
          <span className="w-[7.2rem] shrink-0">{times}</span>
          <span className="link flex-1">free</span>
          <span className="text-[0.92rem] text-ink-soft">
            {sayMinutes((entry.endMs - entry.startMs) / 60_000)}
          </span>
        </Link>
      </li>
    )
  const { booking } = entry
  const isMine = booking.member.id === meId
  return (
    <li className="flex min-h-11 flex-wrap items-center gap-x-4 gap-y-1 py-1.5">
      <span className="w-[7.2rem] shrink-0">{times}</span>
      <span className="min-w-0 flex-1 basis-32">
        <span className="font-medium">{isMine ? 'You' : booking.member.name}</span>
        {booking.build ? <span className="text-ink-soft"> · {booking.build.name}</span> : null}
      </span>
      <BookingTag status={booking.status === 'approved' ? 'approved' : 'requested'} />
      {isMine || mayKeep ? (
        <AskFirst
          label="Cancel"
          look="quiet"
          question={isMine ? 'Cancel your booking?' : `Cancel ${booking.member.name}’s booking?`}
          consequence={`${times} becomes free for others.${isMine ? '' : ' They see that you cancelled it.'}`}
          yes="Cancel it"
          action={cancelBookingAction}
          hidden={{ bookingId: booking.id }}
        />
      ) : null}
    </li>
  )
}

/** A day as a bar: open time is the paper, booked time is filled, asked-for time hatched. */
function Strip({ day, meId }: { readonly day: DayPlan; readonly meId: string }) {
  const first = day.open[0]
  const last = day.open.at(-1)
  if (!first || !last) return null
  const length = last.endMs - first.startMs
  const place = (i: Interval) => {
    const from = Math.max(0, (i.startMs - first.startMs) / length)
    const to = Math.min(1, (i.endMs - first.startMs) / length)
    return { left: `${from * 100}%`, width: `${(to - from) * 100}%` }
  }
  return (
    <div aria-hidden="true" className="relative my-1.5 h-3 border border-hairline-strong bg-hairline">
      {day.entries.map((e) => (
        <span
          key={`${e.kind}${e.startMs}`}
          style={place(e)}
          className={clsx(
            'absolute inset-y-0',
            e.kind === 'free' && 'bg-sheet',
            e.kind === 'booked' && (e.booking.member.id === meId ? 'bg-accent' : 'bg-ink-soft'),
            e.kind === 'booked' &&
              e.booking.status === 'requested' &&
              'bg-[repeating-linear-gradient(45deg,transparent_0_3px,var(--sheet)_3px_5px)]',
          )}
        />
      ))}
    </div>
  )
}
