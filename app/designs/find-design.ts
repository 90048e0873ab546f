import { designById } from '#lib/core/design/designs/registry'
import type { Design } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { recipe } from '#lib/data/own-designs'
import { ownDesign } from '#lib/engine/own-design'
import { ownVersionOf } from '#lib/shop/own-design'
import { load } from '../load'

/** The recipe of a version of a member's own design; undefined for a shipped one. */
export const findRecipe = async (designId: string): Promise<Recipe | undefined> =>
  ownVersionOf(designId) ? load(recipe, { designId }) : undefined

/** A shipped design, or the version of a member's own that a build is made to; undefined if it is not here any more. */
export async function findDesign(designId: string): Promise<Design | undefined> {
  const own = await findRecipe(designId)
  return own ? ownDesign(designId, own) : designById(designId)
}
