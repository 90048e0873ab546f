import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import { query } from './action'
import { database } from './client'
import { token } from './internal/fields'

const DAY_MS = 24 * 3_600_000
const PAST_DAYS = 31
const MOST = 1000

/**
 * What a calendar shows to whoever has its secret: the member's live bookings from a month ago on, and what waits for
 * their yes or no at the stations they keep. Nobody's any more once the link is renewed or the member removed.
 */
export const calendarFeed = query({
  audience: 'anyone',
  input: z.object({ token }),
  run: async (_, { token }) => {
    const member = await database().member.findFirst({
      where: { calendarToken: token, removedAt: null },
      select: { id: true, name: true },
    })
    if (!member) return err(refusal('notFound'))
    const now = Date.now()
    const mine = {
      memberId: member.id,
      status: { in: ['requested', 'approved'] },
      endAt: { gt: new Date(now - PAST_DAYS * DAY_MS) },
    } as const
    const toDecide = {
      memberId: { not: member.id },
      status: 'requested',
      endAt: { gt: new Date(now) },
      station: { keeperId: member.id },
    } as const
    const rows = await database().booking.findMany({
      where: { OR: [{ ...mine, status: { in: [...mine.status.in] } }, toDecide] },
      orderBy: [{ startAt: 'asc' }, { id: 'asc' }],
      take: MOST,
      select: {
        id: true,
        startAt: true,
        endAt: true,
        status: true,
        note: true,
        updatedAt: true,
        memberId: true,
        station: { select: { id: true, name: true, place: true } },
        member: { select: { name: true } },
        build: { select: { name: true } },
      },
    })
    const shop = await database().shop.findFirstOrThrow({ select: { name: true } })
    const entries = rows.map(({ memberId, ...b }) => ({ ...b, isToDecide: memberId !== member.id }))
    return ok({ member: member.name, shop: shop.name, entries })
  },
})
