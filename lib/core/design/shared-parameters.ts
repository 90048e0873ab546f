/** Parameters that every design has: its wood, its finish, its screws; and short ways to write any. mm, degrees. */
import { radFromDeg } from '#lib/core/units/angle'
import { SPECIES } from '#lib/core/wood/species'
import { type ScrewPattern, screwsOfKind } from './join-parts'
import type { ParameterSpec, ParameterValues } from './model'
import { SCREW_NUMBERS, shankMm } from './screws'

export const THE_SCREWS = 'Screws'
export const THE_WOOD = 'Wood and finish'

/** Default, least, most, and step where it is not 1. */
type Range = readonly [number, number, number, number?]

const ranged =
  <U extends 'mm' | 'deg' | 'count'>(unit: U) =>
  <I extends string>(
    id: I,
    label: string,
    group: string,
    range: Range,
    help: string,
    rangeReason?: string,
  ) => ({
    id,
    label,
    group,
    unit,
    default: range[0],
    min: range[1],
    max: range[2],
    step: range[3] ?? 1,
    help,
    ...(rangeReason === undefined ? {} : { rangeReason }),
  })

export const mmParameter = ranged('mm')
export const degParameter = ranged('deg')
export const countParameter = ranged('count')

/** The first choice is the default. */
export const choiceParameter = <I extends string>(
  id: I,
  label: string,
  group: string,
  options: readonly { readonly value: string; readonly label: string }[],
  help: string,
) => ({ id, label, group, unit: 'choice' as const, default: options[0].value, options, help })

export const screwSizeParameter = {
  id: 'screwSize',
  label: 'Screw size',
  group: THE_SCREWS,
  unit: 'choice',
  default: 'no8',
  options: SCREW_NUMBERS.map((n) => ({ value: `no${n}`, label: `No. ${n} (${shankMm(n).toFixed(1)} mm)` })),
  help: 'Flat-head wood screws, one size throughout.',
} as const satisfies ParameterSpec

export const woodParameters = [
  {
    id: 'species',
    label: 'Wood',
    group: THE_WOOD,
    unit: 'choice',
    default: 'any',
    options: [
      { value: 'any', label: 'any sound wood' },
      { value: 'hardwood', label: 'any hardwood' },
      { value: 'softwood', label: 'any softwood' },
      ...SPECIES.filter(({ id }) => !id.startsWith('unknown')).map(({ id, name }) => ({
        value: id,
        label: name,
      })),
    ],
    help: 'What every part must be made of.',
  },
  {
    id: 'finish',
    label: 'Finish',
    group: THE_WOOD,
    unit: 'choice',
    default: 'clear',
    options: [
      { value: 'clear', label: 'clear: the wood shows' },
      { value: 'paint', label: 'paint: filled holes are hidden' },
    ],
    help: 'Under paint, boards with filled nail holes and stains will do.',
  },
] as const satisfies readonly ParameterSpec[]

/** Parameters by name: numbers as they were typed (mm, degrees), choices as their value. */
export type ValuesOf<S extends readonly ParameterSpec[]> = {
  readonly [P in S[number] as P['id']]: P['unit'] extends 'choice' ? string : number
}

/** Values that `readParameters` has passed, with the types of their parameters. */
export const typedValues = <S extends readonly ParameterSpec[]>(
  _specs: S,
  read: ParameterValues,
): ValuesOf<S> => read as ValuesOf<S>

/** The number of a choice of `screwSizeParameter`. @example screwNumberOf('no8') //=> 8 */
export const screwNumberOf = (choice: string): number => Number(choice.slice(2))

/** The shank of a choice of `screwSizeParameter`. @example shankOf('no8').toFixed(3) //=> '4.166' */
export const shankOf = (choice: string): number => shankMm(screwNumberOf(choice))

/** Screws of a length that a parameter gives, in any number. @param called «A seat screw» */
export const screwKind = <K extends string>(
  v: { readonly screwSize: string } & { readonly [key in K]: number },
  parameter: K,
  called: string,
): ((count: number) => ScrewPattern) =>
  screwsOfKind({ lengthMm: v[parameter], shankMm: shankOf(v.screwSize), parameter, called })

/**
 * An angle in rad, to a thousandth of a degree: finer than any saw is set, and coarse enough that two planes are either
 * one or told apart. @example sawAngle(1e-7) //=> 0
 */
export const sawAngle = (valueDeg: number): number => radFromDeg(Math.round(valueDeg * 1000) / 1000)
