/**
 * Units of formulas: powers of mm and of degrees, or yes/no, or a choice. A number that was written out has no unit of
 * its own and takes that of what it is added to or compared with: `height - 60` is 60 mm less.
 */
import type { DerivedValue, RecipeParameter } from './recipe'

export type Unit =
  | { readonly kind: 'number'; readonly mm: number; readonly deg: number; readonly isBare: boolean }
  | { readonly kind: 'yesNo' }
  | { readonly kind: 'choice'; readonly options: readonly string[] }
  | { readonly kind: 'text'; readonly value: string }

export type NumberUnit = Extract<Unit, { kind: 'number' }>

const numberUnit = (mm: number, deg: number, isBare = false): NumberUnit => ({
  kind: 'number',
  mm,
  deg,
  isBare,
})
export const BARE = numberUnit(0, 0, true)
export const PLAIN = numberUnit(0, 0)
export const MM = numberUnit(1, 0)
export const DEG = numberUnit(0, 1)
export const YES_NO: Unit = { kind: 'yesNo' }

export const unitOfParameter = ({ unit, options = [] }: RecipeParameter): Unit => {
  if (unit === 'choice') return { kind: 'choice', options: options.map((o) => o.value) }
  return { mm: MM, deg: DEG, count: PLAIN }[unit]
}
export const unitOfDerived = ({ unit }: DerivedValue): Unit =>
  ({ mm: MM, deg: DEG, number: PLAIN, yesNo: YES_NO })[unit]

const POWER = ['', '', '²', '³'] as const

/** @example sayUnit(MM) //=> 'a length in mm' */
export function sayUnit(unit: Unit): string {
  if (unit.kind === 'yesNo') return 'yes or no'
  if (unit.kind === 'choice') return 'a choice'
  if (unit.kind === 'text') return 'a text'
  const { mm, deg } = unit
  if (mm === 0 && deg === 0) return 'a plain number'
  if (mm === 1 && deg === 0) return 'a length in mm'
  if (deg === 1 && mm === 0) return 'an angle in degrees'
  if (mm === 2 && deg === 0) return 'an area in mm²'
  const power = (sign: string, n: number): string[] =>
    n === 0 ? [] : [n > 0 && n < 4 ? `${sign}${POWER[n]}` : `${sign}^${n}`]
  return `a value in ${[...power('mm', mm), ...power('degree', deg)].join('·')}`
}

/** The unit of two numbers that are added, compared or chosen between; undefined if they do not go together. */
export function together(a: Unit, b: Unit): Unit | undefined {
  if (a.kind !== 'number' || b.kind !== 'number')
    return a.kind === 'yesNo' && b.kind === 'yesNo' ? a : undefined
  if (a.isBare) return b
  if (b.isBare) return a
  return a.mm === b.mm && a.deg === b.deg ? a : undefined
}

export const product = (a: NumberUnit, b: NumberUnit, sign: 1 | -1): NumberUnit =>
  numberUnit(a.mm + sign * b.mm, a.deg + sign * b.deg, a.isBare && b.isBare)

export const power = (a: NumberUnit, n: number): NumberUnit => numberUnit(a.mm * n, a.deg * n, a.isBare)

/** Whether a number of this unit may stand where `wanted` is asked for. */
export const fits = (unit: Unit, wanted: Unit): boolean =>
  unit.kind === wanted.kind && (unit.kind !== 'number' || together(unit, wanted as NumberUnit) !== undefined)
