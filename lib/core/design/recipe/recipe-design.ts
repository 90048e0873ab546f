/**
 * A Design from a recipe: everything that reads designs works on it unchanged. In: a recipe that check-recipe.ts has
 * passed. Out: the same Model that a design in code gives; refusals name a parameter and, in `at`, the field.
 * That parts share wood or miss the floor is no refusal but a notice, so that it is seen while it is mended.
 * Tests: tests/core/design/recipe/recipe-design.test.ts, twins.test.ts
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import { radFromDeg } from '#lib/core/units/angle'
import { err, ok, type Result } from '#lib/core/units/result'
import { type EasedSide, easeBoards, refuseRadius } from '../ease-boards'
import { furnitureDesign, type Made } from '../furniture-design'
import type { JointPlan } from '../join-parts'
import type {
  CureWay,
  Design,
  DesignRefusal,
  Dimension,
  Figure,
  Notice,
  ParameterSpec,
  ParameterValues,
  Part,
  PlaceBox,
  UseOfModel,
} from '../model'
import { massProperties } from '../part-shape'
import { measure } from '../read-off'
import { BUILT_IN, type CheckedRecipe, checkRecipe } from './check-recipe'
import { copiesOf } from './copies'
import { joinCopies } from './join-copies'
import { faceIn, type PlacedCopy, placeCopy } from './place-copy'
import type { FormulaPoint, Recipe, RecipeDimension, RecipeFault, RecipeParameter } from './recipe'
import { recipeFit } from './recipe-fit'
import { blame, holds, numberOf, type Run, say, startRun, worth } from './recipe-run'
import { soundnessNotices } from './soundness'
import type { ParseFormula } from './syntax'

export interface RecipeIdentity {
  readonly id: string
  readonly version: number
}

interface Layout {
  readonly run: Run
  readonly refusals: readonly DesignRefusal[]
  readonly placed: readonly PlacedCopy[]
  readonly parts: readonly Part[]
  readonly plans: readonly JointPlan[]
}

/** As a design's parameters: those of the recipe, then screws and wood. */
export const parametersOf = (recipe: Recipe): readonly ParameterSpec[] => [
  ...recipe.parameters.map(
    ({ cure: _, ...spec }: RecipeParameter): ParameterSpec =>
      spec.unit === 'choice' ? spec : { step: 1, ...spec },
  ),
  ...BUILT_IN,
]

const brokenRules = (run: Run): DesignRefusal[] =>
  run.checked.recipe.rules.flatMap((rule, k) =>
    holds(run, rule.holds, run.values)
      ? []
      : [
          {
            at: `rules.${k}`,
            parameter: rule.parameter,
            message: say(run, rule.message, 'whole', run.values),
          },
        ],
  )

const NOTHING = { placed: [], parts: [], plans: [] }

function layOut(checked: CheckedRecipe, read: ParameterValues): Layout {
  const run = startRun(checked, read)
  const broken = brokenRules(run)
  if (run.faults.length + broken.length > 0) return { run, refusals: [...run.faults, ...broken], ...NOTHING }
  const { middle } = checked.recipe
  const at = (axis: 'x' | 'y'): number =>
    numberOf(run, {
      formula: middle[axis],
      at: `middle.${axis}`,
      values: run.values,
      what: 'The middle of the piece',
    })
  const look = { finish: String(read.finish), species: String(read.species) }
  const centre = [at('x'), at('y')] as const
  const placed = copiesOf(run).map((copy) => placeCopy(run, copy, centre, look))
  if (placed.length === 0 && run.faults.length === 0)
    blame(run, 'parts', undefined, 'No part would be made with these numbers.')
  if (run.faults.length > 0) return { run, refusals: run.faults, ...NOTHING }
  const joined = joinCopies(run, placed)
  const parts = eased(run, placed, joined.parts)
  refuseCutAway(run, placed, parts)
  return { run, refusals: run.faults, placed, parts, plans: joined.plans }
}

/** Edges rounded, row by row; a radius that the wood cannot take is refused. */
function eased(run: Run, placed: readonly PlacedCopy[], parts: readonly Part[]): readonly Part[] {
  return run.checked.recipe.parts.reduce((all, row, k) => {
    if (row.eased === undefined) return all
    const { sides, radius } = row.eased
    const at = `parts.${k}.eased.radius`
    const radiusMm = numberOf(run, {
      formula: radius,
      at,
      values: run.values,
      what: `«${row.name}»: the radius of its edges`,
    })
    const own = new Map(placed.filter(({ copy }) => copy.row === row).map((copy) => [copy.part.id, copy]))
    const tooRound = refuseRadius(
      all.filter(({ id }) => own.has(id)),
      { [row.kind]: [] },
      radiusMm,
    )
    if (tooRound !== undefined) blame(run, at, radius, tooRound.message)
    const sidesOf = ({ id }: Part): readonly EasedSide[] => {
      const copy = own.get(id)
      return copy === undefined ? [] : sides.map((way) => faceIn(copy, way) as EasedSide)
    }
    return easeBoards(all, sidesOf, radiusMm)
  }, parts)
}

/** Less wood than this left of a part is none, mm³. */
const LEAST_WOOD_MM3 = 100

function refuseCutAway(run: Run, placed: readonly PlacedCopy[], parts: readonly Part[]): void {
  parts.forEach((part, k) => {
    if (part.operations.length === 0 || run.faults.length > 0) return
    const { volumeMm3 } = massProperties(part)
    if (!(volumeMm3 >= LEAST_WOOD_MM3))
      blame(
        run,
        `${placed[k].copy.at}.cuts`,
        placed[k].copy.row.length,
        `Nothing would be left of «${part.name}» after its cuts.`,
      )
  })
}

const pointOf = (run: Run, point: FormulaPoint): Vec3 =>
  point.map((formula) => Number(worth(run, formula, run.values))) as unknown as Vec3

function figures({ l: { run } }: Made<Layout>): Figure[] {
  return run.checked.recipe.figures.flatMap(({ label, unit, value, when }, k) => {
    if (!holds(run, when, run.values)) return []
    const number = Number(worth(run, value, run.values))
    const said = Number.isFinite(number) ? number : 0
    return [
      {
        id: `figure-${k + 1}`,
        label,
        value: unit === 'deg' ? radFromDeg(said) : said,
        unit: ({ mm: 'mm', deg: 'rad', number: 'count' } as const)[unit],
      },
    ]
  })
}

function dimensionOf(run: Run, dimension: RecipeDimension, k: number): Dimension[] {
  const id = `dimension-${k + 1}`
  if (!holds(run, dimension.when, run.values)) return []
  if (dimension.kind === 'angle') {
    const { view, apex, from, to } = dimension
    return [
      { kind: 'angle', id, view, apex: pointOf(run, apex), from: pointOf(run, from), to: pointOf(run, to) },
    ]
  }
  const { view, side, from, to, x, y, z, near } = dimension
  const [low, high] = [from, to].map((formula) => Number(worth(run, formula, run.values)))
  const at = pointOf(run, [x, y, z])
  if (![low, high, ...at].every(Number.isFinite)) return []
  const line = measure(id, view, side, low, high, at)
  return [near === true ? { ...line, near } : line]
}

const notices = (made: Made<Layout>): Notice[] => [...writtenNotices(made), ...soundnessIn(made.l)]

function soundnessIn({ parts, placed, run }: Layout): Notice[] {
  const rows = new Map(placed.map(({ copy, part }) => [part.id, copy.at]))
  const known = parts.map((part) => ({ part, at: rows.get(part.id)! }))
  return soundnessNotices(known, run.checked.recipe.hangs !== undefined)
}

/** What its maker should see to, by row, of a piece that is refused too: parts in the way are why screws find no wood. */
export const soundnessOf = (checked: CheckedRecipe, read: ParameterValues): Notice[] =>
  soundnessIn(layOut(checked, read))

function writtenNotices({ l: { run }, weightKg }: Made<Layout>): Notice[] {
  const values = new Map(run.values).set('weight', weightKg)
  return run.checked.recipe.notices.flatMap(({ level, when, message, parameter, source }) =>
    holds(run, when, values)
      ? [
          {
            level,
            message: say(run, message, 'notice', values),
            ...(parameter === undefined ? {} : { parameter }),
            ...(source === undefined ? {} : { source }),
          },
        ]
      : [],
  )
}

const idsOf = ({ placed }: Layout, rows: readonly string[]): string[] =>
  placed.filter(({ copy }) => rows.includes(copy.row.id)).map(({ part }) => part.id)

function useOf(l: Layout): UseOfModel {
  const { kind, surfaces, footRests } = l.run.checked.recipe.use
  return {
    kind,
    surfaces: idsOf(l, surfaces),
    ...(footRests === undefined ? {} : { footRests: idsOf(l, footRests) }),
  }
}

const placeOf = ({ run }: Layout): PlaceBox[] =>
  (run.checked.recipe.place ?? [])
    .filter(({ when }) => holds(run, when, run.values))
    .map(({ when: _, min, max, ...box }) => ({ ...box, min: pointOf(run, min), max: pointOf(run, max) }))

/** Screws of another size are always worth trying. */
const curesOf = ({ parameters }: Recipe): Readonly<Record<string, CureWay>> =>
  Object.fromEntries([
    ...parameters.flatMap(({ id, cure }) => (cure === undefined ? [] : [[id, cure]])),
    ['screwSize', 'either'],
  ])

/** A design from a recipe that was checked. */
export function designFrom(checked: CheckedRecipe, { id, version }: RecipeIdentity): Design {
  const { recipe } = checked
  return furnitureDesign<Layout>({
    id,
    version,
    name: recipe.name,
    goodFor: recipe.goodFor,
    parameters: parametersOf(recipe),
    layOut: (read) => layOut(checked, read),
    rules: [({ refusals }) => refusals],
    parts: (l) => l.parts,
    joints: (l) => l.plans,
    figures,
    dimensions: ({ run }) => recipe.dimensions.flatMap((dimension, k) => dimensionOf(run, dimension, k)),
    notices,
    use: useOf,
    cures: curesOf(recipe),
    place: placeOf,
    fit: ({ run }) => recipeFit(run),
    ...(recipe.hangs === undefined ? {} : { hangs: recipe.hangs }),
  })
}

/** A design, or everything that is wrong with its recipe. */
export function recipeDesign(
  recipe: Recipe,
  identity: RecipeIdentity,
  parse: ParseFormula,
): Result<Design, readonly RecipeFault[]> {
  const checked = checkRecipe(recipe, parse)
  return checked.ok ? ok(designFrom(checked.value, identity)) : err(checked.error)
}
