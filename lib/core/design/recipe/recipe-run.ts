/**
 * A recipe with numbers: the value of every name, and formulas worked out one by one. What cannot be worked out
 * (not a number, infinite, no whole number, out of bounds) is noted with its field and the parameter behind it, and
 * stands as 0 until the run is refused. Values: mm, degrees, plain numbers, yes/no.
 */
import type { DesignRefusal, ParameterValues } from '../model'
import type { CheckedRecipe } from './check-recipe'
import { evaluate, type Value, type Values } from './evaluate'
import { judgeFormula } from './judge-formula'
import { type Formula, LIMITS, type Template } from './recipe'
import type { NamesFor } from './recipe-fields'
import { namesIn } from './syntax'
import { piecesOf, sayWorth } from './template'

export interface Run {
  readonly checked: CheckedRecipe
  readonly values: Values
  readonly faults: DesignRefusal[]
}

/** Planes turned by less than this could neither be told apart nor be cut. */
const ANGLE_STEPS = 1000

export function startRun(checked: CheckedRecipe, read: ParameterValues): Run {
  const values = new Map<string, Value>()
  for (const [name, value] of Object.entries(read)) values.set(name, value)
  for (const { id, unit } of checked.recipe.parameters)
    if (unit === 'deg') values.set(id, Math.round(Number(read[id]) * ANGLE_STEPS) / ANGLE_STEPS)
  const run: Run = { checked, values, faults: [] }
  for (const i of checked.order) {
    const { id, formula } = checked.recipe.derived[i]
    const value = worth(run, formula, values)
    values.set(id, value)
    if (typeof value === 'number' && !Number.isFinite(value))
      blame(run, `derived.${i}.formula`, formula, `«${id}» cannot be worked out with these numbers.`)
    if (typeof value === 'number' && !Number.isFinite(value)) values.set(id, 0)
  }
  return run
}

/** What a formula that was checked is worth. */
export const worth = (run: Run, formula: Formula, values: Values): Value =>
  evaluate(run.checked.trees.get(formula)!, values)

/** The first parameter that a formula comes from, through the derived values that it uses. */
export function parameterBehind(checked: CheckedRecipe, formula: Formula | undefined): string {
  const own = new Set(checked.recipe.parameters.map(({ id }) => id))
  const derived = new Map(checked.recipe.derived.map((row) => [row.id, row.formula]))
  const seen = new Set<string>()
  const find = (text: Formula): string | undefined => {
    if (seen.has(text)) return undefined
    seen.add(text)
    const names = [...namesIn(checked.trees.get(text)!)]
    for (const name of names) if (own.has(name)) return name
    for (const name of names) {
      const found = derived.has(name) ? find(derived.get(name)!) : undefined
      if (found !== undefined) return found
    }
    return undefined
  }
  return (formula === undefined ? undefined : find(formula)) ?? checked.recipe.parameters[0]?.id ?? 'finish'
}

export function blame(run: Run, at: string, formula: Formula | undefined, message: string): void {
  run.faults.push({ at, parameter: parameterBehind(run.checked, formula), message })
}

export interface Asked {
  readonly formula: Formula
  readonly at: string
  readonly values: Values
  /** «Slat: its length», for the sentence. */
  readonly what: string
}

/** A number within what can be built; 0 and a fault otherwise. */
export function numberOf(run: Run, { formula, at, values, what }: Asked): number {
  const value = Number(worth(run, formula, values))
  if (Number.isFinite(value) && Math.abs(value) <= LIMITS.farMm) return value
  const why = Number.isFinite(value) ? 'is far too large' : 'cannot be worked out with these numbers'
  blame(run, at, formula, `${what} ${why}.`)
  return 0
}

/** A size: more than nothing. */
export function sizeOf(run: Run, asked: Asked): number {
  const value = numberOf(run, asked)
  if (value > 1e-9) return value
  if (run.faults.at(-1)?.at !== asked.at)
    blame(
      run,
      asked.at,
      asked.formula,
      `${asked.what} would be ${Number(value.toFixed(2))} mm; it must be more than nothing.`,
    )
  return 0
}

/** A whole number from 0 to `most`. */
export function countOf(run: Run, asked: Asked, most: number): number {
  const value = numberOf(run, asked)
  const whole = Math.round(value)
  if (Math.abs(value - whole) < 1e-9 && whole >= 0 && whole <= most) return whole
  blame(
    run,
    asked.at,
    asked.formula,
    `${asked.what} would be ${Number(value.toFixed(3))}; it must be a whole number from 0 to ${most}.`,
  )
  return 0
}

export const holds = (run: Run, formula: Formula | undefined, values: Values): boolean =>
  formula === undefined || worth(run, formula, values) === true

/** A sentence with its numbers filled in. */
export function say(run: Run, template: Template, names: NamesFor, values: Values): string {
  const pieces = piecesOf(template)
  if (!pieces.ok) return template
  return pieces.value
    .map((piece) => {
      if ('text' in piece) return piece.text
      const tree = run.checked.trees.get(piece.formula)!
      const unit = judgeFormula(tree, run.checked.units[names])
      return unit.ok ? sayWorth(worth(run, piece.formula, values), unit.value) : ''
    })
    .join('')
}
