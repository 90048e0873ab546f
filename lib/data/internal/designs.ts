/**
 * Designs by the name that a variant gives: shipped ones, and versions of members' own. A version never changes, so
 * what was made of it is kept; it is checked anew when it is read, since rules may have grown stricter.
 * Tests: tests/data/own-designs.test.ts
 */
import 'server-only'
import { designById } from '#lib/core/design/designs/registry'
import type { Design } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { Kept } from '#lib/core/units/kept'
import { parseFormula } from '#lib/engine/formula-parser'
import { recipeInput } from '#lib/engine/recipe-input'
import { ownDesignName, ownVersionOf } from '#lib/shop/own-design'
import { database } from '../client'
import type { Transaction } from '../transaction'

interface OwnMade {
  readonly recipe: Recipe
  /** Absent where the recipe makes no sense any more. */
  readonly design: Design | undefined
}

const kept = new Kept<OwnMade>(500)

function keep(name: string, stored: unknown): void {
  const number = ownVersionOf(name)!.number
  const recipe = recipeInput.safeParse(stored)
  if (!recipe.success) return
  const made = recipeDesign(recipe.data, { id: name, version: number }, parseFormula)
  kept.set(name, { recipe: recipe.data, design: made.ok ? made.value : undefined })
}

/** Reads the versions that are not kept yet, all at once. */
export async function fetchDesigns(
  designIds: readonly string[],
  tx: Transaction = database(),
): Promise<void> {
  const wanted = [...new Set(designIds)].flatMap((name) => {
    const version = kept.has(name) ? undefined : ownVersionOf(name)
    return version === undefined ? [] : [version]
  })
  if (wanted.length === 0) return
  const rows = await tx.ownDesignVersion.findMany({
    where: { OR: wanted },
    select: { designId: true, number: true, recipe: true },
  })
  for (const { recipe, ...version } of rows) keep(ownDesignName(version), recipe)
}

/** A design by its name; undefined if it is not in this shop. */
export async function findDesign(designId: string, tx?: Transaction): Promise<Design | undefined> {
  if (ownVersionOf(designId) === undefined) return designById(designId)
  await fetchDesigns([designId], tx)
  return kept.get(designId)?.design
}

/** The recipe of a member's own design, for a page that works on it; null for a shipped one. */
export async function recipeOf(designId: string, tx?: Transaction): Promise<Recipe | null> {
  await fetchDesigns([designId], tx)
  return kept.get(designId)?.recipe ?? null
}
