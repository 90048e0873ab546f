import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { bookingsToDecide, myBookings } from '#lib/data/booking-lists'
import { relativeDay } from '#lib/format/day'
import { dayOf } from '#lib/format/instant'
import { overlaps } from '#lib/shop/bookings'
import { load, settings } from '../load'
import { ButtonLink } from '../ui/button'
import { AskFirst } from '../ui/dialog'
import { Live } from '../ui/live'
import { Notice } from '../ui/notice'
import { Empty, Page, Row, Rows, Section } from '../ui/sheet'
import { cancelBookingAction } from './actions'
import { Decide } from './decide'
import { spanIn } from './span'
import { BookingTag } from './status'

export const metadata: Metadata = { title: 'Bookings' }

interface Times {
  readonly id: string
  readonly startAt: Date
  readonly endAt: Date
  readonly status: string
  readonly station: { readonly name: string }
}

const interval = (b: Times) => ({ startMs: b.startAt.getTime(), endMs: b.endAt.getTime() })
const isLive = (b: { status: string }) => b.status === 'requested' || b.status === 'approved'

/** Other bookings of mine at the same time. */
const atOnce = (b: Times, all: readonly Times[]) =>
  all.filter((o) => o.id !== b.id && isLive(o) && isLive(b) && overlaps(interval(o), interval(b)))

interface Props {
  readonly searchParams: Promise<{ new?: string }>
}

export default async function BookingsPage({ searchParams }: Props) {
  const me = await settings()
  const [mine, toDecide, { new: newest }] = await Promise.all([
    load(myBookings, {}),
    me.role === 'member' ? [] : load(bookingsToDecide, {}),
    searchParams,
  ])
  const today = dayOf(me.timeZone, new Date())
  const span = spanIn(me.timeZone, (on) => relativeDay(on, today))
  const booked = mine.find((b) => b.id === newest)
  return (
    <Page title="Bookings" actions={<ButtonLink href="/stations">Book a station</ButtonLink>}>
      <Live topics={[`member:${me.memberId}`]} />
      {booked && isLive(booked) ? (
        <Notice level="good" role="status">
          {booked.status === 'approved'
            ? `${booked.station.name} is yours ${span(booked.startAt, booked.endAt)}.`
            : `Asked for: ${booked.station.name} ${span(booked.startAt, booked.endAt)}. The time is kept for you until its keeper decides.`}
        </Notice>
      ) : null}
      {toDecide.length > 0 ? (
        <Section title="Yours to decide">
          <Rows label="Yours to decide">
            {toDecide.map((b) => (
              <Row key={b.id} aside={<Decide bookingId={b.id} maker={b.member.name} />}>
                <p className="font-semibold">
                  {b.member.name}: <Link href={`/stations/${b.station.id}`}>{b.station.name}</Link>
                </p>
                <p>{span(b.startAt, b.endAt)}</p>
                <p className="text-[0.92rem] text-ink-soft">
                  {[b.build && `for ${b.build.name}`, b.note].filter(Boolean).join(' · ')}
                </p>
              </Row>
            ))}
          </Rows>
        </Section>
      ) : null}
      <Section title="Yours">
        {mine.length === 0 ? (
          <Empty title="Nothing booked" action={<ButtonLink href="/stations">See the stations</ButtonLink>}>
            Choose a station and a time. The set-ups of a build know how long each station is needed.
          </Empty>
        ) : (
          <Rows label="Your bookings">
            {mine.map((b) => (
              <Row
                key={b.id}
                aside={
                  <>
                    <BookingTag status={b.status} />
                    {isLive(b) ? (
                      <AskFirst
                        label="Cancel"
                        question={`Cancel ${b.station.name}?`}
                        consequence={`Your time ${span(b.startAt, b.endAt)} becomes free for others.`}
                        yes="Cancel it"
                        action={cancelBookingAction}
                        hidden={{ bookingId: b.id }}
                      />
                    ) : null}
                  </>
                }
              >
                <p className="font-semibold">
                  <Link href={`/stations/${b.station.id}?day=${dayOf(me.timeZone, b.startAt)}`}>
                    {b.station.name}
                  </Link>
                </p>
                <p>{span(b.startAt, b.endAt)}</p>
                <p className="text-[0.92rem] text-ink-soft">
                  {[
                    b.build && `for ${b.build.name}`,
                    b.note,
                    b.decisionNote && `Keeper: ${b.decisionNote}`,
                    ...atOnce(b, mine).map((o) => `at the same time as ${o.station.name}`),
                  ]
                    .filter(Boolean)
                    .join(' · ')}
                </p>
              </Row>
            ))}
          </Rows>
        )}
      </Section>
    </Page>
  )
}
