// Small things that data tests begin with. Each makes one row with sensible values; pass what your test is about.
import { randomUUID } from 'node:crypto'
import { database } from '#lib/data/client'
import type { Actor, Role } from '#lib/shop/actor'

/** A shop row, once a test file. */
export const shop = (over: object = {}) =>
  database().shop.upsert({
    where: { id: 1 },
    create: { name: 'Mill Lane shop', timeZone: 'Europe/Berlin', ...over },
    update: over,
  })

/** A member who can act at once. The hash is of no password: tests that sign in make their own. */
export async function member(role: Role = 'member', name = 'Someone'): Promise<Actor> {
  const mark = randomUUID()
  const row = await database().member.create({
    data: { email: `${mark}@example.org`, name, role, passwordHash: '-', calendarToken: mark },
  })
  return { memberId: row.id, name, role }
}

/** Open round the clock, no induction, no approval, unless said otherwise. */
export const station = (keeper: Actor, over: object = {}) =>
  database().station.create({
    data: {
      name: `Station ${randomUUID().slice(0, 8)}`,
      kind: 'tableSaw',
      keeperId: keeper.memberId,
      needsInduction: false,
      needsApproval: false,
      opensMinute: 0,
      closesMinute: 1440,
      ...over,
    },
  })

/** A cleared oak board of 900 x 90 x 20 mm, free to all. */
export const board = (owner: Actor, over: object = {}) =>
  database().board.create({
    data: {
      ownerId: owner.memberId,
      lengthUm: 900_000,
      widthUm: 90_000,
      thicknessUm: 20_000,
      species: 'whiteOak',
      metal: 'cleared',
      ...over,
    },
  })

export const build = (maker: Actor, over: object = {}) =>
  database().build.create({ data: { name: 'Counter seat', memberId: maker.memberId, ...over } })

/** The chosen design of a build: one counter seat, unless said otherwise. */
export const variant = (buildId: string, over: object = {}) =>
  database().variant.create({
    data: { buildId, designId: 'counterSeat', parameters: { abreast: 1 }, ...over },
  })

/** Three boards that one counter seat comes out of, with a little left: thick for the legs, thin for the rest. */
export async function seatBoards(owner: Actor, over: object = {}) {
  const legs = await board(owner, { lengthUm: 1_320_000, widthUm: 112_000, thicknessUm: 42_000, ...over })
  const seat = await board(owner, { lengthUm: 1_970_000, widthUm: 95_000, thicknessUm: 22_000, ...over })
  const rails = await board(owner, { lengthUm: 1_900_000, widthUm: 130_000, thicknessUm: 22_000, ...over })
  return [legs, seat, rails]
}
