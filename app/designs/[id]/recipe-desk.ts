/**
 * What the editor asks about a recipe at every keystroke: faults by field, the piece, and what each formula is worth.
 * Fetched after the page, since it brings the reader of formulas. Formulas that were read before are not read again.
 */
import type { Model } from '#lib/core/design/model'
import { readParameters } from '#lib/core/design/parameters'
import { checkRecipe } from '#lib/core/design/recipe/check-recipe'
import { valuesFor } from '#lib/core/design/recipe/copies'
import type { Value } from '#lib/core/design/recipe/evaluate'
import { judgeFormula } from '#lib/core/design/recipe/judge-formula'
import type { Recipe, RecipePart } from '#lib/core/design/recipe/recipe'
import { designFrom, parametersOf, soundnessOf } from '#lib/core/design/recipe/recipe-design'
import { formulaFields, type NamesFor } from '#lib/core/design/recipe/recipe-fields'
import { startRun, worth } from '#lib/core/design/recipe/recipe-run'
import { sayWorth } from '#lib/core/design/recipe/template'
import { parseFormula } from '#lib/engine/formula-parser'

export interface Judged {
  /** What is wrong with formulas and rows, by path: in the language of formulas, whose lengths are mm. */
  readonly faults: Readonly<Record<string, string>>
  /** What the numbers do not allow, by path, and what of the piece a maker should see to, by row. */
  readonly refusals: Readonly<Record<string, string>>
  readonly remarks: Readonly<Record<string, string>>
  readonly model: Model | null
  /** What formulas are worth with the numbers that the parameters have, by path; that of a copy for the first one. */
  readonly worth: Readonly<Record<string, string>>
}

export const NONE: Judged = { faults: {}, refusals: {}, remarks: {}, model: null, worth: {} }

const byPath = (all: readonly (readonly [string, string])[]): Record<string, string> => {
  const faults: Record<string, string> = {}
  for (const [path, message] of all) faults[path] ??= message
  return faults
}

/** A parameter's own field, for what a design says against its number. */
function pathOf(recipe: Recipe, parameter: string): string {
  const i = recipe.parameters.findIndex((spec) => spec.id === parameter)
  return i < 0 ? parameter : `parameters.${i}.default`
}

/** The names of the first copy of the row that a path lies in. */
function valuesAt(recipe: Recipe, path: string, names: NamesFor, values: ReadonlyMap<string, Value>) {
  if (names === 'whole') return values
  if (names === 'notice') return new Map(values).set('weight', 0)
  const sides = sidesAt(recipe, path)
  const x = sides === 'leftRight' || sides === 'corners' ? ('left' as const) : undefined
  const y = sides === 'frontBack' || sides === 'corners' ? ('front' as const) : undefined
  return valuesFor(values, { x, y, i: 0 }).set('j', 0)
}

function sidesAt(recipe: Recipe, path: string): RecipePart['sides'] {
  const [room, i] = path.split('.')
  return room === 'parts' ? recipe.parts[Number(i)].sides : 'corners'
}

export function judgeRecipe(recipe: Recipe): Judged {
  const checked = checkRecipe(recipe, parseFormula)
  if (!checked.ok) return { ...NONE, faults: byPath(checked.error.map((f) => [f.path, f.message])) }
  const read = readParameters(parametersOf(recipe), {})
  if (!read.ok)
    return { ...NONE, refusals: byPath(read.error.map((e) => [pathOf(recipe, e.parameter), e.message])) }
  const run = startRun(checked.value, read.value)
  const worths: Record<string, string> = {}
  for (const { path, formula, names } of formulaFields(recipe)) {
    const unit = judgeFormula(checked.value.trees.get(formula)!, checked.value.units[names])
    const value = worth(run, formula, valuesAt(recipe, path, names, run.values))
    if (unit.ok && (typeof value !== 'number' || Number.isFinite(value)))
      worths[path] = sayWorth(value, unit.value)
  }
  const built = designFrom(checked.value, { id: 'draft', version: 1 }).build(read.value)
  const seen = built.ok ? built.value.notices : soundnessOf(checked.value, read.value)
  const remarks = byPath(seen.flatMap(({ at, message }) => (at ? [[at, message]] : [])))
  if (built.ok) return { ...NONE, model: built.value, remarks, worth: worths }
  const refusals = byPath(built.error.map((e) => [e.at ?? pathOf(recipe, e.parameter), e.message]))
  return { ...NONE, refusals, remarks, worth: worths }
}
