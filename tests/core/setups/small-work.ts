/** Random and hand-made steps, trees and parts for the tests of set-ups. */
import type { BoardLayout, CutNode } from '#lib/core/cutting/problem'
import type { FaceName, FaceRole, Operation, Part } from '#lib/core/design/model'
import type { SetupInput } from '#lib/core/setups/setup-input'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import type { Needs, Step } from '#lib/core/setups/step'
import type { Rng } from '#lib/core/units/rng'

export function step(
  key: string,
  needs: Needs,
  after: readonly string[] = [],
  station: Step['station'] = 'tableSaw',
): Step {
  return {
    key,
    needs,
    after,
    station,
    kind: 'crosscut',
    settings: {},
    pieceId: key,
    pieceName: key,
    passes: 1,
    note: '',
    seconds: 1,
  }
}

const FACES: Readonly<Record<FaceName, FaceRole>> = {
  endA: 'show',
  endB: 'show',
  edgeA: 'show',
  edgeB: 'show',
  faceA: 'show',
  faceB: 'hidden',
}

export function part(
  id: string,
  lengthMm: number,
  widthMm: number,
  thicknessMm: number,
  operations: readonly Operation[] = [],
): Part {
  return {
    id,
    name: `Part ${id}`,
    kind: 'part',
    blank: { lengthMm, widthMm, thicknessMm },
    operations,
    faces: FACES,
    frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  }
}

/** End cut by a plane through (x, y, 0), turned on the wide face and tilted. */
export function endCut(end: 'endA' | 'endB', x: number, y: number, turnRad: number, tiltRad = 0): Operation {
  const out = end === 'endB' ? 1 : -1
  const c = Math.cos(tiltRad)
  const normal = [out * c * Math.cos(turnRad), out * c * Math.sin(turnRad), Math.sin(tiltRad)] as const
  return {
    kind: 'endCut',
    id: `cut-${end}`,
    end,
    point: [x, y, 0],
    normal,
    mitreRad: turnRad,
    bevelRad: tiltRad,
  }
}

const KERF_UM = 3_200
type Spot = { xUm: number; yUm: number; lengthUm: number; widthUm: number }

/** A random guillotine tree; leaves are blanks, offcuts or waste. `onBlank` gives the index of a blank of that size. */
export function randomTree(rng: Rng, spot: Spot, depth: number, onBlank: (spot: Spot) => number): CutNode {
  const isCrosscut = rng.below(2) === 0
  const sizeUm = isCrosscut ? spot.lengthUm : spot.widthUm
  if (depth === 0 || sizeUm < 60_000 || rng.below(6) === 0) return leaf(rng, spot, onBlank)
  const sizes = [50_000, 80_000, 120_000, 400_000, 450_000].filter((um) => um <= sizeUm)
  const isOdd = sizes.length === 0 || rng.below(3) === 0
  const atUm = isOdd ? 1_000 + rng.below(sizeUm - 1_000) : sizes[rng.below(sizes.length)]
  const restUm = sizeUm - atUm - KERF_UM
  const first = isCrosscut ? { ...spot, lengthUm: atUm } : { ...spot, widthUm: atUm }
  const second = isCrosscut
    ? { ...spot, xUm: spot.xUm + atUm + KERF_UM, lengthUm: restUm }
    : { ...spot, yUm: spot.yUm + atUm + KERF_UM, widthUm: restUm }
  return {
    kind: 'cut',
    ...spot,
    cut: isCrosscut ? 'crosscut' : 'rip',
    atUm,
    first: randomTree(rng, first, depth - 1, onBlank),
    ...(restUm > 0 ? { second: randomTree(rng, second, depth - 1, onBlank) } : {}),
  }
}

function leaf(rng: Rng, spot: Spot, onBlank: (spot: Spot) => number): CutNode {
  const kind = rng.below(4)
  if (kind < 2)
    return { kind: 'blank', ...spot, blank: onBlank(spot), turned: kind === 1 && rng.below(6) === 0 }
  return { kind: kind === 2 ? 'offcut' : 'waste', ...spot }
}

function randomOperations(
  rng: Rng,
  lengthMm: number,
  widthMm: number,
  thicknessMm: number,
): readonly Operation[] {
  const operations: Operation[] = []
  const turn = [0, 0.0873, -0.0873, 0.14][rng.below(4)]
  const other = [turn, -turn, 0, 0.2][rng.below(4)]
  const tilt = rng.below(5) === 0 ? [0.1, -0.1][rng.below(2)] : 0
  if (rng.below(4) > 0) operations.push(endCut('endA', 8, 0, turn, tilt))
  if (rng.below(4) > 0) operations.push(endCut('endB', lengthMm - 8, 0, other, rng.below(3) === 0 ? tilt : 0))
  for (let i = 0; i < rng.below(3); i++) {
    const face = (['faceA', 'faceB', 'edgeA', 'edgeB'] as const)[rng.below(4)]
    const notchMm = [20, 38, 3.2, 19.05][rng.below(4)]
    const alongMm = lengthMm * (0.3 + 0.2 * i)
    const depthMm = Math.min(widthMm, thicknessMm) / 2
    operations.push({
      kind: 'notch',
      id: `notch-${i}`,
      face,
      alongMm,
      widthMm: notchMm,
      depthMm,
      skewRad: turn,
    })
  }
  for (let i = 0; i < rng.below(4); i++) {
    const isThrough = rng.below(2) === 0
    operations.push({
      kind: 'hole',
      id: `hole-${i}`,
      face: 'faceA',
      point: [lengthMm / 2, widthMm / 2, thicknessMm],
      direction: [0, 0, -1],
      diameterMm: [3, 4.5][rng.below(2)],
      depthMm: isThrough ? thicknessMm : 10,
      ...(rng.below(2) === 0 ? { countersinkDiameterMm: 9 } : {}),
      purpose: 'clearance',
    })
  }
  if (rng.below(2) === 0) {
    operations.push({
      kind: 'roundOver',
      id: 'round-1',
      between: ['faceA', 'edgeA'],
      radiusMm: [3, 6][rng.below(2)],
    })
    operations.push({ kind: 'roundOver', id: 'round-2', between: ['faceA', 'endA'], radiusMm: 3 })
    operations.push({
      kind: 'chamfer',
      id: 'chamfer-1',
      between: ['faceB', 'edgeB'],
      widthMm: [2, 7][rng.below(2)],
    })
  }
  const tapers = (['edgeA', 'faceA', 'edgeB', 'faceB'] as const).slice(0, rng.below(5))
  for (const face of tapers) {
    const depthMm = Math.min(widthMm, thicknessMm) / 5
    const end = (['endA', 'endB'] as const)[rng.below(2)]
    operations.push({ kind: 'taper', id: `taper-${face}`, face, end, lengthMm: 0.7 * lengthMm, depthMm })
  }
  if (rng.below(4) === 0)
    operations.push({
      kind: 'engravedField',
      id: 'name',
      face: 'faceA',
      alongMm: lengthMm / 2,
      acrossMm: 2,
      lengthMm: 20,
      widthMm: 8,
      depthMm: [0.3, 1][rng.below(2)],
    })
  return operations
}

/** A whole random job: boards with trees, a part for most blanks, some glued from two, one part without a piece. */
export function randomInput(rng: Rng): SetupInput {
  const parts: Part[] = []
  const needs: { blank: number; partIds: string[] }[] = []
  const blanks: { id: string; name: string }[] = []
  const onBlank = (spot: Spot): number => {
    const blank = blanks.length
    blanks.push({ id: `blank-${blank}`, name: `Blank ${blank}` })
    const [lengthMm, widthMm] = [spot.lengthUm / 1000, spot.widthUm / 1000]
    const last = parts.at(-1)
    if (last !== undefined && rng.below(8) === 0) needs.push({ blank, partIds: [last.id] })
    else if (rng.below(8) > 0) {
      const over = rng.below(3) === 0 ? 0 : 3
      const thicknessMm = [19, 19, 25, 38][rng.below(4)]
      const operations =
        lengthMm > 120 && widthMm > 20 ? randomOperations(rng, lengthMm, widthMm - over, thicknessMm) : []
      parts.push(part(`p${blank}`, lengthMm, Math.max(1, widthMm - over), thicknessMm, operations))
      needs.push({ blank, partIds: [`p${blank}`] })
    }
    return blank
  }
  const count = 1 + rng.below(3)
  const boards = Array.from({ length: count }, (_, i) => ({
    id: `b${i}`,
    name: `Board ${i}`,
    lengthUm: 500_000 + rng.below(1_500_000),
    widthUm: 60_000 + rng.below(300_000),
    thicknessUm: [22_000, 27_000, 45_000][rng.below(3)],
    ...(rng.below(2) === 0 ? { warp: { cupUm: 1_000, bowUm: 2_000, crookUm: 0, twistUm: 1_500 } } : {}),
    ...(rng.below(2) === 0 ? { endTrimUm: 10_000 } : {}),
  }))
  const layouts: BoardLayout[] = boards.map(({ lengthUm, widthUm }, board) => ({
    board,
    copies: 1,
    tree: randomTree(rng, { xUm: 0, yUm: 0, lengthUm, widthUm }, 2 + rng.below(4), onBlank),
  }))
  parts.push(part('nowhere', 300, 50, 19))
  const saw = DEFAULT_SETUP_SHOP.tableSaw
  const withStack = rng.below(3) === 0 ? { stack: { minMm: 6.4, maxMm: 20.6 } } : {}
  const blades = rng.below(3) === 0 ? ('separate' as const) : ('combination' as const)
  const tiltsTo = rng.below(2) === 0 ? ('left' as const) : ('right' as const)
  const shop = { ...DEFAULT_SETUP_SHOP, tableSaw: { ...saw, ...withStack, blades, tiltsTo } }
  return { model: { parts }, layouts, boards, blanks, needs, shop, sandingMm: 0.6, maxStates: 2_000 }
}
