/**
 * Hardware: lots of screws and other metal parts, logged with a teardown, taken for a build, put back, counted anew.
 * An event is written and the database counts (migration `hardware`): nobody takes what another has just taken.
 * Rules: lib/shop/hardware.ts. Tests: tests/data/hardware.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { HARDWARE_KINDS, HARDWARE_TERMS, MOST_IN_A_LOT, wantedHardware } from '#lib/shop/hardware'
import { refusal } from '#lib/shop/refusal'
import { ownedBy } from '#lib/shop/sharing'
import { action, id, query } from './action'
import { database } from './client'
import type { Prisma } from './generated/client'
import { changeableOpenBuild, mayChange } from './internal/changeable-build'
import { ownTeardown } from './internal/own-teardown'
import { modelOf } from './internal/plan-source'
import { announce, type Transaction, transact } from './transaction'

const PAGE_SIZE = 50
const NOT_SO_MANY = refusal('badInput', { fields: { count: 'There are not that many of them (any more).' } })

const number = z.int('Say how many, as a whole number.').max(MOST_IN_A_LOT, `Say at most ${MOST_IN_A_LOT}.`)
const count = number.min(1, 'Say at least one.')
const shared = {
  terms: z.enum(HARDWARE_TERMS, 'Choose terms from the list.').default('free'),
  place: z.string().trim().max(80, 'Keep the place to 80 characters.').default(''),
}

const LOT = {
  id: true,
  kind: true,
  size: true,
  count: true,
  terms: true,
  place: true,
  ownerId: true,
  owner: { select: { name: true } },
} satisfies Prisma.HardwareLotSelect

type LotRow = Prisma.HardwareLotGetPayload<{ select: typeof LOT }>

const lotView = ({ owner, ...lot }: LotRow, actor: Actor) => ({
  ...lot,
  ownerName: owner.name,
  mayTake: lot.terms === 'free' || lot.ownerId === actor.memberId,
  mayChange: mayChange(actor, lot.ownerId),
})
export type LotView = ReturnType<typeof lotView>

const takeableBy = ({ memberId }: Actor): Prisma.HardwareLotWhereInput => ({
  OR: [{ terms: 'free' }, { ownerId: memberId }],
})

/** All lots that are not used up, by kind and size, in pages. */
export const hardware = query({
  audience: 'member',
  shared: true,
  input: z.object({ page: z.int().min(1).max(10_000).default(1) }),
  run: async (actor, { page }) => {
    const where = { count: { gt: 0 } }
    const [total, lots] = await Promise.all([
      database().hardwareLot.count({ where }),
      database().hardwareLot.findMany({
        where,
        select: LOT,
        orderBy: [{ kind: 'asc' }, { size: 'asc' }, { id: 'asc' }],
        skip: (page - 1) * PAGE_SIZE,
        take: PAGE_SIZE,
      }),
    ])
    return ok({
      lots: lots.map((lot) => lotView(lot, actor)),
      total,
      pages: Math.max(1, Math.ceil(total / PAGE_SIZE)),
    })
  },
})

/** What came out of one piece, the last logged first; those used up too. */
export const ofTeardown = query({
  audience: 'member',
  shared: true,
  input: z.object({ teardownId: id }),
  run: async (actor, { teardownId }) => {
    const lots = await database().hardwareLot.findMany({
      where: { teardownId },
      select: LOT,
      orderBy: [{ createdAt: 'desc' }, { id: 'asc' }],
      take: 200,
    })
    return ok(lots.map((lot) => lotView(lot, actor)))
  },
})

/** What the chosen variant of a build wants, what lies there of it, and what was taken for it. */
export const ofBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }) => {
    const build = await database().build.findUnique({
      where: { id: buildId },
      select: {
        memberId: true,
        variants: { where: { chosen: true }, select: { designId: true, parameters: true } },
        hardware: { select: { change: true, lot: { select: { id: true, kind: true, size: true } } } },
      },
    })
    if (!build) return err(refusal('notFound'))
    const [variant] = build.variants
    const model = variant && (await modelOf(variant.designId, variant.parameters))
    const needs = model?.ok ? model.value.hardware : []
    const kinds = [...new Set(needs.map((need) => need.kind))]
    const lots = await database().hardwareLot.findMany({
      where: { count: { gt: 0 }, kind: { in: kinds }, ...takeableBy(actor) },
      select: LOT,
    })
    const taken = build.hardware.map(({ change, lot }) => ({ ...lot, count: -change }))
    return ok({
      mayTake: mayChange(actor, build.memberId),
      wanted: wantedHardware(
        needs,
        lots.map((lot) => lotView(lot, actor)),
        taken,
      ),
    })
  },
})

/** Logs a lot of one kind and size. It belongs to the one who began the teardown. */
export const logHardware = action({
  audience: 'member',
  input: z.object({
    teardownId: id,
    kind: z.enum(HARDWARE_KINDS, 'Choose what it is from the list.'),
    size: z
      .string()
      .trim()
      .min(1, 'Say its size, like «No. 8 × 32 mm».')
      .max(60, 'Keep the size to 60 characters.'),
    count,
    ...shared,
  }),
  run: (actor, { count, ...lot }) =>
    transact(async (tx) => {
      const from = await ownTeardown(tx, actor, lot.teardownId)
      if (!from.ok) return from
      const { id: lotId } = await tx.hardwareLot.create({
        data: { ...lot, count: 0, ownerId: from.value.memberId },
        select: { id: true },
      })
      await write(tx, { lotId, memberId: actor.memberId, kind: 'takenIn', change: count })
      await announce(tx, `teardown:${lot.teardownId}`)
      return ok({ lotId })
    }),
})

async function write(tx: Transaction, event: Prisma.HardwareEventUncheckedCreateInput): Promise<void> {
  await tx.hardwareEvent.create({ data: event })
  await announce(tx, 'hardware')
  if (event.buildId) await announce(tx, `build:${event.buildId}`)
}

const move = z.object({ lotId: id, buildId: id.optional(), count })

/** Takes some out of a lot that is free, or one's own, for a build of one's own or for anything else. */
export const take = action({
  audience: 'member',
  input: move,
  run: (actor, { lotId, buildId, count }) =>
    transact(
      async (tx) => {
        const build = buildId ? await changeableOpenBuild(tx, actor, buildId) : ok(null)
        if (!build.ok) return build
        const lot = await tx.hardwareLot.findFirst({
          where: { id: lotId, ...takeableBy(actor) },
          select: { id: true },
        })
        if (!lot) return err(refusal('notFound'))
        await write(tx, { lotId, buildId, memberId: actor.memberId, kind: 'taken', change: -count })
        return ok(null)
      },
      { hardware_lot_count: NOT_SO_MANY },
    ),
})

/** Puts back what was taken for a build of one's own. */
export const putBack = action({
  audience: 'member',
  input: move.extend({ buildId: id }),
  run: (actor, { lotId, buildId, count }) =>
    transact(
      async (tx) => {
        const build = await changeableOpenBuild(tx, actor, buildId)
        if (!build.ok) return build
        const was = await tx.hardwareEvent.count({ where: { lotId, buildId } })
        if (was === 0) return err(refusal('notFound'))
        await write(tx, { lotId, buildId, memberId: actor.memberId, kind: 'putBack', change: count })
        return ok(null)
      },
      {
        hardware_put_back: refusal('badInput', { fields: { count: 'More than were taken for this build.' } }),
        hardware_lot_count: refusal('badInput', {
          fields: { count: `A lot holds at most ${MOST_IN_A_LOT}.` },
        }),
      },
    ),
})

/** Its owner, or an admin, says how many there are, where they lie and who may take them. */
export const changeLot = action({
  audience: 'member',
  input: z.object({ lotId: id, count: number.min(0, 'Say none, or how many.'), ...shared }),
  run: (actor, { lotId, count, ...data }) =>
    transact(async (tx) => {
      // The lock: nobody takes any between the look and the count.
      await tx.$queryRaw`select 1 from "HardwareLot" where "id" = ${lotId}::uuid for update`
      const lot = await tx.hardwareLot.findFirst({
        where: { id: lotId, ...ownedBy(actor) },
        select: { count: true },
      })
      if (!lot) return err(refusal('notFound'))
      await tx.hardwareLot.update({ where: { id: lotId }, data })
      if (count !== lot.count)
        await write(tx, { lotId, memberId: actor.memberId, kind: 'counted', change: count - lot.count })
      else await announce(tx, 'hardware')
      return ok(null)
    }),
})
