/**
 * Builds: one thing being made. Anyone sees every build of the shop; its maker and admins change it. The stage and
 * the next step are worked out from what is there, never stored.
 * Tests: tests/data/builds.test.ts, tests/data/build-facts.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { designById } from '#lib/core/design/designs/registry'
import { err, ok } from '#lib/core/units/result'
import { buildStage } from '#lib/shop/build-stage'
import { refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import type { Prisma } from './generated/client'
import { buildFacts } from './internal/build-facts'
import { changeableBuild, changeableOpenBuild, mayChange } from './internal/changeable-build'
import { settleBuild } from './internal/close-build'
import { mayUseDesign } from './internal/own-design-row'
import { modelOf } from './internal/plan-source'
import { sayNear } from './internal/say-near'
import { shortParts } from './internal/short-parts'
import { announce, type Transaction, transact } from './transaction'

const name = z
  .string()
  .trim()
  .min(1, 'Give the build a name, like «Seats for the kitchen».')
  .max(120, 'Keep the name to 120 characters.')
const notes = z.string().trim().max(4000, 'Keep the notes to 4000 characters.')

async function tellOf(tx: Transaction, buildId: string, makerId: string): Promise<void> {
  for (const topic of ['builds', `build:${buildId}`, `member:${makerId}`]) await announce(tx, topic)
}

/** Begins a build of a design, with the design's own numbers. */
export const start = action({
  audience: 'member',
  input: z.object({ name, designId: z.string().max(80) }),
  run: async (actor, input) => {
    return transact(async (tx) => {
      const isOffered = await mayUseDesign(tx, actor, input.designId)
      const model = isOffered ? await modelOf(input.designId, {}, tx) : undefined
      if (!model?.ok) return err(refusal('badInput', { fields: { designId: 'Choose one of the designs.' } }))
      const { parameters } = model.value
      const build = await tx.build.create({
        data: {
          name: input.name,
          memberId: actor.memberId,
          variants: { create: { designId: input.designId, parameters: { ...parameters } } },
        },
        select: { id: true },
      })
      await tellOf(tx, build.id, actor.memberId)
      return ok({ buildId: build.id })
    })
  },
})

/** Names the build anew, and keeps what its maker wants to remember. */
export const describe = action({
  audience: 'member',
  input: z.object({ buildId: id, name, notes }),
  run: (actor, { buildId, ...data }) =>
    transact(async (tx) => {
      const build = await changeableBuild(tx, actor, buildId)
      if (!build.ok) return build
      await tx.build.update({ where: { id: buildId }, data })
      await tellOf(tx, buildId, build.value.memberId)
      return ok(null)
    }),
})

const close = (field: 'finishedAt' | 'abandonedAt') =>
  action({
    audience: 'member',
    input: z.object({ buildId: id }),
    run: (actor, { buildId }) =>
      transact(async (tx) => {
        const build = await changeableOpenBuild(tx, actor, buildId, 'update')
        if (!build.ok) return build
        const now = new Date()
        const settled = await settleBuild(tx, buildId, actor.memberId, now)
        await tx.build.update({ where: { id: buildId }, data: { [field]: now } })
        await tellOf(tx, buildId, build.value.memberId)
        return ok(settled)
      }),
  })

/** The piece is done. Boards that it still holds go back to the pool, bookings to come are given up. */
export const finish = close('finishedAt')
/** The build is given up. Boards that it holds go back to the pool, bookings to come are given up. */
export const abandon = close('abandonedAt')

/** Takes up a build again. What it held is not held again. */
export const reopen = action({
  audience: 'member',
  input: z.object({ buildId: id }),
  run: (actor, { buildId }) =>
    transact(async (tx) => {
      const build = await changeableBuild(tx, actor, buildId, 'update')
      if (!build.ok) return build
      if (!build.value.finishedAt && !build.value.abandonedAt) return err(refusal('alreadyDecided'))
      await tx.build.update({ where: { id: buildId }, data: { finishedAt: null, abandonedAt: null } })
      await tellOf(tx, buildId, build.value.memberId)
      return ok(null)
    }),
})

interface Named {
  readonly designId: string
  readonly ownVersion: { readonly design: { readonly name: string } } | null
}

const designName = ([variant]: readonly Named[]) => {
  if (!variant) return null
  const { designId, ownVersion } = variant
  return ownVersion?.design.name ?? designById(designId)?.name ?? 'A design that is not here any more'
}

const HEAD = {
  id: true,
  name: true,
  memberId: true,
  finishedAt: true,
  abandonedAt: true,
  createdAt: true,
  member: { select: { name: true } },
  variants: {
    where: { chosen: true },
    select: { designId: true, ownVersion: { select: { design: { select: { name: true } } } } },
  },
} satisfies Prisma.BuildSelect

function plainHead(b: Prisma.BuildGetPayload<{ select: typeof HEAD }>) {
  const { member, variants, memberId, ...build } = b
  return { ...build, makerId: memberId, makerName: member.name, designName: designName(variants) }
}

/** What stands over every page of a build. */
export const header = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }) => {
    const build = await database().build.findUnique({ where: { id: buildId }, select: HEAD })
    if (!build) return err(refusal('notFound'))
    return ok({
      ...plainHead(build),
      isMine: build.memberId === actor.memberId,
      mayChange: mayChange(actor, build.memberId),
      isOpen: !build.finishedAt && !build.abandonedAt,
    })
  },
})

/** The build's own page: its stage, what is short, who is in on it. */
export const overview = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (_actor, { buildId }) => {
    const now = new Date()
    const [build, facts, short, bookings, say] = await Promise.all([
      database().build.findUnique({ where: { id: buildId }, select: { notes: true } }),
      buildFacts([buildId], now),
      shortParts(buildId),
      bookingsOf(buildId, now),
      sayNear(now),
    ])
    const known = facts.get(buildId)
    if (!build || !known) return err(refusal('notFound'))
    const isPlanned = known.plan === 'ready' || known.plan === 'stale'
    return ok({
      notes: build.notes,
      facts: known,
      ...buildStage(known, say),
      short: isPlanned ? short : { parts: [], cure: null },
      bookings,
    })
  },
})

async function bookingsOf(buildId: string, now: Date) {
  const rows = await database().booking.findMany({
    where: { buildId, status: { in: ['requested', 'approved'] }, endAt: { gt: now } },
    select: {
      id: true,
      status: true,
      startAt: true,
      endAt: true,
      memberId: true,
      member: { select: { name: true } },
      station: { select: { id: true, name: true } },
    },
    orderBy: { startAt: 'asc' },
    take: 50,
  })
  return rows.map(({ station, member, ...b }) => ({
    ...b,
    memberName: member.name,
    stationId: station.id,
    stationName: station.name,
  }))
}

const PEOPLE = {
  comments: {
    where: { deletedAt: null },
    distinct: ['memberId'],
    select: { member: { select: { id: true, name: true } } },
  },
  holds: {
    where: { status: { in: ['live', 'used'] } },
    select: { board: { select: { owner: { select: { id: true, name: true } } } } },
  },
} satisfies Prisma.BuildSelect

const LIST_ROW = { ...HEAD, ...PEOPLE } satisfies Prisma.BuildSelect
const MOST_LISTED = 200

/** Everyone but the maker who is in on it: owners of its boards, those who commented. */
function othersOf(b: Prisma.BuildGetPayload<{ select: typeof LIST_ROW }>): string[] {
  const people = [...b.holds.map((h) => h.board.owner), ...b.comments.map((c) => c.member)]
  const names = new Map(people.map((p) => [p.id, p.name]))
  names.delete(b.memberId)
  return [...names.values()]
}

/** All builds of the shop: mine first, then those changed last. */
export const all = query({
  audience: 'member',
  shared: true,
  input: z.object({ show: z.enum(['open', 'closed']).default('open') }),
  run: async (actor, { show }) => {
    const now = new Date()
    const isOpen = { finishedAt: null, abandonedAt: null }
    const where = show === 'open' ? isOpen : { NOT: isOpen }
    const [mine, others, count] = await Promise.all(
      [
        { ...where, memberId: actor.memberId },
        { ...where, memberId: { not: actor.memberId } },
      ].map((w) =>
        database().build.findMany({
          where: w,
          select: LIST_ROW,
          orderBy: [{ updatedAt: 'desc' }, { id: 'asc' }],
          take: MOST_LISTED,
        }),
      ),
    ).then(async ([m, o]) => [m, o, await database().build.count({ where })] as const)
    const rows = [...mine, ...others]
    const [facts, say] = await Promise.all([
      buildFacts(
        rows.map((r) => r.id),
        now,
      ),
      sayNear(now),
    ])
    return ok({
      count,
      builds: rows.map((r) => {
        const { comments: _, holds: __, ...head } = r
        const known = facts.get(r.id)!
        return {
          ...plainHead(head),
          isMine: r.memberId === actor.memberId,
          others: othersOf(r),
          short: known.parts.short,
          ...buildStage(known, say),
        }
      }),
    })
  },
})
