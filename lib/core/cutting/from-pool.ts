/**
 * From the shop's pool and a model's needs to a cutting problem, and back to sentences.
 *
 * A board is offered to a need when its species will do, every safety gate is open, it is thick enough once a piece
 * of the need's rough size has been flattened, and the rough size fits its usable rectangle around the defects that
 * the need cannot have. Boards that no need can use are left out. Coordinates of the problem are those of the
 * usable rectangle; `usable` says where it lies on the board.
 * Cost of a board: its volume in cm3 by where it is from (COST_FACTORS), so that a plan takes scraps before planks
 * and does not plane thick wood thin. Whole micrometres.
 * Not covered: strength. Tests: tests/core/cutting/from-pool.test.ts
 */
import { blockingDefects, defectZone, isAccepted, type Orientation } from '#lib/core/board/acceptance'
import type { RoughAllowances } from '#lib/core/board/allowances'
import type { Board } from '#lib/core/board/board'
import type { BlankNeed } from '#lib/core/board/demand'
import { flatThicknessUm } from '#lib/core/board/flattening'
import { freePlacements, type Zone } from '#lib/core/board/free-placements'
import { type GateRefusal, gateSentence, partRefusals } from '#lib/core/board/gates'
import { type UsableRectangle, usableRectangle, zoneInUsable } from '#lib/core/board/usable'
import { formatInches, formatMm, type LengthUnit } from '#lib/core/units/inches'
import { UM_PER_INCH } from '#lib/core/units/length'
import { meetsSpecies, speciesById } from '#lib/core/wood/species'
import type { BlockedZone, Cure, CutBlank, CutPlan, CutProblem, MachineLimits, Shortage } from './problem'

export type BoardOrigin = 'offcut' | 'salvage' | 'bought'

export interface PoolBoard extends Board {
  /** What is chalked on it; absent: its id. */
  readonly label?: string
  /** Absent: salvage. An offcut's ends are clean and are not trimmed. */
  readonly origin?: BoardOrigin
  /** Above 1 for a board that a plan should rather leave, such as one that its owner must be asked for. */
  readonly reluctance?: number
}

/** Offcuts first, then salvage; bought wood last. Common practice, in no unit. */
export const COST_FACTORS: Readonly<Record<BoardOrigin, number>> = { offcut: 0.25, salvage: 1, bought: 4 }

/** What the shop's machines do and what its members keep. */
export interface CutShop {
  readonly kerfUm: number
  readonly limits: MachineLimits
  readonly offcut: CutProblem['offcut']
  readonly allowances: RoughAllowances
}

/** In the order in which a board is tried: the further a board gets, the nearer it is to what is needed. */
export const HURDLES = ['species', 'thickness', 'length', 'width', 'defects', 'gates'] as const
export type Hurdle = (typeof HURDLES)[number]

/** A need that no board can make, and the board that comes nearest. */
export interface Unmakeable {
  readonly needId: string
  /** `noBoards`: the pool is empty. */
  readonly hurdle: Hurdle | 'noBoards'
  readonly nearest?: {
    readonly boardId: string
    readonly label: string
    /** How much is missing, for thickness, length and width. */
    readonly lackUm?: number
    /** Gates that are shut. */
    readonly gates?: readonly GateRefusal[]
  }
}

export interface PoolCutProblem {
  readonly problem: CutProblem
  /** By index in `problem.boards`. */
  readonly boardIds: readonly string[]
  readonly usable: readonly UsableRectangle[]
  /** By index in `problem.blanks`. */
  readonly needIds: readonly string[]
  /** By board, then by need: which way up a part is laid; null where the board is not offered to the need. */
  readonly orientations: readonly (readonly (Orientation | null)[])[]
  readonly unmakeable: readonly Unmakeable[]
}

interface Fit {
  readonly orientation: Orientation
  readonly places: number
}

interface Miss {
  readonly hurdle: Hurdle
  readonly lackUm?: number
  readonly gates?: readonly GateRefusal[]
}

const usableOf = (board: PoolBoard, allowances: RoughAllowances): UsableRectangle =>
  usableRectangle(board, allowances, { areEndsClean: board.origin === 'offcut' })

/** Length of the piece in which a need goes through the planer: short parts go in a row (see rows.ts). */
function planedLengthUm(need: BlankNeed, { allowances, kerfUm }: CutShop): number {
  const { roughLengthUm: lengthUm } = need
  if (lengthUm >= allowances.minPlaneLengthUm) return lengthUm
  const parts = Math.ceil((allowances.minPlaneLengthUm + kerfUm) / (lengthUm + kerfUm))
  const rowUm = Math.min(parts, Math.max(1, need.count)) * (lengthUm + kerfUm) - kerfUm
  return Math.max(allowances.minPlaneLengthUm, rowUm)
}

/** A part too short for the planer is flattened while it is still longer; a stave at the widest that it may be. */
function thicknessLeftUm(board: PoolBoard, need: BlankNeed, shop: CutShop): number {
  const lengthUm = Math.max(need.roughLengthUm, Math.min(planedLengthUm(need, shop), board.lengthUm))
  const widthUm = Math.min(board.widthUm, Math.max(need.roughWidthUm, need.stave?.maxWidthUm ?? 0))
  return flatThicknessUm(board, { lengthUm, widthUm }, shop.allowances)
}

function zonesFor(
  board: PoolBoard,
  usable: UsableRectangle,
  need: BlankNeed,
  orientation: Orientation,
): Zone[] {
  return blockingDefects(board, need, orientation).flatMap(
    (defect) => zoneInUsable(defectZone(defect), usable, board) ?? [],
  )
}

/** The way up that leaves more places; face A up where it makes no difference. */
function bestFit(board: PoolBoard, usable: UsableRectangle, need: BlankNeed): Fit {
  const piece = { lengthUm: need.roughLengthUm, widthUm: need.roughWidthUm }
  const [aUp, bUp] = (['aUp', 'bUp'] as const).map((orientation) => ({
    orientation,
    places: freePlacements(usable, piece, zonesFor(board, usable, need, orientation)),
  }))
  return bUp.places > aUp.places ? bUp : aUp
}

/** The first hurdle that the board does not take, or the way up that fits. */
function tryBoard(board: PoolBoard, need: BlankNeed, shop: CutShop): Fit | Miss {
  if (!meetsSpecies(need.species, board.species)) return { hurdle: 'species' }
  const usable = usableOf(board, shop.allowances)
  const lack = (wantUm: number, haveUm: number) => wantUm - haveUm
  const thicknessLackUm = lack(need.finishedThicknessUm, thicknessLeftUm(board, need, shop))
  if (thicknessLackUm > 0) return { hurdle: 'thickness', lackUm: thicknessLackUm }
  const lengthLackUm = lack(need.roughLengthUm, usable.lengthUm)
  if (lengthLackUm > 0) return { hurdle: 'length', lackUm: lengthLackUm }
  const widthLackUm = lack(need.roughWidthUm, usable.widthUm)
  if (widthLackUm > 0) return { hurdle: 'width', lackUm: widthLackUm }
  const fit = bestFit(board, usable, need)
  if (fit.places === 0) return { hurdle: 'defects' }
  const gates = partRefusals(board, need.faces)
  return gates.length > 0 ? { hurdle: 'gates', gates } : fit
}

const isFit = (outcome: Fit | Miss): outcome is Fit => 'places' in outcome

/** Furthest hurdle first, then the least that is missing, then the pool's own order. */
function nearestMiss(boards: readonly PoolBoard[], outcomes: readonly (Fit | Miss)[]) {
  const misses = outcomes.flatMap((outcome, index) => (isFit(outcome) ? [] : [{ ...outcome, index }]))
  return misses
    .map((miss) => ({ ...miss, board: boards[miss.index] }))
    .sort(
      (a, b) =>
        HURDLES.indexOf(b.hurdle) - HURDLES.indexOf(a.hurdle) ||
        (a.lackUm ?? 0) - (b.lackUm ?? 0) ||
        a.index - b.index,
    )
    .at(0)
}

const labelOf = (board: PoolBoard): string => board.label ?? board.id

function unmakeableNeed(
  need: BlankNeed,
  boards: readonly PoolBoard[],
  outcomes: readonly (Fit | Miss)[],
): Unmakeable[] {
  if (outcomes.some(isFit)) return []
  const miss = nearestMiss(boards, outcomes)
  if (!miss) return [{ needId: need.id, hurdle: 'noBoards' }]
  const { hurdle, lackUm, gates, board } = miss
  const nearest = {
    boardId: board.id,
    label: labelOf(board),
    ...(lackUm === undefined ? {} : { lackUm }),
    ...(gates === undefined ? {} : { gates }),
  }
  return [{ needId: need.id, hurdle, nearest }]
}

/**
 * What using up a board costs: cm3 by the factor of its origin and the reluctance; at least 1.
 * @example boardCost({ ...plank, lengthUm: 1_000_000, widthUm: 100_000, thicknessUm: 20_000 }) //=> 2000
 */
export function boardCost(board: PoolBoard): number {
  const volumeCm3 = (board.lengthUm * board.widthUm * board.thicknessUm) / 1e12
  const factor = COST_FACTORS[board.origin ?? 'salvage'] * (board.reluctance ?? 1)
  return Math.max(1, Math.round(volumeCm3 * factor))
}

/** What lets a need be cut in other ways than one by one. */
function waysOf(need: BlankNeed, allowances: RoughAllowances): Pick<CutBlank, 'ends' | 'planedUm' | 'stave'> {
  const { ends, stave, roughLengthUm } = need
  if (stave !== undefined) return { stave }
  const isShort = roughLengthUm < allowances.minPlaneLengthUm
  return { ...(ends ? { ends } : {}), ...(isShort ? { planedUm: allowances.minPlaneLengthUm } : {}) }
}

/** One zone a defect, for the needs that cannot have it. */
function zonesOfBoard(
  board: PoolBoard,
  index: number,
  usable: UsableRectangle,
  needs: readonly BlankNeed[],
  orientations: readonly (Orientation | null)[],
): BlockedZone[] {
  const offered = needs.flatMap((_, need) => (orientations[need] === null ? [] : [need]))
  return board.defects.flatMap((defect) => {
    const zone = zoneInUsable(defectZone(defect), usable, board)
    const blocks = offered.filter((i) => !isAccepted(defect, needs[i], orientations[i] as Orientation))
    if (!zone || blocks.length === 0) return []
    return [{ board: index, ...zone, blocks: blocks.length === offered.length ? 'all' : blocks }]
  })
}

/**
 * The cutting problem of these needs on these boards. The caller passes only boards that the member may use.
 * A need that no board can make stays in the problem, with no boards, and is explained in `unmakeable`.
 * @example cutProblemFrom([plank], blankNeedsFromModel(model, allowances), shop).problem.boards.length //=> 1
 */
export function cutProblemFrom(
  boards: readonly PoolBoard[],
  needs: readonly BlankNeed[],
  shop: CutShop,
): PoolCutProblem {
  const outcomes = boards.map((board) => needs.map((need) => tryBoard(board, need, shop)))
  const kept = boards.flatMap((board, index) => (outcomes[index].some(isFit) ? [{ board, index }] : []))
  const usable = kept.map(({ board }) => usableOf(board, shop.allowances))
  const orientations = kept.map(({ index }) =>
    outcomes[index].map((outcome) => (isFit(outcome) ? outcome.orientation : null)),
  )
  const offeredTo = (need: number) =>
    orientations.flatMap((ofBoard, board) => (ofBoard[need] === null ? [] : [board]))
  const problem: CutProblem = {
    kerfUm: shop.kerfUm,
    boards: kept.map(({ board }, i) => ({
      id: board.id,
      lengthUm: usable[i].lengthUm,
      widthUm: usable[i].widthUm,
      cost: boardCost(board),
    })),
    blanks: needs.map((need, index) => ({
      id: need.id,
      lengthUm: need.roughLengthUm,
      widthUm: need.roughWidthUm,
      demand: need.count,
      grain: need.grain,
      weight: need.stave ? 0 : 1,
      boards: offeredTo(index),
      ...waysOf(need, shop.allowances),
    })),
    zones: kept.flatMap(({ board }, i) => zonesOfBoard(board, i, usable[i], needs, orientations[i])),
    limits: shop.limits,
    offcut: shop.offcut,
    objective: 'parts',
  }
  return {
    problem,
    boardIds: problem.boards.map((board) => board.id),
    needIds: needs.map((need) => need.id),
    usable,
    orientations,
    unmakeable: needs.flatMap((need, i) => {
      if (need.stave) return []
      const stave = needs.findIndex((each) => each.stave?.of === i)
      // A panel is out of reach only where its staves are, too.
      const isGluedUp = stave >= 0 && outcomes.some((ofBoard) => isFit(ofBoard[stave]))
      const own = outcomes.map((ofBoard) => ofBoard[i])
      return isGluedUp ? [] : unmakeableNeed(need, boards, own)
    }),
  }
}

type Say = (valueUm: number) => string

const sayIn = (unit: LengthUnit): Say =>
  unit === 'in'
    ? (valueUm) => formatInches(valueUm, { denominator: 16 })
    : (valueUm) => `${formatMm(valueUm)} mm`

function speciesWish(need: BlankNeed): string {
  const { species } = need
  return species === undefined || species === 'hardwood' || species === 'softwood'
    ? (species ?? 'wood')
    : speciesById(species).name
}

function hurdleSentence(miss: Unmakeable, need: BlankNeed, say: Say): string {
  const board = `The nearest is board ${miss.nearest?.label}`
  const lack = `${board}: ${say(miss.nearest?.lackUm ?? 0)}`
  switch (miss.hurdle) {
    case 'noBoards':
      return 'There is no board to plan on.'
    case 'species':
      return `No board is of the wood asked for: ${speciesWish(need)}.`
    case 'thickness':
      return `No board stays ${say(need.finishedThicknessUm)} thick once it is flat. ${lack} too thin.`
    case 'length':
      return `No board that would do is long enough for ${say(need.roughLengthUm)}. ${lack} too short.`
    case 'width':
      return `No board that would do is wide enough for ${say(need.roughWidthUm)}. ${lack} too narrow.`
    case 'defects':
      return `${board}, but its defects leave no place for it.`
    case 'gates':
      return `${board}, but it is not cleared. ${(miss.nearest?.gates ?? []).map(gateSentence).join(' ')}`
  }
}

/** Why the plan, not the pool, left it out. */
const CONTENTION: Readonly<Record<Shortage['why'], string>> = {
  noBoard: 'No board would do.',
  length: 'No board that would do is long enough.',
  width: 'No board that would do is wide enough.',
  defects: 'The defects of the boards that would do leave no place for it.',
  contention: 'The boards that would do are used up by the other parts.',
}

export interface ShortageSentence {
  readonly needId: string
  readonly missing: number
  readonly sentence: string
}

/**
 * Each shortage of a plan in words.
 * @example explainShortages(pool, plan, needs)[0].sentence
 * //=> '2 of 4 short: leg. The boards that would do are used up by the other parts.'
 */
export function explainShortages(
  pool: PoolCutProblem,
  plan: Pick<CutPlan, 'shortages'>,
  needs: readonly BlankNeed[],
  options: { readonly unit?: LengthUnit } = {},
): ShortageSentence[] {
  const say = sayIn(options.unit ?? 'mm')
  return plan.shortages.map(({ blank, missing, why }) => {
    const need = needs[blank]
    const miss = pool.unmakeable.find((each) => each.needId === need.id)
    const because = miss ? hurdleSentence(miss, need, say) : CONTENTION[why]
    return {
      needId: need.id,
      missing,
      sentence: `${missing} of ${need.count} short: ${need.name}. ${because}`,
    }
  })
}

/** Sizes to look for are rounded up: a board a little too small is too small. */
const mmUp = (valueUm: number): string => formatMm(Math.ceil(valueUm / 1000) * 1000)
const sixteenthsUp = (valueUm: number): string => {
  const tickUm = UM_PER_INCH / 16
  return formatInches(Math.round(Math.ceil(valueUm / tickUm) * tickUm), { denominator: 16 })
}

/**
 * The board that would cure it, at the size that a member looks for: usable size plus end trim and flattening.
 * @example cureSentence({ lengthUm: 640_000, widthUm: 70_000, blanks: [{ blank: 0, count: 1 }] }, needs, allowances)
 * //=> 'A flat, sound board of 660 × 70 × 40 mm or more would make up for it: 1 × leg.'
 */
export function cureSentence(
  cure: Cure,
  needs: readonly BlankNeed[],
  allowances: RoughAllowances,
  options: { readonly unit?: LengthUnit } = {},
): string {
  const unit = options.unit ?? 'mm'
  const made = cure.blanks.filter(({ count }) => count > 0)
  const thicknessUm =
    Math.max(...made.map(({ blank }) => needs[blank].finishedThicknessUm)) +
    2 * (allowances.skimPerFaceUm + allowances.sandPerFaceUm)
  const sizesUm = [
    cure.lengthUm + 2 * allowances.endTrimUm,
    cure.widthUm + 2 * allowances.edgeTrimUm,
    thicknessUm,
  ]
  const size = unit === 'in' ? sizesUm.map(sixteenthsUp).join(' × ') : `${sizesUm.map(mmUp).join(' × ')} mm`
  const wishes = [...new Set(made.map(({ blank }) => needs[blank].species ?? ''))].filter((id) => id !== '')
  const wood = wishes.length === 1 ? `, ${speciesWish(needs[made[0].blank])},` : ''
  const parts = made.map(({ blank, count }) => `${count} × ${needs[blank].name}`).join('; ')
  return `A flat, sound board${wood} of ${size} or more would make up for it: ${parts}.`
}
