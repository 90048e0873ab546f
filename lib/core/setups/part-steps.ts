/**
 * Steps that turn a cut blank into a part: glue-up of staves, rip to width, end cuts, notches, holes, tapers, eased edges, engraving.
 * In: a part with its operations (mm, rad), the steps that free its blanks. Out: steps, each after the ones that it
 * waits for: width before bevelled edges, edges before ends, first end before second, ends before notches, notches before holes, tapers once the faces that they
 * take away have served as reference, then edges, engraving last.
 * Limits: one blank or one glued panel a part. Tests: tests/core/setups/part-steps.test.ts.
 */

import { capital, FACE_WORDS } from '#lib/core/design/face-words'
import type { EdgeBevel, EndCut, Hole, Notch, Part } from '#lib/core/design/model'
import { easedEdgeSteps } from './eased-edge-steps'
import { engravingSteps } from './engraving-steps'
import { type Draft, type FreeBlank, type PartContext, warn } from './part-context'
import { notchPasses } from './passes'
import type { SetupInput } from './setup-input'
import {
  endCutPlacing,
  firstEndPlacing,
  type NotchPlacing,
  notchPlacing,
  type SledPlacing,
} from './sled-placing'
import { type Step, settingMm, settingRad } from './step'
import { taperSteps } from './taper-steps'
import { ripSettings } from './tree-steps'
import { degText, mmText, passesText } from './wording'

const THIN_MM = 0.05

/** Adds all steps of one part. */
export function addPartSteps(part: Part, blanks: readonly FreeBlank[], context: PartContext): void {
  const add = (draft: Draft, after: readonly string[]): string => {
    context.out.steps.push({ ...draft, pieceId: part.id, pieceName: part.name, after })
    return draft.key
  }
  const phase = (drafts: readonly Draft[], after: readonly string[]): readonly string[] =>
    drafts.length === 0 ? after : drafts.map((draft) => add(draft, after))
  const chain = (drafts: readonly Draft[], after: readonly string[]): readonly string[] =>
    drafts.reduce((last, draft) => [add(draft, last)], after)

  const staves = inPanelOrder(blanks)
  let after: readonly string[] = staves.flatMap((stave, i) =>
    jointEdges(part, stave, i, staves.length, context),
  )
  after = chain(glueUp(part, blanks, context), after)
  after = chain(finishRip(part, blanks, context), after)
  after = chain(edgeBevels(part, context), after)
  after = chain(endCuts(part, context), after)
  after = phase(notches(part, context), after)
  after = phase(holes(part, context), after)
  after = phase(countersinks(part, context), after)
  after = chain(taperSteps(part, context), after)
  after = chain(easedEdgeSteps(part, context), after)
  chain(engravingSteps(part, context), after)
}

/** As they lie in the panel. */
const inPanelOrder = (blanks: readonly FreeBlank[]): readonly FreeBlank[] =>
  blanks.toSorted((a, b) => placeInPanel(a) - placeInPanel(b))
const placeInPanel = ({ piece: { node } }: FreeBlank): number =>
  node.kind === 'blank' ? (node.stave?.at ?? 0) : 0

/** Straightens the edges of a stave that meet others: one of an outer stave, both of an inner one. */
function jointEdges(
  part: Part,
  { piece, after }: FreeBlank,
  index: number,
  count: number,
  context: PartContext,
): readonly string[] {
  const { jointMm, shop } = context.input
  if (count < 2 || jointMm === undefined) return after
  const isOuter = index === 0 || index === count - 1
  const edges = isOuter ? ['the edge that is glued'] : ['one edge that is glued', 'the other edge']
  return edges.reduce<readonly string[]>((last, edge, i) => {
    const fenceMm = piece.node.widthUm / 1000 - (i + 1) * jointMm
    const key = `joint:${piece.id}:${i + 1}`
    context.out.steps.push({
      ...ripSettings(context.input, fenceMm),
      key,
      kind: 'rip',
      station: 'tableSaw',
      pieceId: piece.id,
      pieceName: piece.name,
      passes: 1,
      after: last,
      note: `Straighten ${edge}: takes ${mmText(jointMm)}. Stave ${index + 1} of ${count} for ${part.name}; it must meet its neighbour without light.`,
      seconds: shop.times.handle + piece.node.lengthUm / 1000 / shop.times.ripFeed,
      thicknessMm: part.blank.thicknessMm,
    })
    if (piece.node.lengthUm < shop.tableSaw.minRipLengthMm * 1000)
      warn(
        context,
        key,
        'tooShortToRip',
        `${piece.name}: too short to rip along the fence; use a carrier or a hand plane.`,
      )
    if (fenceMm > shop.tableSaw.maxRipMm)
      warn(context, key, 'tooWideForFence', `${piece.name}: ${mmText(fenceMm)} is more than the fence opens.`)
    return [key]
  }, after)
}

/** Common practice; the glue's own instructions come first. */
const CLAMPING =
  "Growth rings up and down by turns, all grain one way, like colours side by side. Clamps every 200 to 300 mm, above and below by turns, as long as the glue's instructions say (white or yellow wood glue: an hour at room warmth); machine it the next day."

function glueUp(part: Part, blanks: readonly FreeBlank[], context: PartContext): readonly Draft[] {
  if (blanks.length < 2) return []
  return [
    {
      key: `glue:${part.id}`,
      kind: 'glueUp',
      station: 'assemblyBench',
      needs: { clamps: part.id },
      settings: {},
      passes: 1,
      count: blanks.length,
      note: `Glue ${blanks.length} staves edge to edge, in their order. ${CLAMPING}`,
      seconds: context.input.shop.times.glueUp,
    },
  ]
}

/** Width that stands over the part's own: of the blank, or of all staves together once their joints are straight. */
function overWidthMm(part: Part, blanks: readonly FreeBlank[], jointMm: number): number {
  const acrossUm = ({ piece }: FreeBlank): number =>
    piece.node.kind === 'blank' && piece.node.turned ? piece.node.lengthUm : piece.node.widthUm
  const jointsMm = 2 * jointMm * (blanks.length - 1)
  return blanks.reduce((sum, blank) => sum + acrossUm(blank), 0) / 1000 - jointsMm - part.blank.widthMm
}

function finishRip(part: Part, blanks: readonly FreeBlank[], context: PartContext): readonly Draft[] {
  const overMm = overWidthMm(part, blanks, context.input.jointMm ?? 0)
  const key = `width:${part.id}`
  if (blanks.some(({ piece }) => piece.node.kind === 'blank' && piece.node.turned)) {
    warn(
      context,
      key,
      'turnedBlank',
      `${part.name}: its blank lies across the board; its grain runs across it.`,
    )
  }
  if (overMm <= THIN_MM) return []
  const { shop } = context.input
  const { widthMm, lengthMm, thicknessMm } = part.blank
  if (lengthMm < shop.tableSaw.minRipLengthMm) {
    warn(
      context,
      key,
      'tooShortToRip',
      `${part.name}: ${mmText(lengthMm)} long is too short to rip along the fence.`,
    )
  }
  if (widthMm > shop.tableSaw.maxRipMm) {
    warn(context, key, 'tooWideForFence', `${part.name}: ${mmText(widthMm)} is more than the fence opens.`)
  }
  return [
    {
      ...ripSettings(context.input, widthMm),
      key,
      kind: 'rip',
      station: 'tableSaw',
      passes: 1,
      note: `Straight edge to the fence; takes ${mmText(overMm)} and brings it to its finished width.`,
      seconds: shop.times.handle + lengthMm / shop.times.ripFeed,
      thicknessMm,
    },
  ]
}

const isEdgeBevel = (op: Part['operations'][number]): op is EdgeBevel => op.kind === 'edgeBevel'

/** Width that is left on a face once an edge is bevelled. */
function widthLeftMm(part: Part, { edge, point, normal }: EdgeBevel, face: 'faceA' | 'faceB'): number {
  const z = face === 'faceA' ? part.blank.thicknessMm : 0
  const y = point[1] - (normal[2] * (z - point[2])) / normal[1]
  return edge === 'edgeB' ? y : part.blank.widthMm - y
}

/** The blade leans away from the fence, so the face that keeps less lies down and gives the fence its distance. */
function edgeBevels(part: Part, context: PartContext): readonly Draft[] {
  const { tableSaw, times } = context.input.shop
  const { lengthMm, thicknessMm } = part.blank
  return part.operations.filter(isEdgeBevel).map((bevel) => {
    const tiltRad = Math.abs(bevel.bevelRad) * (tableSaw.tiltsTo === 'left' ? 1 : -1)
    const down = widthLeftMm(part, bevel, 'faceA') <= widthLeftMm(part, bevel, 'faceB') ? 'faceA' : 'faceB'
    const fenceMm = widthLeftMm(part, bevel, down)
    const fenceEdge = bevel.edge === 'edgeB' ? 'edgeA' : 'edgeB'
    const key = `op:${part.id}:${bevel.id}`
    const rip = ripSettings(context.input, fenceMm)
    warnOfBevel(part, fenceMm, tiltRad, key, context)
    return {
      key,
      kind: 'edgeBevel' as const,
      station: 'tableSaw' as const,
      needs: { ...rip.needs, bladeTilt: settingRad(tiltRad) },
      settings: { ...rip.settings, bladeTiltRad: tiltRad },
      passes: 1,
      note: `${capital(FACE_WORDS[down])} down, ${FACE_WORDS[fenceEdge]} to the fence, which stands on the side that the blade leans away from; bevels ${FACE_WORDS[bevel.edge]} from end to end.`,
      seconds: times.handle + lengthMm / times.ripFeed,
      thicknessMm,
      operationIds: [bevel.id],
    }
  })
}

function warnOfBevel(part: Part, fenceMm: number, tiltRad: number, key: string, context: PartContext): void {
  const saw = context.input.shop.tableSaw
  const { lengthMm, thicknessMm } = part.blank
  if (lengthMm < saw.minRipLengthMm)
    warn(
      context,
      key,
      'tooShortToRip',
      `${part.name}: ${mmText(lengthMm)} long is too short to rip along the fence.`,
    )
  if (fenceMm > saw.maxRipMm)
    warn(context, key, 'tooWideForFence', `${part.name}: ${mmText(fenceMm)} is more than the fence opens.`)
  if (thicknessMm / Math.cos(tiltRad) > saw.maxBladeHeightMm)
    warn(
      context,
      key,
      'bladeTooLow',
      `${part.name}: the tilted blade does not reach through ${mmText(thicknessMm)}.`,
    )
}

function sledNeeds(placing: SledPlacing, blade: string): Step['needs'] {
  return {
    blade,
    guide: 'sled',
    bladeTilt: settingRad(placing.bladeTiltRad),
    sledAngle: settingRad(placing.sledAngleRad),
  }
}

function endCuts(part: Part, context: PartContext): readonly Draft[] {
  const cuts = (['endA', 'endB'] as const)
    .map((end) => part.operations.find((op): op is EndCut => op.kind === 'endCut' && op.end === end))
    .filter((cut) => cut !== undefined)
  const last = cuts.at(-1)
  if (last === undefined) return []
  const { tiltsTo } = context.input.shop.tableSaw
  const lastPlacing = endCutPlacing(part, last, tiltsTo)
  const toLength = endCutDraft(part, last, lastPlacing, true, isSameSled(part, cuts, tiltsTo), context)
  if (cuts.length === 1) return [toLength]
  const first = firstEndPlacing(part, cuts[0], lastPlacing, tiltsTo)
  return [endCutDraft(part, cuts[0], first, false, false, context), toLength]
}

/** Both ends come off the sled at one angle, the part merely turned. */
function isSameSled(part: Part, cuts: readonly EndCut[], tiltsTo: 'left' | 'right'): boolean {
  if (cuts.length < 2) return false
  const last = endCutPlacing(part, cuts[1], tiltsTo)
  const first = firstEndPlacing(part, cuts[0], last, tiltsTo)
  return Math.abs(first.sledAngleRad - last.sledAngleRad) < 1e-6
}

function endCutNote(cut: EndCut, placing: SledPlacing, isToLength: boolean, isSame: boolean): string {
  const lies = `${capital(FACE_WORDS[placing.faceDown])} down, ${FACE_WORDS[placing.onFence]} to the sled's fence`
  if (!isToLength) {
    return `${lies}. Trim ${FACE_WORDS[cut.end]} just clean; stop swung away.`
  }
  const isSquare = Math.abs(placing.sledAngleRad) < 1e-9
  const turn =
    isSame && !isSquare
      ? ' The sled stays as it was for the first end: the part is turned, not the sled.'
      : ''
  return `${lies}, ${FACE_WORDS[placing.atStop]} to the stop.${turn}`
}

function endCutDraft(
  part: Part,
  cut: EndCut,
  placing: SledPlacing,
  isToLength: boolean,
  isSame: boolean,
  context: PartContext,
): Draft {
  const { tableSaw, times } = context.input.shop
  const blade = tableSaw.blades === 'combination' ? 'combination' : 'crosscut'
  const hasStop = isToLength && placing.stopMm >= tableSaw.minStopMm && placing.stopMm <= tableSaw.maxStopMm
  const key = `op:${part.id}:${cut.id}`
  warnOfEndCut(part, placing, key, context)
  return {
    key,
    kind: 'endCut',
    station: 'tableSaw',
    needs: {
      ...sledNeeds(placing, blade),
      bladeHeight: 'through',
      ...(hasStop ? { stop: `${placing.stopSide} ${settingMm(placing.stopMm)}` } : {}),
    },
    settings: {
      blade,
      bladeWidthMm: tableSaw.kerfMm,
      guide: 'sled',
      bladeTiltRad: placing.bladeTiltRad,
      sledAngleRad: placing.sledAngleRad,
      ...(hasStop ? { stopMm: placing.stopMm, stopSide: placing.stopSide } : {}),
    },
    passes: 1,
    isToMark: !hasStop,
    note:
      isToLength && !hasStop
        ? `To a pencil mark ${mmText(placing.stopMm)} from the other end. ${endCutNote(cut, placing, false, false)}`
        : endCutNote(cut, placing, isToLength, isSame),
    seconds: times.handle + times.crosscut,
    operationIds: [cut.id],
    thicknessMm: part.blank.thicknessMm / Math.cos(placing.bladeTiltRad),
  }
}

function warnOfEndCut(part: Part, placing: SledPlacing, key: string, context: PartContext): void {
  const saw = context.input.shop.tableSaw
  if (Math.abs(placing.sledAngleRad) > saw.maxSledAngleRad) {
    warn(
      context,
      key,
      'angleTooSteep',
      `${part.name}: the sled does not turn to ${degText(placing.sledAngleRad)}.`,
    )
  }
  if (part.blank.thicknessMm / Math.cos(placing.bladeTiltRad) > saw.maxBladeHeightMm) {
    warn(
      context,
      key,
      'bladeTooLow',
      `${part.name}: the blade does not reach through ${mmText(part.blank.thicknessMm)}.`,
    )
  }
  if (part.blank.widthMm > saw.maxCrosscutWidthMm) {
    warn(
      context,
      key,
      'tooWideForSled',
      `${part.name}: ${mmText(part.blank.widthMm)} across is more than the sled holds.`,
    )
  }
  if (part.blank.lengthMm < saw.minHoldMm) {
    warn(
      context,
      key,
      'tooShortToHold',
      `${part.name}: ${mmText(part.blank.lengthMm)} long is too short to hold by hand; clamp it to the sled.`,
    )
  }
}

/** Blade that cuts a notch: the stack set to the notch's width where it can be, else the saw's own blade. */
export function notchBladeMm(notch: Notch, input: SetupInput, isStackUsed: boolean): number {
  const { stack, kerfMm } = input.shop.tableSaw
  if (!isStackUsed || stack === undefined || notch.widthMm < stack.minMm) return kerfMm
  return Math.min(notch.widthMm, stack.maxMm)
}

export function notchPassCount(notch: Notch, input: SetupInput, isStackUsed: boolean): number {
  const bladeMm = notchBladeMm(notch, input, isStackUsed)
  const isStack = bladeMm !== input.shop.tableSaw.kerfMm
  return notchPasses(
    notch.widthMm,
    bladeMm,
    isStack ? bladeMm : Math.min(bladeMm, input.shop.tableSaw.notchStepMm),
  )
}

const isNotch = (op: Part['operations'][number]): op is Notch => op.kind === 'notch'

function notches(part: Part, context: PartContext): readonly Draft[] {
  return part.operations.filter(isNotch).map((notch) => notchDraft(part, notch, context))
}

function notchDraft(part: Part, notch: Notch, context: PartContext): Draft {
  const { tableSaw, times } = context.input.shop
  const bladeMm = notchBladeMm(notch, context.input, context.isStackUsed)
  const isStack = bladeMm !== tableSaw.kerfMm
  const passes = notchPassCount(notch, context.input, context.isStackUsed)
  const placing = notchPlacing(part, notch, bladeMm, tableSaw.minStopMm)
  const lastStopMm = placing.stopMm + placing.travelMm
  const stepMm = passes > 1 ? placing.travelMm / (passes - 1) : 0
  const isStopped = lastStopMm <= tableSaw.maxStopMm
  const key = `op:${part.id}:${notch.id}`
  const plain = tableSaw.blades === 'combination' ? 'combination' : 'crosscut'
  warnOfNotch(part, notch, placing, bladeMm, key, context)
  return {
    key,
    kind: 'notch',
    station: 'tableSaw',
    needs: {
      ...sledNeeds(placing, isStack ? `stack ${settingMm(bladeMm)}` : plain),
      bladeHeight: settingMm(notch.depthMm),
      ...(isStopped ? { stop: `${placing.stopSide} ${settingMm(placing.stopMm)}` } : {}),
      ...(isStopped && passes > 1 ? { lastStop: settingMm(lastStopMm) } : {}),
    },
    settings: {
      blade: isStack ? 'stack' : plain,
      bladeWidthMm: bladeMm,
      guide: 'sled',
      bladeHeightMm: notch.depthMm,
      bladeTiltRad: 0,
      sledAngleRad: placing.sledAngleRad,
      ...(isStopped ? { stopMm: placing.stopMm, stopSide: placing.stopSide } : {}),
      ...(isStopped && passes > 1 ? { lastStopMm } : {}),
      ...(passes > 1 ? { stepMm } : {}),
    },
    passes,
    isToMark: !isStopped,
    note: notchNote(placing, passes, stepMm, isStopped),
    seconds: times.handle + passes * times.notchPass,
    operationIds: [notch.id],
  }
}

function notchNote(placing: NotchPlacing, passes: number, stepMm: number, isStopped: boolean): string {
  const by = isStopped
    ? `towards the stop on the ${placing.stopSide}`
    : `cut to knife marks from ${mmText(placing.stopMm)}`
  const lies = `${capital(FACE_WORDS[placing.faceDown])} down, ${FACE_WORDS[placing.onFence]} to the sled's fence, ${FACE_WORDS[placing.atStop]} ${by}.`
  if (passes === 1) return `${lies} One pass.`
  const shoulders = isStopped ? 'First and last pass against a stop each' : 'Both shoulders to the marks'
  return `${lies} ${shoulders}, moving at most ${mmText(stepMm)} between passes; ${passesText(passes)} in all.`
}

function warnOfNotch(
  part: Part,
  notch: Notch,
  placing: NotchPlacing,
  bladeMm: number,
  key: string,
  context: PartContext,
): void {
  const saw = context.input.shop.tableSaw
  if (Math.abs(placing.sledAngleRad) > saw.maxSledAngleRad) {
    warn(
      context,
      key,
      'angleTooSteep',
      `${part.name}: the sled does not turn to ${degText(placing.sledAngleRad)}.`,
    )
  }
  if (notch.depthMm > saw.maxBladeHeightMm) {
    warn(
      context,
      key,
      'bladeTooLow',
      `${part.name}: a notch ${mmText(notch.depthMm)} deep is deeper than the blade reaches.`,
    )
  }
  if (notch.widthMm < bladeMm - 1e-9) {
    warn(
      context,
      key,
      'notchWiderThanPart',
      `${part.name}: the blade (${mmText(bladeMm)}) is wider than the notch (${mmText(notch.widthMm)}).`,
    )
  }
  if (part.blank.lengthMm < saw.minHoldMm) {
    warn(
      context,
      key,
      'tooShortToHold',
      `${part.name}: ${mmText(part.blank.lengthMm)} long is too short to hold by hand; clamp it to the sled.`,
    )
  }
}

const isHole = (op: Part['operations'][number]): op is Hole => op.kind === 'hole'

/** Wood that the hole's own direction goes through, from face to face. */
function woodMm(part: Part, hole: Hole): number {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  return hole.face.startsWith('end') ? lengthMm : hole.face.startsWith('edge') ? widthMm : thicknessMm
}

function leanRad(hole: Hole): number {
  const axis = hole.face.startsWith('end') ? 0 : hole.face.startsWith('edge') ? 1 : 2
  const length = Math.hypot(...hole.direction)
  return Math.acos(Math.min(1, Math.abs(hole.direction[axis]) / length))
}

/** Holes that one setting of the drill makes, in one step a part. */
function holes(part: Part, context: PartContext): readonly Draft[] {
  const groups = new Map<string, Hole[]>()
  for (const hole of part.operations.filter(isHole)) {
    const lean = leanRad(hole)
    const isThrough = hole.depthMm * Math.cos(lean) >= woodMm(part, hole) - THIN_MM
    const depth = isThrough ? 'through' : settingMm(hole.depthMm)
    const key = `${hole.face}|${settingMm(hole.diameterMm)}|${depth}|${settingRad(lean)}`
    groups.set(key, [...(groups.get(key) ?? []), hole])
  }
  return [...groups.values()].map((group) => holeDraft(part, group, context))
}

function holeDraft(part: Part, group: readonly Hole[], context: PartContext): Draft {
  const [hole] = group
  const lean = leanRad(hole)
  const standingMm = woodMm(part, hole)
  const isByHand = hole.face.startsWith('end') && standingMm > context.input.shop.drillPress.maxStandingMm
  const isThrough = hole.depthMm * Math.cos(lean) >= standingMm - THIN_MM
  const bit = `${mmText(hole.diameterMm)} drill`
  const lies = isByHand
    ? 'Clamp the part, drill by hand with a guide block'
    : 'On a scrap board, part held to a fence'
  return {
    key: `op:${part.id}:${group.map((each) => each.id).join('+')}`,
    kind: 'drill',
    station: isByHand ? 'assemblyBench' : 'drillPress',
    needs: {
      ...(isByHand ? { clamps: 'vise' } : {}),
      bit,
      ...(isThrough ? {} : { depth: settingMm(hole.depthMm) }),
      tableTilt: settingRad(lean),
    },
    settings: {
      bit,
      bitMm: hole.diameterMm,
      ...(isThrough ? {} : { depthMm: hole.depthMm }),
      tableTiltRad: lean,
    },
    passes: 1,
    count: group.length,
    note: `${lies}; into ${FACE_WORDS[hole.face]}, ${group.length === 1 ? 'one hole' : `${group.length} holes`}, ${isThrough ? 'right through' : `${mmText(hole.depthMm)} deep`}.`,
    seconds: context.input.shop.times.handle + group.length * context.input.shop.times.hole,
    operationIds: group.map((each) => each.id),
  }
}

function countersinks(part: Part, context: PartContext): readonly Draft[] {
  const groups = new Map<string, Hole[]>()
  for (const hole of part.operations.filter(isHole)) {
    if (hole.countersinkDiameterMm === undefined) continue
    const key = `${hole.face}|${settingMm(hole.countersinkDiameterMm)}|${settingRad(leanRad(hole))}`
    groups.set(key, [...(groups.get(key) ?? []), hole])
  }
  return [...groups.values()].map((group) => countersinkDraft(part, group, context))
}

function countersinkDraft(part: Part, group: readonly Hole[], context: PartContext): Draft {
  const [hole] = group
  const diameterMm = hole.countersinkDiameterMm ?? 0
  const isByHand =
    hole.face.startsWith('end') && woodMm(part, hole) > context.input.shop.drillPress.maxStandingMm
  const bit = `countersink to ${mmText(diameterMm)}`
  return {
    key: `sink:${part.id}:${group.map((each) => each.id).join('+')}`,
    kind: 'countersink',
    station: isByHand ? 'assemblyBench' : 'drillPress',
    needs: { ...(isByHand ? { clamps: 'vise' } : {}), bit, tableTilt: settingRad(leanRad(hole)) },
    settings: { bit, bitMm: diameterMm, tableTiltRad: leanRad(hole) },
    passes: 1,
    count: group.length,
    note: `Countersink ${group.length === 1 ? 'one hole' : `${group.length} holes`} on ${FACE_WORDS[hole.face]} until a screw's head sits just under the wood.`,
    seconds: context.input.shop.times.handle + group.length * context.input.shop.times.hole,
    operationIds: group.map((each) => each.id),
  }
}
