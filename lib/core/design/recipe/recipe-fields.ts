/**
 * Every formula and sentence of a recipe with its path, the unit that it must have and which names it may use.
 * Paths are keys and indexes with points: `parts.3.length`. What reads a recipe walks over this list.
 */
import type {
  FitRow,
  FormulaPoint,
  Recipe,
  RecipeCut,
  RecipeDimension,
  RecipeFit,
  RecipeJoint,
  RecipePart,
  Turn,
} from './recipe'
import { DEG, MM, PLAIN, type Unit, unitOfDerived, YES_NO } from './unit'

/** `whole`: parameters and derived values. `copy`: the number and the side of a copy too. `pair`: both copies'. */
export type NamesFor = 'whole' | 'copy' | 'pair' | 'notice'

export interface FormulaField {
  readonly path: string
  readonly formula: string
  readonly wants: Unit
  readonly names: NamesFor
}

export interface TemplateField {
  readonly path: string
  readonly template: string
  readonly names: NamesFor
}

type Wanted = readonly [key: string, formula: string | undefined, wants: Unit]

const fieldsAt = (at: string, names: NamesFor, wanted: readonly Wanted[]): FormulaField[] =>
  wanted.flatMap(([key, formula, wants]) =>
    formula === undefined ? [] : [{ path: `${at}.${key}`, formula, wants, names }],
  )

const turnFields = (at: string, turns: readonly Turn[] = []): FormulaField[] =>
  turns.flatMap((turn, i) => fieldsAt(`${at}.turns.${i}`, 'copy', [['by', turn.by, DEG]]))

const cutFields = (at: string, cut: RecipeCut): FormulaField[] =>
  cut.kind === 'angle'
    ? fieldsAt(at, 'copy', [
        ['mitre', cut.mitre, DEG],
        ['bevel', cut.bevel, DEG],
      ])
    : [
        ...fieldsAt(at, 'copy', [
          ['x', cut.x, MM],
          ['y', cut.y, MM],
          ['z', cut.z, MM],
        ]),
        ...turnFields(at, cut.turns),
      ]

function partFields(part: RecipePart, at: string): FormulaField[] {
  const { cuts = [], notches = [], holes = [], edgeBevels = [], roundOvers = [], tapers = [], eased } = part
  const { chamfers = [], engravings = [] } = part
  return [
    ...fieldsAt(at, 'whole', [
      ['repeat', part.repeat, PLAIN],
      ['when', part.when, YES_NO],
    ]),
    ...fieldsAt(at, 'copy', [
      ['length', part.length, MM],
      ['width', part.width, MM],
      ['thickness', part.thickness, MM],
      ['x', part.x, MM],
      ['y', part.y, MM],
      ['z', part.z, MM],
    ]),
    ...turnFields(at, part.turns),
    ...cuts.flatMap((cut, i) => cutFields(`${at}.cuts.${i}`, cut)),
    ...notches.flatMap((notch, i) =>
      fieldsAt(`${at}.notches.${i}`, 'copy', [
        ['along', notch.along, MM],
        ['width', notch.width, MM],
        ['depth', notch.depth, MM],
        ['skew', notch.skew, DEG],
      ]),
    ),
    ...holes.flatMap((hole, i) =>
      fieldsAt(`${at}.holes.${i}`, 'copy', [
        ['along', hole.along, MM],
        ['across', hole.across, MM],
        ['diameter', hole.diameter, MM],
        ['depth', hole.depth, MM],
      ]),
    ),
    ...edgeBevels.flatMap((bevel, i) => fieldsAt(`${at}.edgeBevels.${i}`, 'copy', [['by', bevel.by, DEG]])),
    ...roundOvers.flatMap((over, i) =>
      fieldsAt(`${at}.roundOvers.${i}`, 'copy', [['radius', over.radius, MM]]),
    ),
    ...chamfers.flatMap(({ width }, i) => fieldsAt(`${at}.chamfers.${i}`, 'copy', [['width', width, MM]])),
    ...engravings.flatMap((field, i) =>
      fieldsAt(
        `${at}.engravings.${i}`,
        'copy',
        (['along', 'across', 'length', 'width', 'depth'] as const).map(
          (key) => [key, field[key], MM] as const,
        ),
      ),
    ),
    ...tapers.flatMap((taper, i) =>
      fieldsAt(`${at}.tapers.${i}`, 'copy', [
        ['length', taper.length, MM],
        ['depth', taper.depth, MM],
      ]),
    ),
    ...fieldsAt(`${at}.eased`, 'whole', [['radius', eased?.radius, MM]]),
  ]
}

const jointFields = (joint: RecipeJoint, at: string): FormulaField[] => [
  ...fieldsAt(at, 'pair', [['when', joint.when, YES_NO]]),
  ...fieldsAt(`${at}.screws`, 'pair', [
    ['count', joint.screws?.count, PLAIN],
    ['length', joint.screws?.length, MM],
  ]),
]

const pointFields = (at: string, point: FormulaPoint): FormulaField[] =>
  fieldsAt(
    at,
    'whole',
    point.map((formula, i): Wanted => [String(i), formula, MM]),
  )

const dimensionFields = (dimension: RecipeDimension, at: string): FormulaField[] =>
  dimension.kind === 'angle'
    ? [
        ...(['apex', 'from', 'to'] as const).flatMap((key) => pointFields(`${at}.${key}`, dimension[key])),
        ...fieldsAt(at, 'whole', [['when', dimension.when, YES_NO]]),
      ]
    : fieldsAt(at, 'whole', [
        ['from', dimension.from, MM],
        ['to', dimension.to, MM],
        ['x', dimension.x, MM],
        ['y', dimension.y, MM],
        ['z', dimension.z, MM],
        ['when', dimension.when, YES_NO],
      ])

function fitFields(fit: RecipeFit): FormulaField[] {
  const rows: [string, FitRow<string> | undefined][] = Object.entries(fit)
  return rows.flatMap(([row, sizes = {}]) =>
    fieldsAt(
      `fit.${row}`,
      'whole',
      Object.entries(sizes).map(([key, formula]): Wanted => [key, formula, key === 'when' ? YES_NO : MM]),
    ),
  )
}

export function formulaFields(recipe: Recipe): FormulaField[] {
  const { derived, rules, middle, parts, joints, figures, dimensions, notices, place = [], fit = {} } = recipe
  return [
    ...derived.map(
      (row, i): FormulaField => ({
        path: `derived.${i}.formula`,
        formula: row.formula,
        wants: unitOfDerived(row),
        names: 'whole',
      }),
    ),
    ...rules.flatMap((rule, i) => fieldsAt(`rules.${i}`, 'whole', [['holds', rule.holds, YES_NO]])),
    ...fieldsAt('middle', 'whole', [
      ['x', middle.x, MM],
      ['y', middle.y, MM],
    ]),
    ...parts.flatMap((part, i) => partFields(part, `parts.${i}`)),
    ...joints.flatMap((joint, i) => jointFields(joint, `joints.${i}`)),
    ...figures.flatMap((figure, i) =>
      fieldsAt(`figures.${i}`, 'whole', [
        ['value', figure.value, { mm: MM, deg: DEG, number: PLAIN }[figure.unit]],
        ['when', figure.when, YES_NO],
      ]),
    ),
    ...dimensions.flatMap((dimension, i) => dimensionFields(dimension, `dimensions.${i}`)),
    ...notices.flatMap((notice, i) => fieldsAt(`notices.${i}`, 'notice', [['when', notice.when, YES_NO]])),
    ...place.flatMap((box, i) => [
      ...fieldsAt(`place.${i}`, 'whole', [['when', box.when, YES_NO]]),
      ...(['min', 'max'] as const).flatMap((key) => pointFields(`place.${i}.${key}`, box[key])),
    ]),
    ...fitFields(fit),
  ]
}

export const templateFields = ({ rules, parts, notices }: Recipe): TemplateField[] => [
  ...rules.map(({ message }, i) => ({
    path: `rules.${i}.message`,
    template: message,
    names: 'whole' as const,
  })),
  ...parts.map(({ name }, i) => ({ path: `parts.${i}.name`, template: name, names: 'copy' as const })),
  ...notices.map(({ message }, i) => ({
    path: `notices.${i}.message`,
    template: message,
    names: 'notice' as const,
  })),
]
