import { expect } from 'vitest'
import { database } from '#lib/data/client'
import { build, member, station } from '../arrange'
import type { AuthorisationCases } from './case'

const HOUR = 3_600_000

/** A station of one keeper with a request of one maker. */
async function requested(startHour = 48) {
  const keeper = await member('keeper', 'Its keeper')
  const maker = await member('member', 'Its maker')
  const its = await station(keeper, { needsApproval: true, needsInduction: true })
  const startAt = new Date(Math.ceil(Date.now() / HOUR + startHour) * HOUR)
  const booking = await database().booking.create({
    data: {
      stationId: its.id,
      memberId: maker.memberId,
      startAt,
      endAt: new Date(startAt.getTime() + HOUR),
      note: 'between us',
    },
  })
  const state = async () => ({
    station: await database().station.findUniqueOrThrow({
      where: { id: its.id },
      include: { inductions: true, bookings: true },
    }),
  })
  return { keeper, maker, station: its, booking, state, startAt }
}

const tuning = {
  place: 'Elsewhere',
  notes: '',
  opensMinute: 60,
  closesMinute: 120,
  kerfUm: 1,
  maxRipWidthUm: null,
  maxCrosscutWidthUm: null,
  minPieceLengthUm: null,
  minPieceWidthUm: null,
  maxPassUm: null,
}

/** Touches the station or the booking of someone else. */
const refused = (input: (r: Awaited<ReturnType<typeof requested>>) => unknown) => ({
  refused: async () => {
    const r = await requested()
    return { input: input(r), state: r.state }
  },
})

/** Lists what is mine; the request of the others must not be in it. */
const onlyMine = {
  ownOnly: async () => {
    const r = await requested()
    const check = (value: unknown) => expect(JSON.stringify(value)).not.toContain(r.booking.id)
    return { input: {}, state: r.state, check }
  },
}

export const cases: AuthorisationCases = {
  'stations.tuneStation': refused((r) => ({ stationId: r.station.id, ...tuning })),
  'stations.giveInduction': refused((r) => ({ stationId: r.station.id, memberId: r.maker.memberId })),
  'stations.revokeInduction': {
    refused: async () => {
      const r = await requested()
      const both = { stationId: r.station.id, memberId: r.maker.memberId }
      await database().induction.create({ data: { ...both, givenById: r.keeper.memberId } })
      return { input: both, state: r.state }
    },
  },
  'stations.listInductions': refused((r) => ({ stationId: r.station.id })),
  'bookings.askForBooking': {
    // For a build of someone else's.
    refused: async () => {
      const [keeper, maker] = [await member('keeper'), await member()]
      const open = await station(keeper)
      const theirs = await build(maker)
      const startAt = new Date(Math.ceil(Date.now() / HOUR + 24) * HOUR)
      const endAt = new Date(startAt.getTime() + HOUR)
      return {
        input: {
          stationId: open.id,
          buildId: theirs.id,
          startAt: startAt.toISOString(),
          endAt: endAt.toISOString(),
        },
        state: () => database().booking.findMany({ where: { buildId: theirs.id } }),
      }
    },
  },
  'bookings.decideBooking': refused((r) => ({ bookingId: r.booking.id, approve: true })),
  'bookings.cancelBooking': refused((r) => ({ bookingId: r.booking.id })),
  'booking-lists.stationRequests': refused((r) => ({ stationId: r.station.id })),
  'booking-lists.myBookings': onlyMine,
  'booking-lists.bookingsToDecide': onlyMine,
}
