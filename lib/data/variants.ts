/**
 * Variants of a build: any number of parameter sets side by side, one of them chosen. Made, named, changed, chosen and
 * taken away by the build's maker or an admin; seen by all. Numbers are built anew here with the same core as the
 * page's, and saved by the version that the writer saw. What follows when the choice changes:
 * docs/decisions/007-variants.md. Tests: tests/data/variants.test.ts, tests/data/choose-variant.test.ts
 */
import 'server-only'
import { z } from 'zod'
import type { ParameterValues } from '#lib/core/design/model'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Actor } from '#lib/shop/actor'
import { ownVersionOf } from '#lib/shop/own-design'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import type { Prisma } from './generated/client'
import { type ChangeableBuild, changeableOpenBuild, mayChange } from './internal/changeable-build'
import { stopPlans } from './internal/close-build'
import { findDesign } from './internal/designs'
import { mayUseDesign, newerVersion } from './internal/own-design-row'
import { settleParts } from './internal/settle-parts'
import { announce, type Transaction, transact } from './transaction'

const MOST_PARAMETERS = 200
/** Of one build; a bound for the page, not for the maker. */
export const MOST_VARIANTS = 60

const value = z.union([z.number('Enter a number.'), z.string().max(200)])
const parameters = z
  .record(z.string().max(80), value)
  .refine((all) => Object.keys(all).length <= MOST_PARAMETERS, 'These are too many parameters.')
const name = z
  .string()
  .trim()
  .min(1, 'Give the variant a name, like «With a low back».')
  .max(80, 'Keep the name to 80 characters.')

const NAME_TAKEN = refusal('alreadyExists', {
  fields: { name: 'Another variant of this build has that name.' },
})
const CLASHES = { variant_one_name_per_build: NAME_TAKEN }

/** The parameters as all of them, or a sentence by parameter. */
async function readAgain(tx: Transaction, designId: string, values: ParameterValues) {
  const design = await findDesign(designId, tx)
  if (!design) return err(refusal('designRefused', { about: 'The design is not in this shop any more.' }))
  const model = design.build(values)
  if (model.ok) return ok({ ...model.value.parameters })
  const fields: Record<string, string> = {}
  for (const { parameter, message } of model.error) fields[parameter] ??= message
  return err(refusal('designRefused', { fields }))
}

async function tell(tx: Transaction, buildId: string): Promise<void> {
  await tx.build.update({ where: { id: buildId }, data: { updatedAt: new Date() } })
  for (const topic of ['builds', `build:${buildId}`]) await announce(tx, topic)
}

const KEPT = { id: true, buildId: true, designId: true, chosen: true, version: true } as const
type Kept = Prisma.VariantGetPayload<{ select: typeof KEPT }>

/** The variant, if it is there and its open build is the actor's to change. The build is locked against all others. */
async function changeable(
  tx: Transaction,
  actor: Actor,
  variantId: string,
): Promise<Result<{ variant: Kept; build: ChangeableBuild }, Refusal>> {
  const where = { id: variantId, deletedAt: null }
  const found = await tx.variant.findFirst({ where, select: { buildId: true } })
  if (!found) return err(refusal('notFound'))
  const build = await changeableOpenBuild(tx, actor, found.buildId, 'update')
  if (!build.ok) return build
  // Again, now that nobody else changes it.
  const variant = await tx.variant.findFirst({ where, select: KEPT })
  return variant ? ok({ variant, build: build.value }) : err(refusal('notFound'))
}

export const save = action({
  audience: 'member',
  input: z.object({ variantId: id, version: z.int().min(1), parameters }),
  run: (actor, input) =>
    transact(async (tx) => {
      const { variantId, version } = input
      const found = await changeable(tx, actor, variantId)
      if (!found.ok) return found
      const { buildId, designId, chosen: isChosen } = found.value.variant
      const read = await readAgain(tx, designId, input.parameters)
      if (!read.ok) return read
      const saved = await tx.variant.updateMany({
        where: { id: variantId, version },
        data: { parameters: read.value, version: { increment: 1 } },
      })
      if (saved.count === 0) return err(refusal('changedMeanwhile'))
      if (isChosen) await settleParts(tx, buildId)
      await tell(tx, buildId)
      return ok({ version: version + 1 })
    }),
})

/** Another variant, from the numbers of one that there is, or from numbers that are not saved anywhere yet. */
export const make = action({
  audience: 'member',
  input: z.object({ fromId: id, name, parameters: parameters.optional() }),
  run: (actor, input) =>
    transact(async (tx) => {
      const found = await changeable(tx, actor, input.fromId)
      if (!found.ok) return found
      const { buildId, designId } = found.value.variant
      const from = await tx.variant.findUniqueOrThrow({
        where: { id: input.fromId },
        select: { parameters: true, finishPlan: { select: { plan: true } } },
      })
      const read = await readAgain(tx, designId, input.parameters ?? (from.parameters as ParameterValues))
      if (!read.ok) return read
      const count = await tx.variant.count({ where: { buildId, deletedAt: null } })
      if (count >= MOST_VARIANTS)
        return err(refusal('tooMany', { about: `Take away one of the ${count} variants first.` }))
      const made = await tx.variant.create({
        data: {
          ...{ buildId, designId, name: input.name, parameters: read.value, chosen: false },
          // Finished as the one that it comes from, until its maker says otherwise.
          ...(from.finishPlan ? { finishPlan: { create: { plan: from.finishPlan.plan as object } } } : {}),
        },
        select: { id: true },
      })
      await tell(tx, buildId)
      return ok({ variantId: made.id })
    }, CLASHES),
})

export const rename = action({
  audience: 'member',
  input: z.object({ variantId: id, name }),
  run: (actor, input) =>
    transact(async (tx) => {
      const found = await changeable(tx, actor, input.variantId)
      if (!found.ok) return found
      await tx.variant.update({ where: { id: input.variantId }, data: { name: input.name } })
      await tell(tx, found.value.variant.buildId)
      return ok(null)
    }, CLASHES),
})

/** Takes a variant away, with the votes for it and the stills of it. What was said about it stays with the build. */
export const remove = action({
  audience: 'member',
  input: z.object({ variantId: id }),
  run: (actor, { variantId }) =>
    transact(async (tx) => {
      const found = await changeable(tx, actor, variantId)
      if (!found.ok) return found
      const { buildId, chosen: isChosen } = found.value.variant
      if (isChosen) return err(refusal('variantChosen'))
      await tx.vote.deleteMany({ where: { variantId } })
      await tx.still.updateMany({
        where: { variantId, deletedAt: null },
        data: { deletedAt: new Date(), png: null },
      })
      await tx.variant.update({ where: { id: variantId }, data: { deletedAt: new Date() } })
      await tell(tx, buildId)
      return ok(null)
    }),
})

/**
 * Makes a variant the one that the build is made to. A cut plan of another one that is not finished is stopped; pieces
 * that are cut and do not fit any more are set aside; holds stay.
 */
export const choose = action({
  audience: 'member',
  input: z.object({
    variantId: id,
    version: z.int().min(1),
    /** The one that was chosen when this was decided. */
    insteadOfId: id,
  }),
  run: (actor, { variantId, version, insteadOfId }) =>
    transact(async (tx) => {
      const found = await changeable(tx, actor, variantId)
      if (!found.ok) return found
      const { variant } = found.value
      const { buildId } = variant
      if (variant.chosen) return err(refusal('alreadyDecided'))
      if (variant.version !== version) return err(refusal('changedMeanwhile'))
      const read = await readAgain(tx, variant.designId, await numbersOf(tx, variantId))
      if (!read.ok) return read
      const left = await tx.variant.updateMany({
        where: { id: insteadOfId, buildId, chosen: true },
        data: { chosen: false },
      })
      if (left.count !== 1) return err(refusal('changedMeanwhile'))
      await tx.variant.update({ where: { id: variantId }, data: { chosen: true } })
      const now = new Date()
      const plansStopped = await stopPlans(tx, buildId, now, { variantId })
      const settled = await settleParts(tx, buildId, now)
      await tell(tx, buildId)
      return ok({ ...settled, plansStopped })
    }),
})

/** Makes a variant to a later version of its own design: numbers stay where the design still has them. */
export const takeVersion = action({
  audience: 'member',
  input: z.object({ variantId: id, version: z.int().min(1), designId: z.string().max(80) }),
  run: (actor, { variantId, version, designId }) =>
    transact(async (tx) => {
      const found = await changeable(tx, actor, variantId)
      if (!found.ok) return found
      const { variant } = found.value
      const isLater = ownVersionOf(designId)?.designId === ownVersionOf(variant.designId)?.designId
      const isOffered = ownVersionOf(designId) !== undefined && isLater
      if (!isOffered || !(await mayUseDesign(tx, actor, designId))) return err(refusal('notFound'))
      const design = await findDesign(designId, tx)
      if (!design) return err(refusal('notFound'))
      const known = new Set(design.parameters.map((spec) => spec.id))
      const numbers = Object.entries(await numbersOf(tx, variantId)).filter(([name]) => known.has(name))
      const read = await readAgain(tx, designId, Object.fromEntries(numbers))
      if (!read.ok) return read
      const saved = await tx.variant.updateMany({
        where: { id: variantId, version },
        data: { designId, parameters: read.value, version: { increment: 1 } },
      })
      if (saved.count === 0) return err(refusal('changedMeanwhile'))
      if (variant.chosen) await settleParts(tx, variant.buildId)
      await tell(tx, variant.buildId)
      return ok({ version: version + 1 })
    }),
})

async function numbersOf(tx: Transaction, variantId: string): Promise<ParameterValues> {
  const row = await tx.variant.findUniqueOrThrow({ where: { id: variantId }, select: { parameters: true } })
  return row.parameters as ParameterValues
}

/** A variant to look at and change: the one that is asked for, or the one that the build is made to. */
export const open = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id, variantId: id.optional() }),
  run: async (actor, { buildId, variantId }) => {
    const which = variantId ? { id: variantId } : { chosen: true }
    const build = await database().build.findUnique({
      where: { id: buildId },
      select: {
        memberId: true,
        finishedAt: true,
        abandonedAt: true,
        variants: {
          where: { ...which, deletedAt: null },
          select: {
            id: true,
            name: true,
            chosen: true,
            designId: true,
            parameters: true,
            version: true,
            updatedAt: true,
          },
        },
        _count: {
          select: {
            // A stave is not a part.
            partsMade: { where: { setAsideAt: null, partId: { not: { contains: '~' } } } },
            variants: { where: { deletedAt: null } },
          },
        },
      },
    })
    const variant = build?.variants[0]
    if (!variant) return err(refusal('notFound'))
    const isOpen = !build.finishedAt && !build.abandonedAt
    return ok({
      ...variant,
      parameters: variant.parameters as ParameterValues,
      /** A later version of it that is offered to this member. */
      newer: await newerVersion(actor, variant.designId),
      variants: build._count.variants,
      partsMade: variant.chosen ? build._count.partsMade : 0,
      mayChange: isOpen && mayChange(actor, build.memberId),
    })
  },
})

/** The variant that a build is made to, and how far it is tied down already. */
export const chosen = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: (actor, { buildId }) => open(actor, { buildId }),
})
