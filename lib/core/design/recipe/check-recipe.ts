/**
 * Whether a recipe makes sense before any number is known: names, units, cycles, rows that are named but not there.
 * In: a recipe of the right shape and a parser. Out: all that its use needs, or every fault with the path of its field.
 * Cost: one parse a formula that was not parsed before. Tests: tests/core/design/recipe/check-recipe.test.ts
 */
import { err, ok, type Result } from '#lib/core/units/result'
import type { ParameterSpec } from '../model'
import { screwSizeParameter, woodParameters } from '../shared-parameters'
import { judgeFormula, type UnitsByName } from './judge-formula'
import { nearestName } from './nearest-name'
import { type Formula, LIMITS, type Recipe, type RecipeFault, type RecipeParameter } from './recipe'
import { type FormulaField, formulaFields, type NamesFor, templateFields } from './recipe-fields'
import { checkRows } from './recipe-rows'
import { nameFault, namesIn, type ParseFormula, type Syntax } from './syntax'
import { piecesOf } from './template'
import { fits, MM, PLAIN, sayUnit, type Unit, unitOfDerived, unitOfParameter, YES_NO } from './unit'

/** A recipe that makes sense, with all that was found out about it. */
export interface CheckedRecipe {
  readonly recipe: Recipe
  /** Every formula that is in it, by its text. */
  readonly trees: ReadonlyMap<Formula, Syntax>
  /** Indexes of derived values, each after those that it needs. */
  readonly order: readonly number[]
  readonly units: Readonly<Record<NamesFor, UnitsByName>>
}

/** Parameters that every recipe has without writing them. */
export const BUILT_IN: readonly ParameterSpec[] = [screwSizeParameter, ...woodParameters]

const SIDE_NAMES = ['atLeft', 'atRight', 'atFront', 'atBack'] as const

export function unitsOf(recipe: Recipe): Readonly<Record<NamesFor, UnitsByName>> {
  const builtIn = BUILT_IN.map((spec): [string, Unit] => [spec.id, unitOfParameter(spec as RecipeParameter)])
  const own = recipe.parameters.map((spec): [string, Unit] => [spec.id, unitOfParameter(spec)])
  const derived = recipe.derived.map((row): [string, Unit] => [row.id, unitOfDerived(row)])
  const whole = new Map([...builtIn, ...own, ...derived])
  const copy = new Map([
    ...whole,
    ['i', PLAIN] as const,
    ['n', PLAIN] as const,
    ...SIDE_NAMES.map((name) => [name, YES_NO] as const),
  ])
  return {
    whole,
    copy,
    pair: new Map([...copy, ['j', PLAIN] as const]),
    notice: new Map([...whole, ['weight', PLAIN] as const]),
  }
}

/** What is wrong with a formula where it stands; its tree otherwise. */
export function checkFormula(
  formula: Formula,
  wants: Unit,
  names: UnitsByName,
  parse: ParseFormula,
): Result<Syntax, string> {
  const tree = parse(formula)
  if (!tree.ok) return tree
  const unit = judgeFormula(tree.value, names)
  if (!unit.ok) return unit
  if (fits(unit.value, wants)) return tree
  const isLost = sayUnit(wants) === sayUnit(MM) && sayUnit(unit.value) === sayUnit(PLAIN)
  const hint = isLost ? ' Write the unit behind a number: 40 mm.' : ''
  return err(`This must be ${sayUnit(wants)}; it is ${sayUnit(unit.value)}.${hint}`)
}

function checkFields(
  fields: readonly FormulaField[],
  units: CheckedRecipe['units'],
  parse: ParseFormula,
  faults: RecipeFault[],
): Map<Formula, Syntax> {
  const trees = new Map<Formula, Syntax>()
  for (const { path, formula, wants, names } of fields) {
    const tree = checkFormula(formula, wants, units[names], parse)
    if (tree.ok) trees.set(formula, tree.value)
    else faults.push({ path, message: tree.error })
  }
  return trees
}

function checkTemplates(
  recipe: Recipe,
  units: CheckedRecipe['units'],
  parse: ParseFormula,
  trees: Map<Formula, Syntax>,
): RecipeFault[] {
  return templateFields(recipe).flatMap(({ path, template, names }) => {
    const pieces = piecesOf(template)
    if (!pieces.ok) return [{ path, message: pieces.error }]
    return pieces.value.flatMap((piece) => {
      if ('text' in piece) return []
      const tree = parse(piece.formula)
      const judged = tree.ok ? judgeFormula(tree.value, units[names]) : tree
      if (!judged.ok) return [{ path, message: `In {${piece.formula}}: ${judged.error}` }]
      if (tree.ok) trees.set(piece.formula, tree.value)
      return []
    })
  })
}

/** Derived values in working order, or the loop that there is. Depth first; grey is what is being worked out. */
function orderOf(recipe: Recipe, trees: ReadonlyMap<Formula, Syntax>): Result<number[], RecipeFault[]> {
  const at = new Map(recipe.derived.map((row, i) => [row.id, i]))
  const state = new Map<number, 'grey' | 'done'>()
  const order: number[] = []
  const faults: RecipeFault[] = []
  const visit = (i: number, way: readonly number[]): void => {
    if (state.get(i) === 'done') return
    if (state.get(i) === 'grey') {
      const loop = [...way.slice(way.indexOf(i)), i].map((k) => recipe.derived[k].id)
      faults.push({
        path: `derived.${i}.formula`,
        message: `This goes round in a circle: ${loop.join(' → ')}.`,
      })
      return
    }
    state.set(i, 'grey')
    const tree = trees.get(recipe.derived[i].formula)
    for (const name of tree ? namesIn(tree) : []) {
      const next = at.get(name)
      if (next !== undefined) visit(next, [...way, i])
    }
    state.set(i, 'done')
    order.push(i)
  }
  recipe.derived.forEach((_, i) => {
    visit(i, [])
  })
  return faults.length > 0 ? err(faults) : ok(order)
}

function checkNames(recipe: Recipe): RecipeFault[] {
  const seen = new Set<string>()
  const fault = (path: string, name: string): RecipeFault[] => {
    const message = nameFault(name) ?? (seen.has(name) ? `There are two names «${name}».` : undefined)
    seen.add(name)
    return message === undefined ? [] : [{ path, message }]
  }
  return [
    ...recipe.parameters.flatMap(({ id }, i) => fault(`parameters.${i}.id`, id)),
    ...recipe.derived.flatMap(({ id }, i) => fault(`derived.${i}.id`, id)),
  ]
}

function parameterFault(spec: RecipeParameter): readonly [key: string, message: string] | undefined {
  if (spec.unit === 'choice') {
    const values = (spec.options ?? []).map(({ value }) => value)
    if (values.length === 0) return ['options', 'A choice needs something to choose from.']
    if (new Set(values).size < values.length) return ['options', 'Two of the choices are the same.']
    return values.includes(String(spec.default)) ? undefined : ['default', 'This is none of the choices.']
  }
  const { min, max, default: usual } = spec
  if (min === undefined || !Number.isFinite(min)) return ['min', 'Type the least value.']
  if (max === undefined || !Number.isFinite(max)) return ['max', 'Type the greatest value.']
  if (min > max) return ['max', 'The greatest value is less than the least.']
  if (Math.max(Math.abs(min), Math.abs(max)) > LIMITS.farMm) return ['max', `At most ${LIMITS.farMm}.`]
  if (typeof usual !== 'number' || !Number.isFinite(usual)) return ['default', 'Type a number.']
  if (usual < min || usual > max) return ['default', `This must lie between ${min} and ${max}.`]
  if (spec.unit === 'count' && !Number.isInteger(usual)) return ['default', 'Type a whole number.']
  if (spec.unit === 'count' && (min < 0 || max > 200)) return ['max', 'A count goes from 0 to 200 at most.']
  return undefined
}

/** @param known what the name should be one of */
export function unknownName(name: string, known: readonly string[], what: string): string | undefined {
  if (known.includes(name)) return undefined
  const near = nearestName(name, known)
  return `There is no ${what} «${name}».${near === undefined ? '' : ` Do you mean «${near}»?`}`
}

function checkMentions(recipe: Recipe): RecipeFault[] {
  const parameters = [...recipe.parameters.map(({ id }) => id), ...BUILT_IN.map(({ id }) => id)]
  const of = (path: string, name: string | undefined): RecipeFault[] => {
    const message = name === undefined ? undefined : unknownName(name, parameters, 'parameter')
    return message === undefined ? [] : [{ path, message }]
  }
  return [
    ...recipe.rules.flatMap(({ parameter }, i) => of(`rules.${i}.parameter`, parameter)),
    ...recipe.notices.flatMap(({ parameter }, i) => of(`notices.${i}.parameter`, parameter)),
    ...recipe.joints.flatMap(({ blame }, i) => of(`joints.${i}.blame`, blame)),
  ]
}

/** Everything that is wrong with a recipe, or what is needed to use it. */
export function checkRecipe(
  recipe: Recipe,
  parse: ParseFormula,
): Result<CheckedRecipe, readonly RecipeFault[]> {
  const units = unitsOf(recipe)
  const faults: RecipeFault[] = [
    ...checkNames(recipe),
    ...recipe.parameters.flatMap((spec, i) => {
      const fault = parameterFault(spec)
      return fault === undefined ? [] : [{ path: `parameters.${i}.${fault[0]}`, message: fault[1] }]
    }),
    ...checkMentions(recipe),
    ...checkRows(recipe),
  ]
  const trees = checkFields(formulaFields(recipe), units, parse, faults)
  faults.push(...checkTemplates(recipe, units, parse, trees))
  const order = orderOf(recipe, trees)
  if (!order.ok) faults.push(...order.error)
  return faults.length > 0 || !order.ok ? err(faults) : ok({ recipe, trees, order: order.value, units })
}
