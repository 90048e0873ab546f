/**
 * Checks a plan of set-ups against the trees, the parts and the shop that it was made for, sharing no code with the
 * planner: every cut of every tree and every operation of every part is there exactly once, with settings that make
 * it; nothing is cut before it exists; limits that are broken are reported; the sums are right.
 * In: the input and the plan. Out: faults, none for a good plan. Lengths mm, angles rad.
 * Not checked: that the settings are the fewest. Tests: tests/core/setups/verify-setups.test.ts (seeded mutations).
 */
import type { CutNode } from '#lib/core/cutting/problem'
import type {
  EasedEdge,
  EdgeBevel,
  EndCut,
  EngravedField,
  Hole,
  Notch,
  Part,
  Taper,
} from '#lib/core/design/model'
import type { SetupInput } from './setup-input'
import type { Setup, SetupCut, SetupKind, SetupPlan, SetupWarning } from './setup-plan'

export interface SetupFault {
  readonly kind: 'missing' | 'twice' | 'unknown' | 'order' | 'setting' | 'limit' | 'sum'
  readonly key: string
  readonly message: string
}

/** Half of the finest thing that a setting is told to, and a guard. */
const NEAR_MM = 0.011
const NEAR_RAD = 2e-5
const THIN_MM = 0.05

interface Found {
  readonly cut: SetupCut
  readonly setup: Setup
  readonly at: number
}

interface Leaf {
  readonly pieceId: string
  readonly boardIndex: number
  readonly node: Extract<CutNode, { kind: 'blank' }>
}

interface TreeCut {
  readonly pieceId: string
  readonly place: string
  readonly node: Extract<CutNode, { kind: 'cut' }>
}

interface BoardCut {
  readonly pieceId: string
  readonly isTrimmed: boolean
}

interface Walked {
  readonly boards: readonly BoardCut[]
  readonly cuts: readonly TreeCut[]
  readonly leaves: readonly Leaf[]
}

const near = (a: number | undefined, b: number, tolerance = NEAR_MM): boolean =>
  a !== undefined && Math.abs(a - b) <= tolerance

/** All cuts and blanks, first piece before second, boards in the order of the layouts. */
function walkTrees(input: SetupInput): Walked {
  const cuts: TreeCut[] = []
  const leaves: Leaf[] = []
  const boards: BoardCut[] = []
  const seen = new Map<number, number>()
  const visit = (node: CutNode, pieceId: string, place: string, boardIndex: number): void => {
    if (node.kind === 'blank') leaves.push({ pieceId, boardIndex, node })
    if (node.kind !== 'cut') return
    cuts.push({ pieceId, place, node })
    visit(node.first, `${pieceId}/1`, `${place}1`, boardIndex)
    if (node.second !== undefined) visit(node.second, `${pieceId}/2`, `${place}2`, boardIndex)
  }
  input.layouts.forEach((layout, index) => {
    for (let copy = 0; copy < layout.copies; copy++) {
      const nth = (seen.get(layout.board) ?? 0) + 1
      seen.set(layout.board, nth)
      const { id, endTrimUm } = input.boards[layout.board]
      const pieceId = nth === 1 ? id : `${id}#${nth}`
      boards.push({ pieceId, isTrimmed: (endTrimUm ?? 0) > 0 })
      visit(layout.tree, pieceId, `${index}.${copy}.`, layout.board)
    }
  })
  return { boards, cuts, leaves }
}

/** The blanks that each part is made of. */
function blanksOfParts(input: SetupInput, leaves: readonly Leaf[]): ReadonlyMap<string, readonly Leaf[]> {
  const waiting = new Map<number, string[]>()
  for (const { blank, partIds } of input.needs) waiting.set(blank, (waiting.get(blank) ?? []).concat(partIds))
  const got = new Map<string, Leaf[]>()
  for (const leaf of leaves) {
    const partId = waiting.get(leaf.node.blank)?.shift()
    if (partId !== undefined) got.set(partId, (got.get(partId) ?? []).concat(leaf))
  }
  const wanted = input.needs.flatMap((need) => need.partIds)
  for (const [id, blanks] of got) {
    if (blanks.length < wanted.filter((each) => each === id).length) got.delete(id)
  }
  return got
}

class Check {
  readonly faults: SetupFault[] = []
  readonly all: readonly Found[]
  readonly byKey = new Map<string, Found>()

  constructor(
    readonly input: SetupInput,
    readonly plan: SetupPlan,
  ) {
    let at = 0
    this.all = plan.setups.flatMap((setup) => setup.cuts.map((cut) => ({ cut, setup, at: at++ })))
    for (const found of this.all) {
      if (this.byKey.has(found.cut.key)) this.fault('twice', found.cut.key, 'this key is there twice')
      this.byKey.set(found.cut.key, found)
    }
  }

  fault(kind: SetupFault['kind'], key: string, message: string): void {
    this.faults.push({ kind, key, message })
  }

  expect(ok: boolean, kind: SetupFault['kind'], key: string, message: string): void {
    if (!ok) this.fault(kind, key, message)
  }

  /** The one cut that does a thing, or undefined with a fault. */
  one(matches: readonly Found[], key: string): Found | undefined {
    if (matches.length === 0) this.fault('missing', key, 'nothing makes it')
    if (matches.length > 1) this.fault('twice', key, `${matches.length} cuts make it`)
    return matches[0]
  }

  before(first: Found | undefined, second: Found | undefined, why: string): void {
    if (first === undefined || second === undefined || first.at < second.at) return
    this.fault('order', second.cut.key, `comes before ${first.cut.key}: ${why}`)
  }

  limit(isBroken: boolean, code: SetupWarning['code'], key: string): void {
    if (!isBroken || this.plan.warnings.some((w) => w.code === code && w.key === key)) return
    this.fault('limit', key, `${code} is not reported`)
  }
}

/** Cuts of trees by their place. */
type TreeCuts = ReadonlyMap<string, Found>

function checkTrees(check: Check, walked: Walked): TreeCuts {
  const placed = new Map<string, Found[]>()
  for (const found of check.all) {
    const { tree } = found.cut
    if (tree === undefined) continue
    const place = `${tree.layout}.${tree.copy}.${tree.path}`
    placed.set(place, (placed.get(place) ?? []).concat(found))
  }
  const made = new Map<string, Found>()
  for (const cut of walked.cuts) {
    const found = check.one(placed.get(cut.place) ?? [], `cut of ${cut.pieceId}`)
    if (found === undefined) continue
    made.set(cut.pieceId, found)
    checkTreeCut(check, cut, found)
    check.before(made.get(parentOf(cut.pieceId)), found, 'its piece does not exist yet')
  }
  const known = new Set(walked.cuts.map((cut) => cut.place))
  for (const [place, found] of placed) {
    if (!known.has(place)) check.fault('unknown', found[0].cut.key, 'no such cut in the trees')
  }
  return made
}

const parentOf = (pieceId: string): string => pieceId.slice(0, Math.max(0, pieceId.lastIndexOf('/')))

/** Both long edges of a piece whose ends may lean, mm. */
function edgeLengths({ lengthUm, leanUm: [a, b] = [0, 0] }: CutNode): readonly number[] {
  const near = lengthUm - Math.max(0, -a) - Math.max(0, b)
  return [near / 1000, (near + b - a) / 1000]
}

function checkTreeCut(check: Check, { pieceId, node }: TreeCut, { cut, setup }: Found): void {
  const saw = check.input.shop.tableSaw
  const isRip = node.cut === 'rip'
  const sizeUm = (child: CutNode): number => (isRip ? child.widthUm : child.lengthUm)
  const sizes = [node.first, node.second].filter((c) => c !== undefined).map((c) => sizeUm(c) / 1000)
  const { settings } = setup
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  ok(cut.kind === node.cut && cut.pieceId === pieceId, 'another cut than the tree has')
  ok(setup.station === 'tableSaw', 'not made on the saw')
  ok(settings.guide === (isRip ? 'ripFence' : 'sled'), 'wrong guide')
  ok(near(settings.bladeTiltRad, 0, NEAR_RAD), 'blade tilted')
  if (isRip)
    ok(
      sizes.some((size) => near(settings.fenceMm, size)),
      'the fence fits neither piece',
    )
  else {
    const turnRad = Math.atan2(Math.abs(node.slantUm ?? 0), node.widthUm)
    ok(near(Math.abs(settings.sledAngleRad ?? 9), turnRad, NEAR_RAD), 'sled not at the angle of the cut')
    check.limit(turnRad > saw.maxSledAngleRad, 'angleTooSteep', cut.key)
  }
  if (!isRip && cut.isToMark !== true)
    ok(
      (node.slantUm === undefined ? sizes : edgeLengths(node.first)).some((size) =>
        near(settings.stopMm, size),
      ),
      'the stop fits neither piece',
    )
  check.limit(!isRip && node.widthUm / 1000 > saw.maxCrosscutWidthMm, 'tooWideForSled', cut.key)
  check.limit(!isRip && node.lengthUm / 1000 < saw.minHoldMm, 'tooShortToHold', cut.key)
  check.limit(isRip && (settings.fenceMm ?? 0) > saw.maxRipMm, 'tooWideForFence', cut.key)
  check.limit(isRip && node.lengthUm / 1000 < saw.minRipLengthMm, 'tooShortToRip', cut.key)
}

/** Ends of boards are trimmed once, before anything else; and no piece is worked on that there is not. */
function checkPieces(check: Check, walked: Walked, tree: TreeCuts): void {
  for (const { pieceId, isTrimmed } of walked.boards) {
    const trims = check.all.filter(
      ({ cut }) => cut.pieceId === pieceId && cut.kind === 'crosscut' && cut.tree === undefined,
    )
    if (!isTrimmed) check.expect(trims.length === 0, 'unknown', pieceId, 'trimmed for nothing')
    else check.before(check.one(trims, `${pieceId}, trim`), tree.get(pieceId), 'its ends are not trimmed yet')
  }
  const seen = new Set<string>()
  for (const { cut } of check.all) {
    if (cut.kind !== 'plane' && cut.kind !== 'flatten') continue
    check.expect(!seen.has(`${cut.kind} ${cut.pieceId}`), 'twice', cut.key, 'planed twice')
    seen.add(`${cut.kind} ${cut.pieceId}`)
  }
  const parts = check.input.model.parts.map((part) => part.id)
  const pieces = [...walked.boards, ...walked.cuts, ...walked.leaves].map((piece) => piece.pieceId)
  const known = new Set([...parts, ...pieces])
  for (const { cut } of check.all) check.expect(known.has(cut.pieceId), 'unknown', cut.key, 'no such piece')
}

/** Boards and pieces on the way from a board to one of its pieces, both included. */
function line(pieceId: string): readonly string[] {
  const above = parentOf(pieceId)
  return above === '' ? [pieceId] : [...line(above), pieceId]
}

/** What flattening takes: an arc's rise goes with the square of its chord, half of a twist's lift with both sides. */
function flatteningMm(check: Check, leaf: Leaf, piece: CutNode): number {
  const { warp, lengthUm, widthUm } = check.input.boards[leaf.boardIndex]
  if (warp === undefined) return 0
  const [l, w] = [Math.min(1, piece.lengthUm / lengthUm), Math.min(1, piece.widthUm / widthUm)]
  return (warp.bowUm * l * l + warp.cupUm * w * w + (warp.twistUm / 2) * l * w) / 1000
}

function checkPlanerLimits(check: Check, cut: SetupCut, piece: CutNode): void {
  const { planer } = check.input.shop
  const key = `plane:${cut.pieceId}`
  check.limit(piece.lengthUm / 1000 < planer.minLengthMm, 'tooShortToPlane', key)
  check.limit(piece.widthUm / 1000 < planer.minWidthMm, 'tooNarrowToPlane', key)
  check.limit(piece.widthUm / 1000 > planer.maxWidthMm, 'tooWideToPlane', key)
  check.limit((cut.leavesMm ?? 0) < planer.minThicknessMm, 'tooThinToPlane', key)
}

/** One visit to the planer: enough passes, what it leaves, after its piece is cut and before it is cut on. */
function checkPlanerCut(
  check: Check,
  found: Found,
  piece: CutNode,
  fromMm: number,
  lossMm: number,
  tree: TreeCuts,
): number {
  const { cut, setup } = found
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const toMm = cut.leavesMm ?? fromMm
  check.expect(
    (fromMm - toMm) / cut.passes <= check.input.shop.planer.maxPassMm + 1e-6,
    'limit',
    cut.key,
    'a pass is too deep',
  )
  ok(setup.station === 'planer', 'not made on the planer')
  checkPlanerLimits(check, cut, piece)
  if (cut.kind === 'plane')
    ok(near(setup.settings.thicknessMm, toMm), 'the planer is not set to what it leaves')
  if (cut.kind === 'flatten') ok(near(fromMm - toMm, lossMm, 0.01), 'flattening takes another amount')
  check.before(tree.get(parentOf(cut.pieceId)), found, 'its piece does not exist yet')
  check.before(found, tree.get(cut.pieceId), 'its piece is cut up already')
  return toMm
}

/** The planing on the way from the board to one blank. */
function checkPlaning(
  check: Check,
  walked: Walked,
  leaf: Leaf,
  part: Part,
  tree: TreeCuts,
  firstOfPart: Found | undefined,
): void {
  const board = check.input.boards[leaf.boardIndex]
  const wantedMm = part.blank.thicknessMm + (check.input.sandingMm ?? 0)
  let thicknessMm = board.thicknessUm / 1000
  for (const pieceId of line(leaf.pieceId)) {
    const node =
      pieceId === leaf.pieceId ? leaf.node : walked.cuts.find((cut) => cut.pieceId === pieceId)?.node
    if (node === undefined) continue
    const lossMm = flatteningMm(check, leaf, node)
    const planed = check.all.filter(
      ({ cut }) => cut.pieceId === pieceId && (cut.kind === 'plane' || cut.kind === 'flatten'),
    )
    for (const found of planed) {
      thicknessMm = checkPlanerCut(check, found, node, thicknessMm, lossMm, tree)
      check.before(found, firstOfPart, 'the part is worked on already')
    }
  }
  const isThin = check.plan.warnings.some(
    (w) => w.code === 'boardTooThin' && line(leaf.pieceId).some((id) => w.key === `plane:${id}`),
  )
  check.expect(
    isThin || thicknessMm <= wantedMm + THIN_MM,
    'missing',
    part.id,
    `stays ${thicknessMm} mm thick, wants ${wantedMm}`,
  )
  check.expect(
    isThin || thicknessMm >= part.blank.thicknessMm - THIN_MM,
    'setting',
    part.id,
    'planed too thin',
  )
}

const PHASES: readonly SetupKind[] = [
  'glueUp',
  'rip',
  'edgeBevel',
  'endCut',
  'notch',
  'drill',
  'countersink',
  'taper',
  'roundOver',
  'chamfer',
  'engrave',
]

function checkPart(check: Check, walked: Walked, part: Part, blanks: readonly Leaf[], tree: TreeCuts): void {
  const own = check.all.filter((found) => found.cut.pieceId === part.id)
  for (const a of own) {
    for (const b of own) {
      if (PHASES.indexOf(a.cut.kind) < PHASES.indexOf(b.cut.kind))
        check.before(a, b, 'work on a part has an order')
    }
  }
  const first = own.toSorted((a, b) => a.at - b.at).at(0)
  for (const leaf of blanks) {
    check.before(tree.get(parentOf(leaf.pieceId)), first, 'its blank does not exist yet')
    checkPlaning(check, walked, leaf, part, tree, first)
  }
  check.expect(
    own.filter((f) => f.cut.kind === 'glueUp').length === (blanks.length > 1 ? 1 : 0),
    'missing',
    part.id,
    'glue-up',
  )
  checkJoints(
    check,
    blanks,
    own.find((f) => f.cut.kind === 'glueUp'),
  )
  checkWidth(check, part, blanks, own)
  for (const op of part.operations) checkOperation(check, part, op, own)
  const ids = new Set(part.operations.map((op) => op.id))
  for (const found of own) {
    for (const id of found.cut.operationIds ?? []) {
      check.expect(ids.has(id), 'unknown', found.cut.key, `no operation ${id}`)
    }
  }
}

/** Every edge of a stave that meets another is straightened before the glue-up: one of an outer stave, two of an inner. */
function checkJoints(check: Check, blanks: readonly Leaf[], glueUp: Found | undefined): void {
  const { jointMm } = check.input
  if (jointMm === undefined || blanks.length < 2) return
  const places = blanks.map(({ node }) => node.stave?.at ?? 0)
  blanks.forEach(({ pieceId, node }, i) => {
    const before = places.filter((at, j) => at < places[i] || (at === places[i] && j < i)).length
    const wanted = before === 0 || before === blanks.length - 1 ? 1 : 2
    const rips = check.all.filter(({ cut }) => cut.pieceId === pieceId && cut.kind === 'rip' && !cut.tree)
    check.expect(
      rips.length === wanted,
      'missing',
      pieceId,
      `${rips.length} of ${wanted} joint edges are straightened`,
    )
    rips.forEach((rip, n) => {
      const widthMm = node.widthUm / 1000 - (n + 1) * jointMm
      check.expect(
        near(rip.setup.settings.fenceMm, widthMm),
        'setting',
        rip.cut.key,
        'the fence takes another amount',
      )
      check.before(rip, glueUp, 'it is glued already')
    })
  })
}

function checkWidth(check: Check, part: Part, blanks: readonly Leaf[], own: readonly Found[]): void {
  const blankMm = blanks.reduce(
    (sum, { node }) => sum + (node.turned ? node.lengthUm : node.widthUm) / 1000,
    0,
  )
  const jointsMm = 2 * (check.input.jointMm ?? 0) * (blanks.length - 1)
  const rips = own.filter((found) => found.cut.kind === 'rip')
  if (blankMm - jointsMm - part.blank.widthMm <= THIN_MM) {
    check.expect(rips.length === 0, 'unknown', part.id, 'ripped though it has its width')
    return
  }
  const rip = check.one(rips, `${part.id}, to width`)
  if (rip === undefined) return
  check.expect(
    near(rip.setup.settings.fenceMm, part.blank.widthMm),
    'setting',
    rip.cut.key,
    'fence is not at the width',
  )
  check.limit(part.blank.lengthMm < check.input.shop.tableSaw.minRipLengthMm, 'tooShortToRip', rip.cut.key)
  check.limit(part.blank.widthMm > check.input.shop.tableSaw.maxRipMm, 'tooWideForFence', rip.cut.key)
}

function checkOperation(
  check: Check,
  part: Part,
  op: Part['operations'][number],
  own: readonly Found[],
): void {
  const making = (kind: SetupKind): readonly Found[] =>
    own.filter((found) => found.cut.kind === kind && found.cut.operationIds?.includes(op.id))
  const makes = making(op.kind === 'hole' ? 'drill' : op.kind === 'engravedField' ? 'engrave' : op.kind)
  const found = check.one(makes, `${part.id}, ${op.id}`)
  if (found === undefined) return
  if (op.kind === 'edgeBevel') checkEdgeBevel(check, part, op, found)
  if (op.kind === 'endCut') checkEndCut(check, part, op, found, own)
  if (op.kind === 'notch') checkNotch(check, part, op, found)
  if (op.kind === 'hole') checkHole(check, part, op, found, making('countersink'))
  if (op.kind === 'roundOver' || op.kind === 'chamfer') checkEased(check, part, op, found)
  if (op.kind === 'taper') checkTaper(check, part, op, found, own)
  if (op.kind === 'engravedField') checkEngraving(check, part, op, found)
}

/** An edge bevelled along the fence: the plane that the tilted blade leaves is the one that is wanted. */
function checkEdgeBevel(check: Check, part: Part, op: EdgeBevel, { cut, setup }: Found): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const { widthMm, thicknessMm, lengthMm } = part.blank
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const [, ny, nz] = op.normal
  const tiltRad = Math.asin(Math.min(1, Math.abs(nz) / Math.hypot(ny, nz)))
  // Where the plane meets either face, measured from the edge that stays.
  const kept = [0, thicknessMm].map((z) => {
    const y = op.point[1] + ((op.point[2] - z) * nz) / ny
    return op.edge === 'edgeB' ? y : widthMm - y
  })
  const lean = settings.bladeTiltRad ?? 9
  ok(settings.guide === 'ripFence', 'not along the fence')
  ok(near(Math.abs(lean), tiltRad, NEAR_RAD), 'blade tilt does not make this bevel')
  ok(saw.tiltsTo === 'left' ? lean >= -NEAR_RAD : lean <= NEAR_RAD, 'the blade does not lean to this side')
  ok(near(settings.fenceMm, Math.min(...kept)), 'the fence is not at the narrower face')
  check.limit(lengthMm < saw.minRipLengthMm, 'tooShortToRip', cut.key)
  check.limit(Math.min(...kept) > saw.maxRipMm, 'tooWideForFence', cut.key)
  check.limit(thicknessMm / Math.cos(tiltRad) > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
}

/** Length along the grain at which a plane cuts the line through y, z. */
const alongAt = (cut: Pick<EndCut, 'point' | 'normal'>, y: number, z: number): number =>
  cut.point[0] + ((cut.point[1] - y) * cut.normal[1] + (cut.point[2] - z) * cut.normal[2]) / cut.normal[0]

/** Where both ends of a part stand on its four arrises, in the order y0z0, y0z1, y1z0, y1z1. */
function endsOnArrises(part: Part): readonly (readonly [number, number])[] {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const cutOf = (end: 'endA' | 'endB') =>
    part.operations.find((op): op is EndCut => op.kind === 'endCut' && op.end === end)
  const [a, b] = [cutOf('endA'), cutOf('endB')]
  return [0, widthMm].flatMap((y) =>
    [0, thicknessMm].map((z) => [a ? alongAt(a, y, z) : 0, b ? alongAt(b, y, z) : lengthMm] as const),
  )
}

function checkEndCut(
  check: Check,
  part: Part,
  op: EndCut,
  { cut, setup, at }: Found,
  own: readonly Found[],
): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const [nx, ny, nz] = op.normal
  const turnRad = Math.abs(Math.atan(ny / nx))
  const tiltRad = Math.asin(Math.abs(nz) / Math.hypot(nx, ny, nz))
  ok(near(Math.abs(settings.sledAngleRad ?? 9), turnRad, NEAR_RAD), 'sled angle does not make this end')
  ok(near(Math.abs(settings.bladeTiltRad ?? 9), tiltRad, NEAR_RAD), 'blade tilt does not make this end')
  const lean = settings.bladeTiltRad ?? 0
  ok(saw.tiltsTo === 'left' ? lean >= -NEAR_RAD : lean <= NEAR_RAD, 'the blade does not lean to this side')
  const ends = endsOnArrises(part)
  const others = ends.map(([a, b]) => (op.end === 'endA' ? b : a))
  const tip = op.end === 'endA' ? Math.max(...others) : Math.min(...others)
  const lengths = ends.map(([a, b]) => Math.abs((op.end === 'endA' ? a : b) - tip))
  if (cut.isToMark !== true)
    ok(
      lengths.some((length) => near(settings.stopMm, length)),
      'the stop does not give the length',
    )
  const isLast = !own.some((o) => o.cut.kind === 'endCut' && o.at > at)
  const isOutOfReach = lengths.some((length) => length < saw.minStopMm || length > saw.maxStopMm)
  ok(cut.isToMark !== true || !isLast || isOutOfReach, 'cut to length without a stop')
  check.limit(turnRad > saw.maxSledAngleRad, 'angleTooSteep', cut.key)
  check.limit(part.blank.thicknessMm / Math.cos(tiltRad) > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
  check.limit(part.blank.widthMm > saw.maxCrosscutWidthMm, 'tooWideForSled', cut.key)
  check.limit(part.blank.lengthMm < saw.minHoldMm, 'tooShortToHold', cut.key)
}

/** Distances from the tip of each end to the near shoulder, along either long side of the notched face. */
function shoulderDistances(part: Part, op: Notch): readonly number[] {
  const isWide = op.face === 'faceA' || op.face === 'faceB'
  const acrossMm = isWide ? part.blank.widthMm : part.blank.thicknessMm
  const ends = endsOnArrises(part)
  const [tipA, tipB] = [Math.min(...ends.map(([a]) => a)), Math.max(...ends.map(([, b]) => b))]
  const shift = (acrossMm / 2) * Math.tan(op.skewRad)
  const half = op.widthMm / (2 * Math.cos(op.skewRad))
  return [op.alongMm - shift, op.alongMm + shift].flatMap((x) => [x - half - tipA, tipB - (x + half)])
}

function checkNotch(check: Check, part: Part, op: Notch, { cut, setup }: Found): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const bladeMm = settings.bladeWidthMm ?? 0
  const squareStepMm = (settings.stepMm ?? 0) * Math.cos(op.skewRad)
  ok(near(settings.bladeHeightMm, op.depthMm), 'blade height is not the depth')
  ok(near(Math.abs(settings.sledAngleRad ?? 9), Math.abs(op.skewRad), NEAR_RAD), 'sled angle is not the skew')
  const isWideBlade = op.widthMm < bladeMm - 1e-9
  ok(
    isWideBlade || near(bladeMm + (cut.passes - 1) * squareStepMm, op.widthMm),
    'the passes do not make the width',
  )
  ok(squareStepMm <= bladeMm + 1e-6, 'ridges are left between two passes')
  const first = shoulderDistances(part, op)
  ok(
    cut.isToMark === true || first.some((d) => near(settings.stopMm, d)),
    'the stop does not stand at a shoulder',
  )
  const travelMm = (settings.lastStopMm ?? settings.stopMm ?? 0) - (settings.stopMm ?? 0)
  ok(
    cut.isToMark === true || near(travelMm, (cut.passes - 1) * (settings.stepMm ?? 0)),
    'the second stop is not at the last pass',
  )
  check.limit(isWideBlade, 'notchWiderThanPart', cut.key)
  check.limit(Math.abs(op.skewRad) > saw.maxSledAngleRad, 'angleTooSteep', cut.key)
  check.limit(op.depthMm > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
  check.limit(part.blank.lengthMm < saw.minHoldMm, 'tooShortToHold', cut.key)
}

function checkHole(check: Check, part: Part, op: Hole, { cut, setup }: Found, sinks: readonly Found[]): void {
  const { settings } = setup
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const axis = { end: 0, edg: 1, fac: 2 }[op.face.slice(0, 3)] ?? 0
  const woodMm = [part.blank.lengthMm, part.blank.widthMm, part.blank.thicknessMm][axis]
  const upright = Math.abs(op.direction[axis]) / Math.hypot(...op.direction)
  ok(near(settings.bitMm, op.diameterMm), 'another bit')
  ok(near(Math.cos(settings.tableTiltRad ?? 9), upright, 1e-4), 'table tilt is not the slope of the hole')
  const isThrough = op.depthMm * upright > woodMm - THIN_MM - 1e-9
  ok(isThrough || near(settings.depthMm, op.depthMm), 'depth stop is not the depth')
  const sinksWanted = op.countersinkDiameterMm === undefined ? 0 : 1
  check.expect(
    sinks.length === sinksWanted,
    sinks.length < sinksWanted ? 'missing' : 'twice',
    cut.key,
    'countersink',
  )
  for (const sink of sinks) {
    check.expect(
      near(sink.setup.settings.bitMm, op.countersinkDiameterMm ?? 0),
      'setting',
      sink.cut.key,
      'another countersink',
    )
  }
}

function checkEased(check: Check, part: Part, op: EasedEdge, { cut, setup }: Found): void {
  const { routerTable } = check.input.shop
  const sizeMm = op.kind === 'roundOver' ? op.radiusMm : op.widthMm
  const deepestMm = setup.settings.passDepthMm ?? 0
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  ok(setup.station === 'routerTable', 'not made on the router table')
  ok(near(setup.settings.bitMm, sizeMm), 'another size of edge')
  ok(op.kind === 'roundOver' || near(setup.settings.depthMm, sizeMm), 'the bit stands at another height')
  ok(
    setup.settings.bit?.includes(op.kind === 'chamfer' ? 'chamfer' : 'round') === true,
    'a bit of another shape',
  )
  ok(deepestMm * cut.passes >= sizeMm - 1e-6, 'the passes do not reach the size')
  check.expect(deepestMm <= routerTable.maxPassMm + 1e-9, 'limit', cut.key, 'a pass is too deep')
  check.limit(part.blank.lengthMm < routerTable.minLengthMm, 'tooShortToRout', cut.key)
}

/** A taper: the line from the jig's wide size to its slim one is where the sloping face must come to lie. */
function checkTaper(
  check: Check,
  part: Part,
  op: Taper,
  { cut, setup, at }: Found,
  own: readonly Found[],
): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const isFace = op.face.startsWith('face')
  const sizeMm = isFace ? thicknessMm : widthMm
  const places = [op.lengthMm, 0].map((fromEnd) => (op.end === 'endA' ? fromEnd : lengthMm - fromEnd))
  // What earlier tapers took from the face that bears on the jig, on straight lines from start to end.
  const gone = places.map(() => 0)
  for (const other of part.operations) {
    if (other.kind !== 'taper' || other.face === op.face || other.face.slice(0, 4) !== op.face.slice(0, 4))
      continue
    if (!own.some((f) => f.at < at && f.cut.kind === 'taper' && f.cut.operationIds?.includes(other.id)))
      continue
    places.forEach((x, i) => {
      const away = other.end === 'endA' ? x : lengthMm - x
      if (away < other.lengthMm) gone[i] += other.depthMm - (away * other.depthMm) / other.lengthMm
    })
  }
  const [wideMm, slimMm] = [sizeMm - gone[0], sizeMm - op.depthMm - gone[1]]
  ok(settings.guide === 'taperJig', 'not on the taper jig')
  ok(near(settings.bladeTiltRad, 0, NEAR_RAD), 'blade tilted')
  ok(near(settings.jigWideMm, wideMm), 'the jig is not set to the size where the taper begins')
  ok(near(settings.jigSlimMm, slimMm), 'the jig is not set to the slim end')
  ok(near(Math.tan(settings.jigRad ?? 9), (wideMm - slimMm) / op.lengthMm, NEAR_RAD), 'another slope')
  check.limit((isFace ? widthMm : thicknessMm) > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
  check.limit(lengthMm < saw.minHoldMm, 'tooShortToHold', cut.key)
}

function checkEngraving(check: Check, part: Part, op: EngravedField, { cut, setup }: Found): void {
  const { laserEngraver } = check.input.shop
  const { settings } = setup
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const woodMm = op.face.startsWith('face') ? part.blank.thicknessMm : part.blank.widthMm
  ok(setup.station === 'laserEngraver', 'not made on the engraver')
  ok(near(settings.thicknessMm, woodMm), 'focused for another thickness')
  ok(near(settings.depthMm, op.depthMm), 'another depth')
  ok(cut.passes * laserEngraver.passDepthMm >= op.depthMm - 1e-6, 'the passes do not reach the depth')
  // No head moves faster than its speed along every line.
  const leastS = (op.widthMm / laserEngraver.lineMm) * (op.lengthMm / laserEngraver.speedMmPerS)
  ok(cut.seconds >= cut.passes * leastS, 'faster than the engraver moves')
}

/** Every cut after the ones that it says it waits for. */
function checkOrder(check: Check): void {
  for (const found of check.all) {
    for (const key of found.cut.after) {
      const first = check.byKey.get(key)
      if (first === undefined) check.fault('unknown', found.cut.key, `waits for ${key}, which is not there`)
      else check.before(first, found, 'it says that it waits for it')
    }
  }
}

function checkSums(check: Check): void {
  const { plan } = check
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'sum', 'plan', what)
  const sum = (of: (setup: Setup) => number, setups = plan.setups): number =>
    setups.reduce((s, x) => s + of(x), 0)
  const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6 * Math.max(1, Math.abs(b))
  const isSet = (setup: Setup): boolean => setup.resumes === undefined
  ok(plan.setups.filter(isSet).length === plan.settings, 'settings')
  ok(plan.settingsBound <= plan.settings && plan.distinctSettings <= plan.settings, 'bound above the plan')
  ok((plan.status === 'optimal') === (plan.settings === plan.settingsBound), 'status')
  ok(
    same(
      sum((s) => s.settingSeconds),
      plan.settingSeconds,
    ),
    'setting time',
  )
  ok(
    same(
      sum((s) => s.cuttingSeconds),
      plan.cuttingSeconds,
    ),
    'cutting time',
  )
  for (const setup of plan.setups) {
    ok(
      same(
        setup.cuts.reduce((s, cut) => s + cut.seconds, 0),
        setup.cuttingSeconds,
      ),
      `cutting time of ${setup.id}`,
    )
    ok(setup.cuts.length > 0, `${setup.id} is empty`)
  }
  const stations = [...new Set(plan.setups.map((setup) => setup.station))]
  for (const station of stations) {
    const here = plan.setups.filter((setup) => setup.station === station)
    const told = plan.stations.find((entry) => entry.station === station)
    ok(told?.setups === here.filter(isSet).length, `set-ups of ${station}`)
    ok(
      same(
        sum((s) => s.settingSeconds + s.cuttingSeconds, here),
        told?.seconds ?? -1,
      ),
      `time of ${station}`,
    )
    here.forEach((setup, i) => {
      ok(
        setup.resumes === undefined || here[i - 1]?.id === setup.resumes,
        `${setup.id} goes on with another set-up`,
      )
    })
  }
  ok(stations.length === plan.stations.length, 'stations')
}

/**
 * @returns what is wrong, nothing for a good plan
 * @example verifySetups(input, planSetups(input)) //=> []
 */
export function verifySetups(input: SetupInput, plan: SetupPlan): readonly SetupFault[] {
  const check = new Check(input, plan)
  const walked = walkTrees(input)
  const tree = checkTrees(check, walked)
  checkPieces(check, walked, tree)
  const blanks = blanksOfParts(input, walked.leaves)
  for (const part of input.model.parts) {
    const own = blanks.get(part.id)
    if (own !== undefined) checkPart(check, walked, part, own, tree)
    const isTold = plan.partsWithoutPiece.includes(part.id)
    check.expect(isTold === (own === undefined), 'unknown', part.id, 'parts without a piece')
    if (own === undefined && check.all.some((f) => f.cut.pieceId === part.id)) {
      check.fault('unknown', part.id, 'is worked on but has no piece')
    }
  }
  checkOrder(check)
  checkSums(check)
  return check.faults
}
