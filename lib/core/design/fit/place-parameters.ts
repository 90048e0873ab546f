/**
 * What a maker may say of the place and of the people, the same in every design that asks for it. mm. Each help says from
 * which surface it is measured.
 */
import type { BodyMeasure, Person } from '../body-sizes'
import { bodySizeMm } from '../body-sizes'
import { choiceParameter, mmParameter } from '../shared-parameters'

const THE_WAY_IN = 'The way in'
const WHO_SITS = 'Who sits'

/** In every design: it has to get to its place. */
export const wayInParameters = [
  mmParameter(
    'doorWidth',
    'Narrowest door',
    THE_WAY_IN,
    [750, 400, 3000],
    'Clear opening, from the open leaf to the jamb opposite: less than the leaf is wide.',
  ),
  mmParameter(
    'doorHeight',
    'Door height',
    THE_WAY_IN,
    [1970, 1500, 4000],
    'From the sill or the floor to the underside of the frame.',
  ),
  mmParameter(
    'turnWidth',
    'Narrowest turn',
    THE_WAY_IN,
    [850, 500, 5000],
    'Clear width, wall to wall or wall to banister, where a passage or a stair turns a corner.',
  ),
] as const

export const sitterParameters = [
  choiceParameter(
    'sitter',
    'Made for',
    WHO_SITS,
    [
      { value: 'adults', label: 'any adult' },
      { value: 'women05', label: 'a small woman (5th percentile)' },
      { value: 'women50', label: 'a middling woman' },
      { value: 'men50', label: 'a middling man' },
      { value: 'men95', label: 'a tall man (95th percentile)' },
      { value: 'own', label: 'one person, measured' },
    ],
    'Whose legs the height of the seat is judged by; nothing in the piece changes by itself.',
  ),
  mmParameter(
    'popliteal',
    'Hollow of the knee',
    WHO_SITS,
    [420, 250, 600],
    'Of the person measured: from the floor to the underside of the thigh just behind the knee, sitting, no shoes.',
  ),
  mmParameter(
    'shoes',
    'Shoes',
    WHO_SITS,
    [25, 0, 80],
    'Height of the heels that the seat is used in; common practice adds 25 mm.',
  ),
] as const

export interface Sitter {
  /** Absent: any adult. */
  readonly person?: Person
  /** Absent: from the table of sizes. */
  readonly poplitealMm?: number
  readonly shoesMm: number
}

const PEOPLE: Readonly<Record<string, Person>> = {
  women05: { sex: 'women', percentile: 0.05 },
  women50: { sex: 'women', percentile: 0.5 },
  men50: { sex: 'men', percentile: 0.5 },
  men95: { sex: 'men', percentile: 0.95 },
}

/** Whom a seat is made for, from the values of `sitterParameters`. */
export const sitterOf = (v: {
  readonly sitter: string
  readonly popliteal: number
  readonly shoes: number
}): Sitter => ({
  shoesMm: v.shoes,
  ...(PEOPLE[v.sitter] === undefined ? {} : { person: PEOPLE[v.sitter] }),
  ...(v.sitter === 'own' ? { poplitealMm: v.popliteal } : {}),
})

/** A size of the one person that a seat is made for; undefined for any adult, or where it is not known of them. */
export function sizeOfSitter({ person, poplitealMm }: Sitter, measure: BodyMeasure): number | undefined {
  if (measure === 'poplitealHeight' && poplitealMm !== undefined) return poplitealMm
  return person === undefined ? undefined : bodySizeMm(measure, person.sex, person.percentile)
}
