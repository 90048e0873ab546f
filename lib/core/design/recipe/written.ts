/** Short ways to write the recipes of shipped designs. */
import type { Design } from '../model'
import { BUILT_IN } from './check-recipe'
import type { Formula, RecipeDimension, RecipeParameter } from './recipe'

/** The parameters of a design in code, without those that every recipe has. */
export const ownParameters = ({ parameters, cures = {} }: Design): RecipeParameter[] =>
  parameters
    .filter(({ id }) => !BUILT_IN.some((spec) => spec.id === id))
    .map((spec) => (cures[spec.id] === undefined ? spec : { ...spec, cure: cures[spec.id] }))

type Linear = Extract<RecipeDimension, { kind: 'linear' }>

/** @param at the coordinates that it does not run along */
export const measured = (
  view: Linear['view'],
  side: Linear['side'],
  from: Formula,
  to: Formula,
  at: readonly [Formula, Formula, Formula] = ['0', '0', '0'],
  more: Pick<Linear, 'near' | 'when'> = {},
): Linear => ({ kind: 'linear', view, side, from, to, x: at[0], y: at[1], z: at[2], ...more })
