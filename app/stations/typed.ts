import { z } from 'zod'
import { instantOf, isDay, zoneOf } from '#lib/core/schedule/zoned-time'
import type { LengthUnit } from '#lib/core/units/inches'
import { err, type Result } from '#lib/core/units/result'
import {
  checkText,
  choiceText,
  nameText,
  noteText,
  optionalLengthText,
  unitsText,
  wholeNumberText,
} from '#lib/shop/fields'
import type { Refusal } from '#lib/shop/refusal'

const CLOCK = /^([01]?\d|2[0-4]):([0-5]\d)$/

/** A time of the day as minutes after midnight; 24:00 is the midnight that ends it. */
const clockText = (sentence: string) =>
  z
    .string(sentence)
    .trim()
    .regex(CLOCK, sentence)
    .transform((text) => {
      const [, hours, minutes] = CLOCK.exec(text)!
      return Number(hours) * 60 + Number(minutes)
    })

const dayText = z
  .string('Choose a day.')
  .regex(/^\d{4}-\d{2}-\d{2}$/, 'Choose a day.')
  .refine(isDay, 'There is no such day.')

/** Day, start and length on the shop's clock, as the instants that are booked. */
export const bookingTyped = (timeZone: string) =>
  z
    .object({
      stationId: z.string(),
      day: dayText,
      start: clockText('Write a time of the day, like 09:30.'),
      minutes: wholeNumberText({ what: 'length in minutes', min: 1, max: 1440 }),
      buildId: z.string().prefault(''),
      note: noteText('note', 1000),
    })
    .transform(({ day, start, minutes, buildId, ...rest }) => {
      const startMs = instantOf(zoneOf(timeZone), day, start)
      return {
        ...rest,
        buildId: buildId || null,
        startAt: new Date(startMs).toISOString(),
        endAt: new Date(startMs + minutes * 60_000).toISOString(),
      }
    })

/** What the data says about start and end belongs beside the form's start and length. */
export function asBookingFields<T>(result: Result<T, Refusal>): Result<T, Refusal> {
  if (result.ok || !result.error.fields) return result
  const { startAt, endAt, ...fields } = result.error.fields
  return err({
    ...result.error,
    fields: { ...fields, ...(startAt && { start: startAt }), ...(endAt && { minutes: endAt }) },
  })
}

function tuningFields(units: LengthUnit) {
  const size = (what: string, maxUm: number) => optionalLengthText({ units, what, minUm: 1, maxUm })
  return {
    place: noteText('place', 120),
    notes: noteText('notes'),
    opensMinute: clockText('Write a time of the day, like 08:00.'),
    closesMinute: clockText('Write a time of the day, like 22:00.'),
    kerfUm: size('kerf', 30_000),
    maxRipWidthUm: size('widest rip', 5_000_000),
    maxCrosscutWidthUm: size('widest crosscut', 5_000_000),
    minPieceLengthUm: size('shortest safe piece', 2_000_000),
    minPieceWidthUm: size('narrowest safe piece', 2_000_000),
    maxPassUm: size('deepest pass', 200_000),
  }
}

const shownIn = (form: FormData): LengthUnit => unitsText.catch('mm').parse(form.get('shownIn'))

export const tuningTyped = (form: FormData) => z.object(tuningFields(shownIn(form)))

export const stationTyped = (form: FormData) =>
  z.object({
    name: nameText('name', 80),
    kind: choiceText(
      ['planer', 'tableSaw', 'routerTable', 'drillPress', 'bandSaw', 'laserEngraver', 'assemblyBench'],
      'Choose what it is.',
    ),
    keeperId: z.uuid('Choose who answers for it.'),
    needsInduction: checkText,
    needsApproval: checkText,
    ...tuningFields(shownIn(form)),
  })
