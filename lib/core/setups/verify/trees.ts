/**
 * The cuts of the trees: each is made once, on the saw, with the guide and the size that give its pieces, after its
 * piece exists. Boards' ends are trimmed first. Tests: tests/core/setups/verify-setups.test.ts.
 */
import type { CutNode } from '#lib/core/cutting/problem'
import type { SetupInput } from '../setup-input'
import { type Check, type Found, NEAR_RAD, near } from './check'

export interface Leaf {
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

export interface Walked {
  readonly boards: readonly BoardCut[]
  readonly cuts: readonly TreeCut[]
  readonly leaves: readonly Leaf[]
}

/** All cuts and blanks, first piece before second, boards in the order of the layouts. */
export function walkTrees(input: SetupInput): Walked {
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
export function blanksOfParts(
  input: SetupInput,
  leaves: readonly Leaf[],
): ReadonlyMap<string, readonly Leaf[]> {
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

/** Cuts of trees by their place. */
export type TreeCuts = ReadonlyMap<string, Found>

export function checkTrees(check: Check, walked: Walked): TreeCuts {
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

export const parentOf = (pieceId: string): string => pieceId.slice(0, Math.max(0, pieceId.lastIndexOf('/')))

/** Both long edges of a piece whose ends may lean, mm. */
function edgeLengths({ lengthUm, leanUm: [a, b] = [0, 0] }: CutNode): readonly number[] {
  const shown = lengthUm - Math.max(0, -a) - Math.max(0, b)
  return [shown / 1000, (shown + b - a) / 1000]
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
export function checkPieces(check: Check, walked: Walked, tree: TreeCuts): void {
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
