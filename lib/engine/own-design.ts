/** A member's own design from the recipe of one of its versions. Loads the reader of formulas: import it when needed. */
import type { Design } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { parseFormula } from './formula-parser'

/**
 * @param name as a variant has it: `own:<id>@<version>`
 * @returns undefined for a recipe that makes no sense
 */
export function ownDesign(name: string, recipe: Recipe): Design | undefined {
  const version = Number(name.slice(name.indexOf('@') + 1)) || 1
  const made = recipeDesign(recipe, { id: name, version }, parseFormula)
  return made.ok ? made.value : undefined
}
