/**
 * Steps of the cut trees: trim, crosscut on the sled to a stop, rip along the fence, plane where planing.ts says.
 * In: the board copies of a cut plan. Out: steps in the order of a maker who finishes one piece after the other.
 * A crosscut whose first piece is waste is made to a pencil mark, since a thin slice must not be trapped at a stop; a
 * rip whose first piece is waste has its second one at the fence. Where both pieces of a cut hold parts, either may be
 * measured, and the one that shares its setting with most other cuts is taken.
 * Tests: tests/core/setups/plan-setups.test.ts.
 */
import type { CutNode } from '#lib/core/cutting/problem'
import { stopLengthUm } from '#lib/core/cutting/rows'
import type { Part } from '#lib/core/design/model'
import { flatteningLoss } from '../board/flattening'
import { planerPasses } from './passes'
import type { BoardCopy, Piece } from './pieces'
import { blanksUnder } from './pieces'
import { fitsPlaner, planedPieces } from './planing'
import type { SetupInput } from './setup-input'
import type { SetupWarning } from './setup-plan'
import { type Step, type StepList, settingMm, settingRad } from './step'
import { degText, mmText, passesText, sizeText } from './wording'

type Cut = Extract<CutNode, { kind: 'cut' }>

const THIN_MM = 0.05
/** A piece that rocks by less than this is held flat by the planer's rollers (common practice). */
const ROCKS_MM = 0.5

/** A distance from the blade that a cut may be measured by, and which of its pieces has it. */
interface Measure {
  readonly um: number
  readonly piece: 'first' | 'second'
}

function sizeOf(node: CutNode, cut: Cut['cut']): number {
  return cut === 'crosscut' ? node.lengthUm : node.widthUm
}

/**
 * A cut that leans: the piece's left tip lies on the sled's fence, so the fence has the lower edge as drawn, or the
 * upper one with the piece turned half round; the sled stands alike for both.
 */
const isUpperOnFence = (piece: CutNode): boolean => (piece.leanUm?.[0] ?? 0) > 0

/** Turn of the sled for a cut that leans, seen from above; see setup-plan.ts. */
const sledAngleOf = (cut: Cut): number => -Math.atan((cut.slantUm ?? 0) / cut.widthUm) + 0

/** The pieces that may lie between blade and stop, or blade and fence; none: cut to a mark. */
function measures(piece: Piece, cut: Cut, input: SetupInput): readonly Measure[] {
  const saw = input.shop.tableSaw
  if (cut.slantUm !== undefined) {
    const um = stopLengthUm(cut.first)
    return um >= saw.minStopMm * 1000 && um <= saw.maxStopMm * 1000 ? [{ um, piece: 'first' }] : []
  }
  const first: Measure = { um: sizeOf(cut.first, cut.cut), piece: 'first' }
  const second: Measure | undefined = cut.second && { um: sizeOf(cut.second, cut.cut), piece: 'second' }
  const holdsParts = piece.children.map((child) => blanksUnder(child).length > 0)
  const wanted = [first, second].filter((m, i): m is Measure => m !== undefined && holdsParts[i])
  const kept = [first, second].filter(
    (m, i): m is Measure => m !== undefined && piece.children[i].node.kind !== 'waste',
  )
  const candidates = wanted.length > 0 ? wanted : kept.length > 0 ? kept : [first]
  if (cut.cut === 'rip') return candidates
  if (piece.children[0].node.kind === 'waste') return []
  return candidates.filter((m) => m.um >= saw.minStopMm * 1000 && m.um <= saw.maxStopMm * 1000)
}

const measureKey = (cut: Cut, m: Measure): string =>
  `${cut.cut} ${settingMm(m.um / 1000)} ${settingRad(sledAngleOf(cut))}`

/** Every cut node of a tree, parents first. */
function cutPieces(piece: Piece): readonly (Piece & { node: Cut })[] {
  if (piece.node.kind !== 'cut') return []
  return [piece as Piece & { node: Cut }, ...piece.children.flatMap(cutPieces)]
}

/** For each cut the measure to use: again and again the setting that serves most of the cuts still open. */
export function chooseMeasures(
  copies: readonly BoardCopy[],
  input: SetupInput,
): ReadonlyMap<string, Measure> {
  const chosen = new Map<string, Measure>()
  const open = new Map<string, readonly (readonly [string, Measure])[]>()
  for (const piece of copies.flatMap((copy) => cutPieces(copy.root))) {
    const options = measures(piece, piece.node, input)
    if (options.length > 0)
      open.set(
        piece.id,
        options.map((m) => [measureKey(piece.node, m), m]),
      )
  }
  while (open.size > 0) {
    const best = mostUsed(open)
    for (const [id, options] of [...open]) {
      const match = options.find(([key]) => key === best)
      if (match === undefined) continue
      chosen.set(id, match[1])
      open.delete(id)
    }
  }
  return chosen
}

function mostUsed(open: ReadonlyMap<string, readonly (readonly [string, Measure])[]>): string {
  const counts = new Map<string, number>()
  for (const options of open.values()) {
    for (const key of new Set(options.map(([k]) => k))) counts.set(key, (counts.get(key) ?? 0) + 1)
  }
  return [...counts].reduce((best, entry) => (entry[1] > best[1] ? entry : best))[0]
}

/** What follows from the model for the thickness: the finished one of the part that a blank becomes. */
function finishedMm(piece: Piece, parts: ReadonlyMap<string, Part>): number {
  const part = piece.partId === undefined ? undefined : parts.get(piece.partId)
  return part?.blank.thicknessMm ?? 0
}

export interface TreeContext {
  readonly input: SetupInput
  readonly parts: ReadonlyMap<string, Part>
  readonly measures: ReadonlyMap<string, Measure>
  readonly out: StepList
  /** Called for each finished blank, with the step that frees it and its thickness. */
  readonly onBlank: (piece: Piece, after: readonly string[], thicknessMm: number) => void
}

/** Adds the steps of one board, and calls `onBlank` for each blank as soon as it is free. */
export function addTreeSteps(copy: BoardCopy, context: TreeContext): void {
  const planed = new Set(planedPieces(copy.root, context.input.shop.planer).map((piece) => piece.id))
  const thicknessMm = copy.board.thicknessUm / 1000
  const after = addEndTrim(copy, context, thicknessMm)
  walk(copy, copy.root, after, thicknessMm, planed, context)
}

function walk(
  copy: BoardCopy,
  piece: Piece,
  after: readonly string[],
  thicknessMm: number,
  planed: ReadonlySet<string>,
  context: TreeContext,
): void {
  const isThinner = piece.node.kind === 'blank' && finishedMm(piece, context.parts) > 0
  const planing =
    planed.has(piece.id) || isThinner
      ? addPlaning(copy, piece, after, thicknessMm, context, planed.has(piece.id))
      : { after, thicknessMm }
  if (piece.node.kind === 'blank') context.onBlank(piece, planing.after, planing.thicknessMm)
  if (piece.node.kind !== 'cut') return
  const step = sawStep(piece, piece.node, planing.after, planing.thicknessMm, context)
  context.out.steps.push(step)
  warnOfSaw(piece, piece.node, step, context)
  for (const child of piece.children) walk(copy, child, [step.key], planing.thicknessMm, planed, context)
}

function addEndTrim(copy: BoardCopy, context: TreeContext, thicknessMm: number): readonly string[] {
  const trimUm = copy.board.endTrimUm ?? 0
  if (trimUm <= 0) return []
  const { times: t } = context.input.shop
  const key = `trim:${copy.root.id}`
  context.out.steps.push({
    ...crosscutSettings(context.input, undefined),
    key,
    kind: 'crosscut',
    station: 'tableSaw',
    pieceId: copy.root.id,
    pieceName: copy.root.name,
    passes: 2,
    isToMark: true,
    after: [],
    note: `Trim ${mmText(trimUm / 1000)} off both ends, to a mark, to sound wood without checks.`,
    seconds: 2 * (t.handle + t.crosscut),
    thicknessMm,
  })
  return [key]
}

function crosscutSettings(
  input: SetupInput,
  stopUm: number | undefined,
  sledAngleRad = 0,
  stopSide: 'left' | 'right' = 'left',
): Pick<Step, 'needs' | 'settings'> {
  const blade = input.shop.tableSaw.blades === 'combination' ? 'combination' : 'crosscut'
  const stopMm = stopUm === undefined ? undefined : stopUm / 1000
  return {
    needs: {
      blade,
      guide: 'sled',
      bladeHeight: 'through',
      bladeTilt: '0.00000',
      sledAngle: settingRad(sledAngleRad),
      ...(stopMm === undefined ? {} : { stop: `${stopSide} ${settingMm(stopMm)}` }),
    },
    settings: {
      blade,
      bladeWidthMm: input.shop.tableSaw.kerfMm,
      guide: 'sled',
      bladeTiltRad: 0,
      sledAngleRad,
      ...(stopMm === undefined ? {} : { stopMm, stopSide }),
    },
  }
}

export function ripSettings(input: SetupInput, fenceMm: number): Pick<Step, 'needs' | 'settings'> {
  const blade = input.shop.tableSaw.blades === 'combination' ? 'combination' : 'rip'
  return {
    needs: {
      blade,
      guide: 'ripFence',
      bladeHeight: 'through',
      bladeTilt: '0.00000',
      fence: settingMm(fenceMm),
    },
    settings: {
      blade,
      bladeWidthMm: input.shop.tableSaw.kerfMm,
      guide: 'ripFence',
      bladeTiltRad: 0,
      fenceMm,
    },
  }
}

function pieceText(child: Piece | undefined): string {
  if (child === undefined) return 'nothing (the kerf takes it)'
  const size = sizeText(child.node.lengthUm, child.node.widthUm)
  if (child.node.kind === 'blank') return `${child.name} (${size})`
  if (child.node.kind === 'cut') return `a piece to cut further (${size})`
  return `${child.node.kind === 'offcut' ? 'an offcut for the pool' : 'waste'} (${size})`
}

function sawNote(piece: Piece, cut: Cut, measure: Measure | undefined): string {
  const gives = `Gives ${pieceText(piece.children[0])} and ${pieceText(piece.children[1])}.`
  const at = mmText(cut.atUm / 1000)
  if (cut.cut === 'rip') {
    const toFence = measure?.piece === 'second' ? 'the second piece' : 'the first piece'
    return `Rip at ${at} from the upper edge as drawn, ${toFence} between blade and fence. ${gives}`
  }
  if (cut.slantUm !== undefined) return slantNote(piece.node, cut, measure, gives)
  if (measure === undefined) return `To a pencil mark ${at} from the left end. ${gives}`
  const turn =
    measure.piece === 'second' ? 'Turn end for end: the right end to the stop.' : 'Left end to the stop.'
  return `${turn} ${gives}`
}

/** One cut that ends one part and begins the next. */
function slantNote(piece: CutNode, cut: Cut, measure: Measure | undefined, gives: string): string {
  const lies = isUpperOnFence(piece)
    ? "Face A up, turned half round: upper edge as drawn to the sled's fence"
    : "Face A up, lower edge as drawn to the sled's fence"
  const stop =
    measure === undefined
      ? `to a pencil mark ${mmText(stopLengthUm(cut.first) / 1000)} from the left end along that edge`
      : 'left end as drawn to the stop'
  return `${lies}, ${stop}. One slanted cut ends one part and begins the next. ${gives}`
}

function sawStep(
  piece: Piece,
  cut: Cut,
  after: readonly string[],
  thicknessMm: number,
  context: TreeContext,
): Step {
  const { input } = context
  const measure = context.measures.get(piece.id)
  const t = input.shop.times
  const isRip = cut.cut === 'rip'
  const fenceMm = (measure?.um ?? cut.atUm) / 1000
  return {
    ...(isRip
      ? ripSettings(input, fenceMm)
      : crosscutSettings(input, measure?.um, sledAngleOf(cut), isUpperOnFence(cut) ? 'right' : 'left')),
    key: `cut:${piece.id}`,
    kind: isRip ? 'rip' : 'crosscut',
    station: 'tableSaw',
    pieceId: piece.id,
    pieceName: piece.name,
    passes: 1,
    isToMark: !isRip && measure === undefined,
    after,
    note: sawNote(piece, cut, measure),
    seconds: t.handle + (isRip ? cut.lengthUm / 1000 / t.ripFeed : t.crosscut),
    tree: piece.place,
    thicknessMm,
  }
}

function warnOfSaw(piece: Piece, cut: Cut, step: Step, context: TreeContext): void {
  const saw = context.input.shop.tableSaw
  const add = (code: SetupWarning['code'], message: string): void => {
    context.out.warnings.push({ level: 'caution', code, message: `${piece.name}: ${message}`, key: step.key })
  }
  if (cut.cut === 'crosscut' && cut.widthUm > saw.maxCrosscutWidthMm * 1000) {
    add('tooWideForSled', `${mmText(cut.widthUm / 1000)} across is more than the sled holds.`)
  }
  if (Math.abs(sledAngleOf(cut)) > saw.maxSledAngleRad)
    add('angleTooSteep', `the sled does not turn to ${degText(sledAngleOf(cut))}.`)
  if (cut.cut === 'crosscut' && cut.lengthUm < saw.minHoldMm * 1000) {
    add(
      'tooShortToHold',
      `${mmText(cut.lengthUm / 1000)} long is too short to hold by hand; clamp it to the sled.`,
    )
  }
  if (cut.cut === 'rip' && (step.settings.fenceMm ?? 0) > saw.maxRipMm) {
    add('tooWideForFence', `${mmText(step.settings.fenceMm ?? 0)} is more than the fence opens.`)
  }
  if (cut.cut === 'rip' && cut.lengthUm < saw.minRipLengthMm * 1000) {
    add(
      'tooShortToRip',
      `${mmText(cut.lengthUm / 1000)} long is too short to rip along the fence; use a carrier or a hand saw.`,
    )
  }
}

interface Planing {
  readonly after: readonly string[]
  readonly thicknessMm: number
}

function flattenMm(copy: BoardCopy, piece: Piece): number {
  if (copy.board.warp === undefined) return 0
  const size = { lengthUm: piece.node.lengthUm, widthUm: piece.node.widthUm }
  const board = { ...copy.board, warp: copy.board.warp }
  const loss = flatteningLoss(board, size, { skimPerFaceUm: 0, sandPerFaceUm: 0, isTwistShimmed: true })
  return (loss.cupUm + loss.bowUm + loss.twistUm) / 1000
}

/** Adds flattening and planing of one piece to the thickness of the thickest part that comes out of it. */
function addPlaning(
  copy: BoardCopy,
  piece: Piece,
  after: readonly string[],
  thicknessMm: number,
  context: TreeContext,
  isFirst: boolean,
): Planing {
  const targetMm = Math.max(...blanksUnder(piece).map((blank) => finishedMm(blank, context.parts)))
  const toMm = targetMm + (context.input.sandingMm ?? 0)
  const warpMm = isFirst ? flattenMm(copy, piece) : 0
  const lossMm = warpMm > ROCKS_MM ? warpMm : 0
  const flatMm = thicknessMm - lossMm
  if (targetMm <= 0) return { after, thicknessMm }
  if (isFirst && flatMm < targetMm - THIN_MM) warnOfThinBoard(piece, flatMm, targetMm, context)
  if (thicknessMm - Math.max(targetMm, Math.min(toMm, flatMm)) <= THIN_MM) return { after, thicknessMm }
  warnOfPlaner(piece, toMm, context)
  const flat = lossMm > THIN_MM ? [addFlattening(piece, after, thicknessMm, flatMm, context)] : after
  return flatMm - toMm > THIN_MM
    ? { after: [addThicknessing(piece, flat, flatMm, toMm, context)], thicknessMm: toMm }
    : { after: flat, thicknessMm: flatMm }
}

function planerSeconds(piece: Piece, passes: number, context: TreeContext): number {
  const t = context.input.shop.times
  return passes * (t.handle + piece.node.lengthUm / 1000 / t.planeFeed)
}

function addFlattening(
  piece: Piece,
  after: readonly string[],
  fromMm: number,
  toMm: number,
  context: TreeContext,
): string {
  const { maxPassMm } = context.input.shop.planer
  const passes = Math.max(1, planerPasses(fromMm, toMm, maxPassMm))
  const key = `flatten:${piece.id}`
  context.out.steps.push({
    key,
    kind: 'flatten',
    station: 'planer',
    needs: { carrier: 'carrier' },
    settings: { passDepthMm: maxPassMm },
    pieceId: piece.id,
    pieceName: piece.name,
    passes,
    leavesMm: toMm,
    after,
    note: `Hollow side down, shimmed so that it does not rock; ${mmText(fromMm - toMm)} in ${passesText(passes)}, until the face is clean from end to end.`,
    seconds: planerSeconds(piece, passes, context),
    thicknessMm: fromMm,
  })
  return key
}

function addThicknessing(
  piece: Piece,
  after: readonly string[],
  fromMm: number,
  toMm: number,
  context: TreeContext,
): string {
  const { maxPassMm } = context.input.shop.planer
  const passes = planerPasses(fromMm, toMm, maxPassMm)
  const key = `plane:${piece.id}`
  context.out.steps.push({
    key,
    kind: 'plane',
    station: 'planer',
    needs: { carrier: 'bed', thickness: settingMm(toMm) },
    settings: { thicknessMm: toMm, passDepthMm: maxPassMm },
    pieceId: piece.id,
    pieceName: piece.name,
    passes,
    leavesMm: toMm,
    after,
    note: `From ${mmText(fromMm)} to ${mmText(toMm)} in ${passesText(passes)}, about half from each face.`,
    seconds: planerSeconds(piece, passes, context),
    thicknessMm: fromMm,
  })
  return key
}

function warnOfThinBoard(piece: Piece, flatMm: number, targetMm: number, context: TreeContext): void {
  context.out.warnings.push({
    level: 'stop',
    code: 'boardTooThin',
    message: `${piece.name}: flat at ${mmText(flatMm)}, but the part wants ${mmText(targetMm)}.`,
    key: `plane:${piece.id}`,
  })
}

function warnOfPlaner(piece: Piece, toMm: number, context: TreeContext): void {
  const { planer } = context.input.shop
  const { lengthUm, widthUm } = piece.node
  const key = `plane:${piece.id}`
  const add = (level: SetupWarning['level'], code: SetupWarning['code'], message: string): void => {
    context.out.warnings.push({ level, code, message: `${piece.name}: ${message}`, key })
  }
  if (piece.node.kind === 'cut') {
    add(
      'note',
      'planedWhole',
      'planed before it is cut, because its parts are too short or too narrow for the planer afterwards.',
    )
  }
  if (fitsPlaner(piece, planer) && toMm >= planer.minThicknessMm) return
  if (lengthUm < planer.minLengthMm * 1000) {
    add(
      'caution',
      'tooShortToPlane',
      `${mmText(lengthUm / 1000)} is shorter than the planer takes (${mmText(planer.minLengthMm)}): plane by hand, or with runners glued to both sides.`,
    )
  }
  if (widthUm < planer.minWidthMm * 1000)
    add('caution', 'tooNarrowToPlane', `${mmText(widthUm / 1000)} is too narrow for the planer.`)
  if (widthUm > planer.maxWidthMm * 1000)
    add(
      'caution',
      'tooWideToPlane',
      `${mmText(widthUm / 1000)} is wider than the planer: rip it first or plane by hand.`,
    )
  if (toMm < planer.minThicknessMm)
    add(
      'caution',
      'tooThinToPlane',
      `${mmText(toMm)} is thinner than the planer takes without a carrier board.`,
    )
}
