/**
 * All variants of a build side by side, with what only the database knows: votes, what was said, whether the pool
 * yields their parts by their last cut plan, and the shop's figures that hours and prices are worked out from.
 * Tests: tests/data/variant-sheet.test.ts
 */
import 'server-only'
import { z } from 'zod'
import type { ParameterValues } from '#lib/core/design/model'
import { err, ok } from '#lib/core/units/result'
import { cutShop, setupShop } from '#lib/shop/machines'
import { refusal } from '#lib/shop/refusal'
import { id, query } from './action'
import { database } from './client'
import type { Prisma } from './generated/client'
import { mayChange } from './internal/changeable-build'
import { designText, modelParts } from './internal/model-parts'
import { stationFigures } from './internal/plan-source'
import { shopRow } from './internal/shop-row'

/** What the last cut plan of a variant says of the pool. */
export interface VariantPlan {
  readonly wanted: number
  readonly placed: number
  readonly plannedAt: Date
  readonly isUnfinished: boolean
  /** Planned for numbers that the variant does not have any more. */
  readonly isOlder: boolean
}

interface PlanRow {
  readonly variantId: string
  readonly status: string
  readonly createdAt: Date
  readonly wanted: number
  readonly placed: number
  readonly design: { designId: string; designVersion: number; parameters: ParameterValues }
}

/** The newest plan with a result of each variant. */
const lastPlans = (buildId: string) => database().$queryRaw<PlanRow[]>`
  select distinct on ("variantId") "variantId", "status"::text as status, "createdAt",
    "input" -> 'design' as design,
    (select coalesce(sum(jsonb_array_length(n -> 'partIds')), 0)::int
      from jsonb_array_elements("input" -> 'needs') n) as wanted,
    (select coalesce(sum(jsonb_array_length(p)), 0)::int
      from jsonb_array_elements("result" -> 'partIds') p) as placed
  from "CutPlan" where "buildId" = ${buildId}::uuid and not "isTogether" and "result" is not null
  order by "variantId", "createdAt" desc, "id"`

const VARIANT = {
  id: true,
  name: true,
  chosen: true,
  version: true,
  designId: true,
  parameters: true,
  updatedAt: true,
  votes: {
    where: { member: { removedAt: null } },
    select: { memberId: true, variantVersion: true, member: { select: { name: true } } },
    orderBy: { at: 'asc' },
  },
  _count: { select: { comments: { where: { deletedAt: null } } } },
} satisfies Prisma.VariantSelect

type Row = Prisma.VariantGetPayload<{ select: typeof VARIANT }>

async function planOf(row: Row, plans: readonly PlanRow[]): Promise<VariantPlan | null> {
  const plan = plans.find((p) => p.variantId === row.id)
  if (!plan) return null
  const { designId, designVersion, parameters } = plan.design
  const now = await modelParts(row.designId, row.parameters)
  return {
    wanted: plan.wanted,
    placed: plan.placed,
    plannedAt: plan.createdAt,
    isUnfinished: plan.status === 'queued' || plan.status === 'running',
    isOlder: now?.text !== designText(designId, designVersion, parameters),
  }
}

async function variantOf(row: Row, plans: readonly PlanRow[], memberId: string) {
  const { votes, _count, parameters, ...variant } = row
  return {
    ...variant,
    parameters: parameters as ParameterValues,
    comments: _count.comments,
    votes: votes.map((v) => ({
      memberName: v.member.name,
      isMine: v.memberId === memberId,
      /** Given to numbers that have changed since. */
      isOlder: v.variantVersion !== row.version,
    })),
    plan: await planOf(row, plans),
  }
}

/** The shop's figures that hours and prices of any variant follow from. */
async function shopFigures() {
  const [shop, stations] = await Promise.all([shopRow(), stationFigures(database())])
  const { currency, softwoodPerM3Minor, hardwoodPerM3Minor } = shop
  return {
    cut: cutShop(shop, stations),
    setups: setupShop(stations),
    prices: { currency, softwoodPerM3Minor, hardwoodPerM3Minor },
  }
}

/** The chosen one first, then those made first. */
export const ofBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }) => {
    const [build, plans, shop] = await Promise.all([
      database().build.findUnique({
        where: { id: buildId },
        select: {
          memberId: true,
          finishedAt: true,
          abandonedAt: true,
          variants: {
            where: { deletedAt: null },
            select: VARIANT,
            orderBy: [{ chosen: 'desc' }, { createdAt: 'asc' }, { id: 'asc' }],
          },
          _count: {
            select: {
              partsMade: { where: { setAsideAt: null } },
              holds: { where: { status: { in: ['live', 'requested'] }, expiresAt: { gt: new Date() } } },
            },
          },
        },
      }),
      lastPlans(buildId),
      shopFigures(),
    ])
    if (!build) return err(refusal('notFound'))
    const isOpen = !build.finishedAt && !build.abandonedAt
    return ok({
      variants: await Promise.all(build.variants.map((row) => variantOf(row, plans, actor.memberId))),
      partsMade: build._count.partsMade,
      boardsHeld: build._count.holds,
      mayChange: isOpen && mayChange(actor, build.memberId),
      /** Vote and comment. */
      isOpen,
      shop,
    })
  },
})

/** What the shop's hours and prices follow from, for one piece on its own page. */
export const figures = query({
  audience: 'member',
  shared: true,
  input: z.object({}).optional(),
  run: async () => ok(await shopFigures()),
})
