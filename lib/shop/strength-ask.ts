/**
 * What a piece is judged for, as it is typed on the Strength page or stands in the address of its report: how good the
 * pieces are that bear, and the air of the year. Out: options of lib/core/statics/strength.ts, or a sentence a field.
 * Tests: tests/shop/strength-ask.test.ts
 */
import type { ParameterSpec, ParameterValues } from '#lib/core/design/model'
import { SEAT_LEVELS, type SeatLevel } from '#lib/core/statics/seat-levels'
import type { StrengthOptions } from '#lib/core/statics/strength'
import { err, ok, type Result } from '#lib/core/units/result'
import { GRADES, SALVAGE_GRADES } from '#lib/core/wood/grades'
import { readSeason } from './strength-words'

export interface TypedAsk {
  readonly level: string
  readonly grade: string
  readonly dry: string
  readonly damp: string
}

/** At home, sound wood, a heated room in winter, a damp summer. */
export const USUAL_ASK: TypedAsk = { level: 'home', grade: 'sound', dry: '35', damp: '65' }

const INDOORS_C = 21

export type AskFaults = { readonly [field in keyof TypedAsk]?: string }

/** @example readAsk(USUAL_ASK) //=> { ok: true, value: { grade: 'sound', dry: { tempC: 21, humidity: 0.35 }, damp: … } } */
export function readAsk({ level, grade, dry, damp }: TypedAsk): Result<StrengthOptions, AskFaults> {
  const use = SEAT_LEVELS.find((one) => one === level)
  if (use === undefined) return err({ level: 'Choose where it is used.' })
  const known = SALVAGE_GRADES.find((one) => one === grade)
  if (known === undefined) return err({ grade: 'Choose what the parts that bear are picked for.' })
  const season = readSeason(dry, damp)
  if (!season.ok) return season
  const air = (humidity: number) => ({ tempC: INDOORS_C, humidity })
  return ok({ level: use, grade: known, dry: air(season.value.dry), damp: air(season.value.damp) })
}

/** What the address says; what it does not say is as usual. */
export const askFrom = (query: URLSearchParams): TypedAsk => ({
  level: query.get('level') ?? USUAL_ASK.level,
  grade: query.get('grade') ?? USUAL_ASK.grade,
  dry: query.get('dry') ?? USUAL_ASK.dry,
  damp: query.get('damp') ?? USUAL_ASK.damp,
})

export const askQuery = (typed: TypedAsk): string => new URLSearchParams({ ...typed }).toString()

/** The wood that a design asks for, by the name that its own choice has, and the others that it could ask for. */
export function woodAsked(specs: readonly ParameterSpec[], values: ParameterValues) {
  const spec = specs.find(({ id }) => id === 'species')
  const id = String(values.species ?? spec?.default ?? 'any')
  const options = spec?.options ?? []
  return {
    id,
    name: options.find(({ value }) => value === id)?.label ?? id,
    choices: options.map(({ value }) => value),
  }
}

const LEVEL_WORDS: Readonly<Record<SeatLevel, string>> = {
  home: 'at home (EN 12520)',
  public: 'in public rooms (EN 16139, level 1)',
  hard: 'hard use in public (EN 16139, level 2)',
}

/** For a field. */
export const levelChoices = SEAT_LEVELS.map((value) => ({ value, label: LEVEL_WORDS[value] }))

/** For a printed report. */
export const judgedForWords = (wood: string, { level, grade, dry, damp }: TypedAsk) =>
  [
    ['Wood', wood],
    ['Used, if it is a seat', LEVEL_WORDS[SEAT_LEVELS.find((one) => one === level) ?? 'home']],
    ['Parts that bear', GRADES[SALVAGE_GRADES.find((one) => one === grade) ?? 'sound'].label],
    ['Driest air of the year', `${dry.replace(/\s*%$/, '')} %`],
    ['Dampest air of the year', `${damp.replace(/\s*%$/, '')} %`],
  ] as const
