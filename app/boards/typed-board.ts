import { z } from 'zod'
import { BOARD_LIMITS } from '#lib/core/board/validate'
import { formatMm, type LengthUnit } from '#lib/core/units/inches'
import { err, type Result } from '#lib/core/units/result'
import { typedLength } from '#lib/format/length'
import { FINISH_CHOICES } from '#lib/shop/boards'
import {
  checkText,
  choiceText,
  lengthText,
  noteText,
  optionalLengthText,
  readTyped,
  unitsText,
} from '#lib/shop/fields'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { TERMS } from '#lib/shop/sharing'

const finishes = FINISH_CHOICES.map((c) => c.value) as [string, ...string[]]

/** A board as its forms send it. What warp is too much for the size is said by lib/data. */
function boardText(units: LengthUnit) {
  const size = (what: string, limit: { min: number; max: number }) =>
    lengthText({ units, what, minUm: limit.min, maxUm: limit.max })
  const warp = (what: string) => optionalLengthText({ units, what }).transform((um) => um ?? 0)
  return z.object({
    length: size('length', BOARD_LIMITS.lengthUm),
    width: size('width', BOARD_LIMITS.widthUm),
    thickness: size('thickness', BOARD_LIMITS.thicknessUm),
    cup: warp('cup'),
    bow: warp('bow'),
    crook: warp('crook'),
    twist: warp('twist'),
    species: z.string().prefault('').pipe(z.string().min(1, 'Choose a species, or «Not known».')),
    finish: choiceText(finishes, 'Say what finish is on it.'),
    terms: choiceText(TERMS, 'Say on which terms you share it.'),
    treated: checkText,
    place: noteText('place', 80),
    notes: noteText('notes', 1000),
  })
}

/** What the form of a board showed, in whole micrometres, sent along as JSON. */
const shownText = z
  .string()
  .prefault('{}')
  .transform((text) => {
    try {
      return JSON.parse(text) as unknown
    } catch {
      return {}
    }
  })
  .pipe(z.record(z.string(), z.int()).catch({}))

/**
 * Inches are shown to the nearest fraction: what was not touched since keeps its exact size.
 * @param shown micrometres by field
 */
function untouched(
  typed: Readonly<Record<string, string>>,
  shown: Readonly<Record<string, number>>,
  units: LengthUnit,
): Record<string, string> {
  const kept = Object.entries(shown)
    .filter(([name, um]) => typed[name] === typedLength(um, units))
    .map(([name, um]) => [name, `${formatMm(um, { decimals: 3 })} mm`])
  return { ...typed, ...Object.fromEntries(kept) }
}

/**
 * Reads a board's form into what lib/data takes.
 * @param more fields that this form has besides
 * @returns a sentence a field where it cannot be read
 */
export function readBoard(
  typed: Readonly<Record<string, string>>,
  more: z.ZodRawShape = {},
): Result<Record<string, unknown>, Refusal> {
  const units = unitsText.safeParse(typed.units)
  if (!units.success) return err(refusal('badInput'))
  const shown = shownText.parse(typed.shown)
  const read = readTyped(boardText(units.data).extend(more), untouched(typed, shown, units.data))
  if (!read.ok) return read
  const { length, width, thickness, cup, bow, crook, twist, finish, ...rest } = read.value
  const choice = FINISH_CHOICES.find((c) => c.value === finish)!
  return {
    ok: true,
    value: {
      ...rest,
      units: units.data,
      lengthUm: length,
      widthUm: width,
      thicknessUm: thickness,
      cupUm: cup,
      bowUm: bow,
      crookUm: crook,
      twistUm: twist,
      finish: choice.finish,
      isFinishNew: choice.isFinishNew,
    },
  }
}
