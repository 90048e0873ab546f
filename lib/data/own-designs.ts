/**
 * Members' own designs: copied from one that there is, changed in versions that are only ever added to, shared with the
 * shop or not. A save names the version that the writer saw; two savings of one number clash in the database. What is
 * saved makes sense and builds with its own defaults. Tests: tests/data/own-designs.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { recipes } from '#lib/core/design/designs/recipes'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { err, ok, type Result } from '#lib/core/units/result'
import { parseFormula } from '#lib/engine/formula-parser'
import { recipeInput } from '#lib/engine/recipe-input'
import type { Actor } from '#lib/shop/actor'
import { mayChangeDesign, ownDesignName, ownVersionOf } from '#lib/shop/own-design'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id, nothing, query } from './action'
import { database } from './client'
import type { Prisma } from './generated/client'
import { recipeOf } from './internal/designs'
import { changeableBy, mayUseDesign, offeredTo } from './internal/own-design-row'
import { announce, transact } from './transaction'

const MOST_OWN = 200
const MOST_VERSIONS = 1000
const name = z.string().trim().min(1, 'Give the design a name.').max(120, 'At most 120 characters.')
const note = z.string().trim().max(1000, 'At most 1000 characters.').default('')
const number = z.int().min(1).max(MOST_VERSIONS)

const json = (recipe: Recipe) => JSON.parse(JSON.stringify(recipe)) as Prisma.InputJsonObject

/** The recipe that a copy begins with, if the design is offered and has one. */
async function recipeToCopy(actor: Actor, from: string): Promise<Result<Recipe, Refusal>> {
  if (!(await mayUseDesign(database(), actor, from))) return err(refusal('notFound'))
  const recipe = ownVersionOf(from) ? await recipeOf(from) : recipes.get(from)
  if (recipe) return ok(recipe)
  const about = 'Its formulas are not written so that they can be changed here.'
  return err(refusal('notCopied', { about }))
}

/** A copy of a design, mine alone to begin with. */
export const copy = action({
  audience: 'member',
  input: z.object({ from: z.string().max(80), name }),
  run: async (actor, { from, name }) => {
    const recipe = await recipeToCopy(actor, from)
    if (!recipe.ok) return recipe
    return transact(async (tx) => {
      const own = await tx.ownDesign.count({ where: { ownerId: actor.memberId, removedAt: null } })
      if (own >= MOST_OWN) return err(refusal('tooMany', { about: 'Take away a design first.' }))
      const made = await tx.ownDesign.create({
        data: { ownerId: actor.memberId, name, copiedFrom: from },
        select: { id: true },
      })
      const first = { designId: made.id, number: 1, memberId: actor.memberId }
      await tx.ownDesignVersion.create({ data: { ...first, recipe: json({ ...recipe.value, name }) } })
      await announce(tx, 'designs')
      return ok({ designId: made.id })
    })
  },
})

/** What is wrong with a recipe, by field; nothing if it makes sense and builds with its own defaults. */
function faultsOf(recipe: Recipe): Record<string, string> {
  const made = recipeDesign(recipe, { id: 'draft', version: 1 }, parseFormula)
  const fields: Record<string, string> = {}
  if (!made.ok) {
    for (const { path, message } of made.error) fields[`recipe.${path}`] ??= message
    return fields
  }
  const built = made.value.build({})
  if (built.ok) return {}
  for (const { at, parameter, message } of built.error) fields[at ? `recipe.${at}` : parameter] ??= message
  return fields
}

const TAKEN = { OwnDesignVersion_pkey: refusal('changedMeanwhile') }

/** Adds a version after the one that the writer saw. */
export const save = action({
  audience: 'member',
  input: z.object({ designId: id, version: number, recipe: recipeInput, note }),
  run: async (actor, { designId, version, recipe, note }) => {
    const fields = faultsOf(recipe)
    if (Object.keys(fields).length > 0) return err(refusal('recipeFaulty', { fields }))
    return transact(async (tx) => {
      const changed = await tx.ownDesign.updateMany({
        where: { id: designId, ...changeableBy(actor) },
        data: { name: recipe.name, updatedAt: new Date() },
      })
      if (changed.count === 0) return err(await refusalFor(actor, designId))
      const last = await tx.ownDesignVersion.findFirst({
        where: { designId },
        orderBy: { number: 'desc' },
        select: { number: true },
      })
      if (last?.number !== version) return err(refusal('changedMeanwhile'))
      if (version >= MOST_VERSIONS) return err(refusal('tooMany', { about: 'Copy the design to go on.' }))
      await tx.ownDesignVersion.create({
        data: { designId, number: version + 1, recipe: json(recipe), note, memberId: actor.memberId },
      })
      await announce(tx, 'designs')
      return ok({ version: version + 1 })
    }, TAKEN)
  },
})

/** Not there, or seen and not to be changed. */
async function refusalFor(actor: Actor, designId: string): Promise<Refusal> {
  const row = await database().ownDesign.findFirst({
    where: { id: designId, ...offeredTo(actor) },
    select: { id: true },
  })
  return refusal(row ? 'notAllowed' : 'notFound')
}

async function change(
  actor: Actor,
  designId: string,
  data: Prisma.OwnDesignUpdateManyMutationInput,
): Promise<Result<null, Refusal>> {
  return transact(async (tx) => {
    const changed = await tx.ownDesign.updateMany({ where: { id: designId, ...changeableBy(actor) }, data })
    if (changed.count === 0) return err(await refusalFor(actor, designId))
    await announce(tx, 'designs')
    return ok(null)
  })
}

/** Offers it to all members, or keeps it to oneself. Builds that are made to it go on. */
export const share = action({
  audience: 'member',
  input: z.object({ designId: id, sharing: z.enum(['mine', 'shop']) }),
  run: (actor, { designId, sharing }) => change(actor, designId, { sharing }),
})

/** Offers it nowhere any more. Builds that are made to it go on. */
export const remove = action({
  audience: 'member',
  input: z.object({ designId: id }),
  run: (actor, { designId }) => change(actor, designId, { removedAt: new Date() }),
})

const ROW = {
  id: true,
  name: true,
  sharing: true,
  ownerId: true,
  updatedAt: true,
  owner: { select: { name: true } },
  versions: { orderBy: { number: 'desc' }, take: 1, select: { number: true } },
} satisfies Prisma.OwnDesignSelect

/** One's own designs and those that others share, each with its last version. */
export const offered = query({
  audience: 'member',
  input: nothing,
  run: async (actor) => {
    const rows = await database().ownDesign.findMany({
      where: offeredTo(actor),
      select: ROW,
      orderBy: [{ updatedAt: 'desc' }, { id: 'asc' }],
      take: MOST_OWN,
    })
    const all = rows.map(async ({ versions, owner, ownerId, ...design }) => {
      const { number } = versions[0]
      const designId = ownDesignName({ designId: design.id, number })
      const recipe = await recipeOf(designId)
      const isMine = ownerId === actor.memberId
      return { ...design, number, designId, ownerName: owner.name, isMine, recipe }
    })
    return ok(await Promise.all(all))
  },
})

/** The recipe of one version: of a design that is offered, or that a build of the shop is made to. */
export const recipe = query({
  audience: 'member',
  input: z.object({ designId: z.string().max(80) }),
  run: async (actor, input) => {
    const version = ownVersionOf(input.designId)
    if (!version) return err(refusal('notFound'))
    const seen = await database().ownDesignVersion.findFirst({
      where: { ...version, OR: [{ design: offeredTo(actor) }, { variants: { some: {} } }] },
      select: { number: true },
    })
    const found = seen && (await recipeOf(input.designId))
    return found ? ok(found) : err(refusal('notFound'))
  },
})

/** A design with one of its versions, the last by default, and the list of all. */
export const open = query({
  audience: 'member',
  input: z.object({ designId: id, version: number.optional() }),
  run: async (actor, { designId, version }) => {
    const row = await database().ownDesign.findFirst({
      where: { id: designId, ...offeredTo(actor) },
      select: {
        ...ROW,
        copiedFrom: true,
        versions: {
          orderBy: { number: 'desc' },
          select: { number: true, note: true, at: true, member: { select: { name: true } } },
        },
      },
    })
    if (!row) return err(refusal('notFound'))
    const { owner, ownerId, versions, ...design } = row
    const last = versions[0].number
    const recipe = await recipeOf(ownDesignName({ designId, number: version ?? last }))
    if (!recipe) return err(refusal('notFound'))
    return ok({
      ...design,
      recipe,
      number: version ?? last,
      last,
      ownerName: owner.name,
      isMine: ownerId === actor.memberId,
      mayChange: mayChangeDesign(actor, { ownerId, sharing: design.sharing }),
      versions: versions.map(({ member, ...v }) => ({ ...v, memberName: member.name })),
    })
  },
})
