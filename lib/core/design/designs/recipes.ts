/** Shipped designs as recipes, for copying. Loaded where a recipe is copied or edited, and nowhere else. */
import type { Recipe } from '../recipe/recipe'
import { benchRecipe } from './bench/bench-recipe'
import { bookcaseRecipe } from './bookcase/bookcase-recipe'
import { crateRecipe } from './crate/crate-recipe'
import { plantStandRecipe } from './plant-stand/plant-stand-recipe'
import { sideTableRecipe } from './side-table/side-table-recipe'
import { wallShelfRecipe } from './wall-shelf/wall-shelf-recipe'

/** By the id of the design in code. A design without one here cannot be copied. */
export const recipes: ReadonlyMap<string, Recipe> = new Map([
  ['sideTable', sideTableRecipe],
  ['bench', benchRecipe],
  ['wallShelf', wallShelfRecipe],
  ['bookcase', bookcaseRecipe],
  ['crate', crateRecipe],
  ['plantStand', plantStandRecipe],
])
