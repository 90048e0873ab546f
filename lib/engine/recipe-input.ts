/**
 * A recipe as it comes from outside, as a Zod schema: strict, and no longer than its limits. Whether it makes sense is
 * for lib/core/design/recipe/check-recipe.ts to say. Fields: docs/formats.md. Tests: tests/engine/recipe-input.test.ts
 */
import { z } from 'zod'
import { DERIVED_UNITS, JOINT_KINDS, LIMITS, type Recipe, SIDES } from '#lib/core/design/recipe/recipe'
import { SPECIES } from '#lib/core/wood/species'

const text = (most: number) => z.string().max(most, `At most ${most} characters.`)
const said = (most: number) => text(most).refine((words) => words.trim() !== '', 'Type something here.')
const name = said(40)
const label = said(80)
const sentence = text(LIMITS.textChars)
const formula = text(LIMITS.formulaChars)
const number = z.number('Type a number.')
const direction = z.enum(['left', 'right', 'front', 'back', 'up', 'down'])
const axis = z.enum(['x', 'y', 'z'])
const point = z.tuple([formula, formula, formula])
const rows = <T>(row: z.ZodType<T>, most: number) => z.array(row).max(most, `At most ${most} rows.`)

const parameter = z.strictObject({
  id: name,
  label,
  group: label,
  unit: z.enum(['mm', 'deg', 'count', 'choice']),
  default: z.union([number, text(80)]),
  min: number.optional(),
  max: number.optional(),
  step: number.positive('A step is more than nothing.').optional(),
  options: rows(z.strictObject({ value: said(40), label }), 40).optional(),
  help: sentence,
  rangeReason: sentence.optional(),
  cure: z.enum(['more', 'less', 'either']).optional(),
})

const derived = z.strictObject({ id: name, unit: z.enum(DERIVED_UNITS), formula, note: sentence.optional() })
const rule = z.strictObject({ holds: formula, parameter: name, message: said(LIMITS.textChars) })

const turns = rows(z.strictObject({ about: axis, by: formula }), 3).optional()
const cut = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('plane'),
    end: direction,
    x: formula,
    y: formula,
    z: formula,
    facing: direction,
    turns,
  }),
  z.strictObject({ kind: z.literal('angle'), end: direction, mitre: formula, bevel: formula }),
])
const notch = z.strictObject({
  face: direction,
  along: formula,
  width: formula,
  depth: formula,
  skew: formula.optional(),
})
const hole = z.strictObject({
  face: direction,
  along: formula,
  across: formula,
  diameter: formula,
  depth: formula,
})

const between = z.tuple([direction, direction])

const engraving = z.strictObject({
  face: direction,
  along: formula,
  across: formula,
  length: formula,
  width: formula,
  depth: formula,
})

const part = z.strictObject({
  id: name,
  name: said(120),
  kind: label,
  sides: z.enum(SIDES),
  repeat: formula.optional(),
  when: formula.optional(),
  length: formula,
  width: formula,
  thickness: formula,
  grain: axis,
  face: direction,
  x: formula,
  y: formula,
  z: formula,
  turns,
  hidden: rows(direction, 6).optional(),
  species: z
    .string()
    .max(40)
    .refine((id) => SPECIES.some((s) => s.id === id), 'There is no such wood.')
    .optional(),
  cuts: rows(cut, 2).optional(),
  notches: rows(notch, LIMITS.notchesOfPart).optional(),
  holes: rows(hole, LIMITS.notchesOfPart).optional(),
  edgeBevels: rows(z.strictObject({ edge: direction, by: formula }), 2).optional(),
  tapers: rows(
    z.strictObject({ face: direction, end: direction, length: formula, depth: formula }),
    4,
  ).optional(),
  eased: z.strictObject({ sides: rows(direction, 4), radius: formula }).optional(),
  roundOvers: rows(z.strictObject({ between, radius: formula }), 12).optional(),
  chamfers: rows(z.strictObject({ between, width: formula }), 12).optional(),
  engravings: rows(engraving, 4).optional(),
})

const joint = z.strictObject({
  id: name,
  a: name,
  b: name,
  kind: z.enum(JOINT_KINDS),
  glued: z.boolean(),
  facing: direction.optional(),
  when: formula.optional(),
  screws: z.strictObject({ count: formula, length: formula, called: label.optional() }).optional(),
  blame: name.optional(),
})

const dimension = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('linear'),
    view: z.enum(['front', 'side', 'top']),
    side: z.enum(['left', 'right', 'above', 'below']),
    from: formula,
    to: formula,
    x: formula,
    y: formula,
    z: formula,
    near: z.boolean().optional(),
    when: formula.optional(),
  }),
  z.strictObject({
    kind: z.literal('angle'),
    view: z.enum(['front', 'side', 'top']),
    apex: point,
    from: point,
    to: point,
    when: formula.optional(),
  }),
])

const notice = z.strictObject({
  level: z.enum(['note', 'caution', 'stop']),
  when: formula.optional(),
  message: said(LIMITS.textChars),
  parameter: name.optional(),
  source: sentence.optional(),
})

/** One recipe. @example recipeInput.safeParse(recipe).success //=> true */
const fitRow = <K extends string>(...keys: readonly K[]) =>
  z
    .strictObject({
      ...(Object.fromEntries(keys.map((key) => [key, formula])) as Record<K, typeof formula>),
      when: formula.optional(),
    })
    .optional()

const fit = z.strictObject({
  seat: fitRow('height', 'depth', 'width'),
  table: fitRow('seat', 'top', 'underside'),
  abreast: fitRow('length'),
  reach: fitRow('height'),
  play: fitRow('opening', 'width'),
})

export const recipeInput: z.ZodType<Recipe> = z.strictObject({
  format: z.literal(1, 'This is a recipe of another version.'),
  name: said(120),
  goodFor: sentence,
  parameters: rows(parameter, LIMITS.parameters),
  derived: rows(derived, LIMITS.derived),
  rules: rows(rule, LIMITS.rules),
  middle: z.strictObject({ x: formula, y: formula }),
  parts: rows(part, LIMITS.partRows),
  joints: rows(joint, LIMITS.jointRows),
  figures: rows(
    z.strictObject({
      label: said(120),
      unit: z.enum(['mm', 'deg', 'number']),
      value: formula,
      when: formula.optional(),
    }),
    LIMITS.rows,
  ),
  dimensions: rows(dimension, LIMITS.rows),
  notices: rows(notice, LIMITS.rows),
  use: z.strictObject({
    kind: z.enum(['seat', 'table', 'shelf']),
    surfaces: rows(name, LIMITS.partRows),
    footRests: rows(name, LIMITS.partRows).optional(),
  }),
  place: rows(
    z.strictObject({
      id: name,
      name: label,
      when: formula.optional(),
      min: point,
      max: point,
      parameter: name.optional(),
      views: rows(z.enum(['front', 'side', 'top']), 3).optional(),
    }),
    LIMITS.placeRows,
  ).optional(),
  fit: fit.optional(),
  hangs: z.literal('wall').optional(),
}) as unknown as z.ZodType<Recipe>
