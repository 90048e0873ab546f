/**
 * Checks a cut plan from first principles. It shares no code with the engine: it reads only the problem and the
 * plan, walks each cut tree, and recomputes every figure that the plan claims.
 * In: CutProblem and CutPlan. Out: the faults found, none for a sound plan.
 * Cost: leaves x zones of the board. Tests: tests/core/cutting/verify.test.ts
 */
import type { BoardLayout, CutBlank, CutNode, CutPlan, CutProblem, StaveRule } from './problem'

export type PlanFaultKind =
  | 'badIndex'
  | 'badSize'
  | 'outsideBoard'
  | 'kerf'
  | 'overlap'
  | 'zone'
  | 'demand'
  | 'grain'
  | 'ends'
  | 'panel'
  | 'board'
  | 'boardCount'
  | 'machine'
  | 'stages'
  | 'offcut'
  | 'weight'
  | 'cost'
  | 'yield'
  | 'bound'
  | 'shortage'
  | 'status'

export interface PlanFault {
  readonly kind: PlanFaultKind
  readonly layout?: number
  readonly text: string
}

type Leaf = Exclude<CutNode, { kind: 'cut' }>
type Report = (kind: PlanFaultKind, text: string, layout?: number) => void

const whole = (v: number): boolean => Number.isSafeInteger(v)

/** The four corners of a piece along the grain; a piece without a lean is a rectangle. */
function corners(node: CutNode) {
  const [a, b] = node.leanUm ?? [0, 0]
  const from = node.xUm
  const to = node.xUm + node.lengthUm
  return {
    nearFrom: a < 0 ? from - a : from,
    farFrom: a > 0 ? from + a : from,
    nearTo: b > 0 ? to - b : to,
    farTo: b < 0 ? to + b : to,
  }
}

/** Square micrometres, doubled, so that it is whole. */
function doubleArea(node: CutNode): number {
  const c = corners(node)
  return node.widthUm * (c.nearTo - c.nearFrom + (c.farTo - c.farFrom))
}

/**
 * A cut that leans, or one through a piece that does: the children take the whole piece but for the kerf, which is
 * as wide as the saw's square to the cut.
 */
function checkLeaning(
  problem: CutProblem,
  cut: Extract<CutNode, { kind: 'cut' }>,
  fault: (kind: PlanFaultKind, text: string) => void,
): void {
  const [whole, first] = [corners(cut), corners(cut.first)]
  const slant = cut.slantUm ?? 0
  const isSquareRip = cut.cut === 'rip'
  if (isSquareRip) fault('ends', 'a rip through a piece whose ends lean')
  if (!Number.isSafeInteger(slant)) fault('badSize', `slant ${slant}`)
  const isBand = (node: CutNode): boolean => node.yUm === cut.yUm && node.widthUm === cut.widthUm
  if (!isBand(cut.first) || (cut.second && !isBand(cut.second))) fault('overlap', 'a part beside its strip')
  const at = cut.xUm + cut.atUm
  if (first.nearFrom !== whole.nearFrom || first.farFrom !== whole.farFrom)
    fault('overlap', 'the first piece does not begin where its strip does')
  if (first.nearTo !== at || first.farTo !== at + slant)
    fault('overlap', `the first piece does not end at the cut at ${cut.atUm}`)
  if (first.nearTo <= first.nearFrom || first.farTo <= first.farFrom) fault('badSize', 'a piece inside out')
  if (cut.second === undefined) {
    fault('kerf', 'wood beyond a cut that leans is missing')
    return
  }
  const second = corners(cut.second)
  const gap = second.nearFrom - at
  if (second.farFrom - (at + slant) !== gap) fault('kerf', 'the kerf is not of one width')
  const [g, w, s, k] = [gap, cut.widthUm, slant, problem.kerfUm].map((v) => BigInt(Math.round(v)))
  if (gap < 0 || g * g * w * w < k * k * (w * w + s * s))
    fault('kerf', `${gap} along the grain is under the kerf`)
  if (gap > 0 && (g - 1n) * (g - 1n) * w * w >= k * k * (w * w + s * s))
    fault('kerf', `${gap} along the grain is more than the kerf`)
  if (second.nearTo !== whole.nearTo || second.farTo !== whole.farTo)
    fault('overlap', 'the second piece does not end where its strip does')
  if (second.nearTo <= second.nearFrom || second.farTo <= second.farFrom)
    fault('badSize', 'a piece inside out')
}

/** Both children, where the cut says that they lie; wood and kerf fill the parent exactly. */
function checkCut(
  problem: CutProblem,
  cut: Extract<CutNode, { kind: 'cut' }>,
  fault: (kind: PlanFaultKind, text: string) => void,
): void {
  const isLeaning = [cut, cut.first, cut.second].some((n) => n?.leanUm !== undefined)
  if (isLeaning || cut.slantUm !== undefined) {
    checkLeaning(problem, cut, fault)
    return
  }
  const k = problem.kerfUm
  const cross = cut.cut === 'crosscut'
  const size = cross ? cut.lengthUm : cut.widthUm
  const { first, second } = cut
  if (!whole(cut.atUm) || cut.atUm <= 0 || cut.atUm >= size) fault('badSize', `cut at ${cut.atUm} of ${size}`)
  const f = cross
    ? { x: cut.xUm, y: cut.yUm, l: cut.atUm, w: cut.widthUm }
    : { x: cut.xUm, y: cut.yUm, l: cut.lengthUm, w: cut.atUm }
  if (first.xUm !== f.x || first.yUm !== f.y || first.lengthUm !== f.l || first.widthUm !== f.w) {
    fault('overlap', `first child of the cut at ${cut.atUm} is not where the cut leaves it`)
  }
  const rest = size - cut.atUm - k
  if (rest > 0 && second === undefined) fault('kerf', `${rest} um beyond the kerf are missing`)
  if (second === undefined) return
  if (rest <= 0) {
    fault('kerf', 'a piece where the kerf has eaten all')
    return
  }
  const s = cross
    ? { x: cut.xUm + cut.atUm + k, y: cut.yUm, l: rest, w: cut.widthUm }
    : { x: cut.xUm, y: cut.yUm + cut.atUm + k, l: cut.lengthUm, w: rest }
  if (second.xUm !== s.x || second.yUm !== s.y || second.lengthUm !== s.l || second.widthUm !== s.w) {
    fault('overlap', `second child of the cut at ${cut.atUm} is not where the cut and the kerf leave it`)
  }
}

function checkMachine(
  problem: CutProblem,
  cut: Extract<CutNode, { kind: 'cut' }>,
  fault: (kind: PlanFaultKind, text: string) => void,
): void {
  const m = problem.limits
  if (cut.lengthUm < m.minPieceLengthUm) fault('machine', `piece of length ${cut.lengthUm} held for a cut`)
  if (cut.widthUm < m.minPieceWidthUm) fault('machine', `piece of width ${cut.widthUm} held for a cut`)
  if (cut.cut === 'crosscut') {
    const across = Math.hypot(cut.widthUm, cut.slantUm ?? 0)
    if (m.maxCrosscutWidthUm !== undefined && across > m.maxCrosscutWidthUm) {
      fault('machine', `crosscut of ${across} is too wide for the sled`)
    }
    return
  }
  if (m.maxRipWidthUm === undefined) return
  const sides = [cut.atUm]
  if (cut.second !== undefined) sides.push(cut.second.widthUm)
  if (Math.min(...sides) > m.maxRipWidthUm) fault('machine', `rip at ${cut.atUm} is beyond the fence`)
}

/** Walks a tree: checks every cut, gathers the leaves. Iterative, so that no depth is too deep. */
function walk(problem: CutProblem, layout: BoardLayout, at: number, report: Report): Leaf[] {
  const leaves: Leaf[] = []
  const fault = (kind: PlanFaultKind, text: string): void => report(kind, text, at)
  const { stages: most, firstCut } = problem.limits
  const first = most === null || most === 0 ? undefined : firstCut
  const stack: { node: CutNode; stages: number; last: string }[] = [
    { node: layout.tree, stages: first === undefined ? 0 : 1, last: first ?? '' },
  ]
  let top = stack.pop()
  while (top !== undefined) {
    const { node } = top
    if (![node.xUm, node.yUm, node.lengthUm, node.widthUm].every(whole)) fault('badSize', 'not whole')
    if (node.lengthUm <= 0 || node.widthUm <= 0) fault('badSize', `${node.lengthUm} x ${node.widthUm}`)
    if (node.kind === 'cut') {
      checkCut(problem, node, fault)
      checkMachine(problem, node, fault)
      const stages = top.stages + (node.cut === top.last ? 0 : 1)
      if (most !== null && stages > most) fault('stages', `${stages} alternations, ${most} allowed`)
      stack.push({ node: node.first, stages, last: node.cut })
      if (node.second !== undefined) stack.push({ node: node.second, stages, last: node.cut })
    } else leaves.push(node)
    top = stack.pop()
  }
  return leaves
}

type BlankLeaf = Leaf & { kind: 'blank' }

/** A strip of a panel: as long as the panel, as wide as its rule allows. */
function checkStave(leaf: BlankLeaf, rule: StaveRule, lengthUm: number, fault: Report): void {
  if (leaf.leanUm !== undefined || leaf.turned) fault('panel', 'a stave that is turned or leans')
  if (leaf.lengthUm !== lengthUm) fault('badSize', `stave ${leaf.lengthUm} long, ${lengthUm} wanted`)
  if (leaf.widthUm < rule.minWidthUm || leaf.widthUm > rule.maxWidthUm)
    fault('panel', `stave ${leaf.widthUm} wide`)
  if (leaf.stave === undefined) fault('panel', 'a stave of no panel')
}

/** The part lies inside its piece, as it is or turned half round in the plane of the board. */
function checkEnds(leaf: BlankLeaf, blank: CutBlank, fault: Report): void {
  const { ends } = blank
  if (ends === undefined || leaf.turned || leaf.widthUm !== blank.widthUm) {
    fault('ends', `blank ${leaf.blank} cut ${leaf.lengthUm} x ${leaf.widthUm}`)
    return
  }
  const c = corners(leaf)
  const far = ends.nearUm - ends.leanAUm + ends.leanBUm
  const ways = [
    { near: ends.nearUm, far, a: ends.leanAUm },
    { near: far, far: ends.nearUm, a: ends.leanBUm },
  ]
  const isInside = ways.some(({ near, far: farUm, a }) => {
    const least = Math.max(c.nearFrom, c.farFrom - a)
    const most = Math.min(c.nearTo - near, c.farTo - a - farUm)
    return least <= most
  })
  if (!isInside) fault('ends', `blank ${leaf.blank} does not lie in its piece at ${leaf.xUm}`)
}

function checkBlank(problem: CutProblem, leaf: Leaf & { kind: 'blank' }, board: number, fault: Report): void {
  const b = problem.blanks[leaf.blank]
  if (b === undefined) {
    fault('badIndex', `blank ${leaf.blank}`)
    return
  }
  const [l, w] = leaf.turned ? [b.widthUm, b.lengthUm] : [b.lengthUm, b.widthUm]
  if (b.stave !== undefined) checkStave(leaf, b.stave, b.lengthUm, fault)
  else if (b.ends !== undefined && (leaf.leanUm !== undefined || leaf.lengthUm !== l))
    checkEnds(leaf, b, fault)
  else if (leaf.lengthUm !== l || leaf.widthUm !== w) {
    fault('badSize', `blank ${leaf.blank} cut ${leaf.lengthUm} x ${leaf.widthUm}`)
  } else if (leaf.leanUm !== undefined) fault('ends', `blank ${leaf.blank} has square ends`)
  if (leaf.turned && b.grain !== 'free') fault('grain', `blank ${leaf.blank} is turned`)
  if (b.boards !== undefined && !b.boards.includes(board)) fault('board', `blank ${leaf.blank} on ${board}`)
}

/** Blanks that lie over a zone that blocks them. */
function countCovered(problem: CutProblem, board: number, leaves: readonly Leaf[]): string[] {
  const covered: string[] = []
  for (const z of problem.zones) {
    if (z.board !== board || z.lengthUm <= 0 || z.widthUm <= 0) continue
    for (const p of leaves) {
      if (p.kind !== 'blank') continue
      if (z.blocks !== 'all' && !z.blocks.includes(p.blank)) continue
      const apart =
        p.xUm + p.lengthUm <= z.xUm ||
        z.xUm + z.lengthUm <= p.xUm ||
        p.yUm + p.widthUm <= z.yUm ||
        z.yUm + z.widthUm <= p.yUm
      if (!apart) covered.push(`blank ${p.blank} at ${p.xUm}, ${p.yUm} covers a zone at ${z.xUm}, ${z.yUm}`)
    }
  }
  return covered
}

function checkLeaves(
  problem: CutProblem,
  layout: BoardLayout,
  leaves: readonly Leaf[],
  at: number,
  report: Report,
): void {
  const board = problem.boards[layout.board]
  let area = 0
  for (const leaf of leaves) {
    area += doubleArea(leaf)
    const inside =
      leaf.xUm >= 0 &&
      leaf.yUm >= 0 &&
      leaf.xUm + leaf.lengthUm <= board.lengthUm &&
      leaf.yUm + leaf.widthUm <= board.widthUm
    if (!inside) report('outsideBoard', `${leaf.kind} at ${leaf.xUm}, ${leaf.yUm}`, at)
    if (leaf.kind === 'blank') checkBlank(problem, leaf, layout.board, (k, t) => report(k, t, at))
    if (
      leaf.kind === 'offcut' &&
      (leaf.lengthUm < problem.offcut.minLengthUm || leaf.widthUm < problem.offcut.minWidthUm)
    ) {
      report('offcut', `${leaf.lengthUm} x ${leaf.widthUm} is too small to keep`, at)
    }
  }
  if (area > 2 * board.lengthUm * board.widthUm) report('overlap', 'more wood than the board has', at)
}

interface Totals {
  readonly made: number[]
  readonly copies: number[]
  /** Copies of each board whose layout covers a zone. */
  readonly covering: number[]
  readonly why: string[][]
  readonly staves: { blank: number; panel: number; at: number; widthUm: number }[]
  weight: number
  cost: number
  blankArea: number
  boardArea: number
}

function checkLayout(problem: CutProblem, plan: CutPlan, at: number, totals: Totals, report: Report): void {
  const layout = plan.layouts[at]
  const board = problem.boards[layout.board]
  if (board === undefined) {
    report('badIndex', `board ${layout.board}`, at)
    return
  }
  if (!whole(layout.copies) || layout.copies < 1) {
    report('boardCount', `${layout.copies} copies`, at)
    return
  }
  const { tree } = layout
  const isWhole =
    tree.xUm === 0 && tree.yUm === 0 && tree.lengthUm === board.lengthUm && tree.widthUm === board.widthUm
  if (!isWhole) report('outsideBoard', 'the tree does not start with the whole board', at)
  const leaves = walk(problem, layout, at, report)
  checkLeaves(problem, layout, leaves, at, report)
  const covered = countCovered(problem, layout.board, leaves)
  totals.copies[layout.board] += layout.copies
  if (covered.length > 0) {
    totals.covering[layout.board] += layout.copies
    totals.why[layout.board].push(covered[0])
  }
  for (const leaf of leaves) {
    if (leaf.kind !== 'blank' || problem.blanks[leaf.blank] === undefined) continue
    totals.blankArea += (doubleArea(leaf) / 2) * layout.copies
    if (problem.blanks[leaf.blank].stave !== undefined) {
      totals.staves.push({
        blank: leaf.blank,
        widthUm: leaf.widthUm,
        ...(leaf.stave ?? { panel: -1, at: -1 }),
      })
      if (layout.copies > 1) report('panel', 'one stave in several boards', at)
      continue
    }
    totals.made[leaf.blank] += layout.copies
    totals.weight += problem.blanks[leaf.blank].weight * layout.copies
  }
  totals.cost += (problem.objective === 'minBoards' ? 1 : board.cost) * layout.copies
  totals.boardArea += board.lengthUm * board.widthUm * layout.copies
}

/** Every panel has all its staves, each place once, and is wide enough once its joints are planed. */
function checkPanels(problem: CutProblem, totals: Totals, report: Report): void {
  const panels = new Map<string, Totals['staves'][number][]>()
  for (const stave of totals.staves) {
    const key = `${stave.blank} ${stave.panel}`
    panels.set(key, [...(panels.get(key) ?? []), stave])
  }
  for (const staves of panels.values()) {
    const [{ blank, panel }] = staves
    const rule = problem.blanks[blank].stave
    if (rule === undefined) continue
    const places = staves.map((s) => s.at).sort((a, b) => a - b)
    if (panel < 0 || places.some((at, i) => at !== i))
      report('panel', `panel ${panel} of blank ${blank} has a gap`)
    if (staves.length > rule.maxStaves) report('panel', `panel of ${staves.length} staves`)
    const wide = staves.reduce((sum, s) => sum + s.widthUm, 0) - (staves.length - 1) * 2 * rule.jointUm
    if (wide < rule.panelUm) report('panel', `panel ${panel}: staves make ${wide}, ${rule.panelUm} wanted`)
    totals.made[rule.of]++
    totals.weight += problem.blanks[rule.of].weight
  }
}

function checkCounts(problem: CutProblem, totals: Totals, report: Report): void {
  problem.boards.forEach((b, i) => {
    const count = b.count === undefined ? 1 : b.count
    if (count !== null && totals.copies[i] > count) report('boardCount', `board ${i}: ${totals.copies[i]}`)
    // Zones lie on the first of several alike; the others are clear.
    const clear = count === null ? Number.POSITIVE_INFINITY : count - 1
    if (totals.covering[i] > clear) report('zone', `board ${i}: ${totals.why[i][0]}`)
  })
  problem.blanks.forEach((b, i) => {
    if (b.demand !== null && totals.made[i] > b.demand) {
      report('demand', `blank ${i}: ${totals.made[i]} made, ${b.demand} wanted`)
    }
  })
}

const near = (a: number, b: number): boolean =>
  Math.abs(a - b) <= 1e-9 * Math.max(1, Math.abs(a), Math.abs(b))

function checkClaims(problem: CutProblem, plan: CutPlan, totals: Totals, report: Report): void {
  if (!near(plan.weightMade, totals.weight)) report('weight', `${plan.weightMade}, counted ${totals.weight}`)
  if (!near(plan.cost, totals.cost)) report('cost', `${plan.cost}, counted ${totals.cost}`)
  const share = totals.boardArea > 0 ? totals.blankArea / totals.boardArea : 0
  if (!near(plan.yield, share)) report('yield', `${plan.yield}, counted ${share}`)
  if (plan.weightBound < totals.weight && !near(plan.weightBound, totals.weight)) {
    report('bound', `weight bound ${plan.weightBound} under ${totals.weight} made`)
  }
  if (plan.costBound > totals.cost && !near(plan.costBound, totals.cost)) {
    report('bound', `cost bound ${plan.costBound} over ${totals.cost} spent`)
  }
  const missing = new Map(plan.shortages.map((s) => [s.blank, s.missing]))
  problem.blanks.forEach((b, i) => {
    const short = b.demand === null ? 0 : b.demand - totals.made[i]
    if (short > 0 !== missing.has(i) || (short > 0 && missing.get(i) !== short)) {
      report('shortage', `blank ${i}: ${short} short, plan says ${missing.get(i) ?? 0}`)
    }
  })
  const isShort = problem.blanks.some((b, i) => b.demand !== null && totals.made[i] < b.demand)
  const mustMakeAll = problem.objective !== 'parts' && problem.objective !== 'maxValue'
  if (plan.status === 'optimal') {
    if (mustMakeAll && isShort) report('status', 'optimal, but parts are missing')
    if (!near(plan.weightBound, totals.weight)) report('status', 'optimal, but the weight bound is higher')
    const isCosted = problem.objective !== 'feasibility' && problem.objective !== 'maxValue'
    if (isCosted && !near(plan.costBound, totals.cost))
      report('status', 'optimal, but the cost bound is lower')
  }
  if (plan.status === 'infeasible' && !isShort) report('status', 'infeasible, but every part is made')
}

/**
 * Every way in which a plan is not what it claims to be.
 * @returns an empty array for a sound plan
 * @example verifyCutPlan(problem, planCuts(problem, { seed: 1, budget: unlimited })) //=> []
 */
export function verifyCutPlan(problem: CutProblem, plan: CutPlan): readonly PlanFault[] {
  const faults: PlanFault[] = []
  const report: Report = (kind, text, layout) =>
    void faults.push(layout === undefined ? { kind, text } : { kind, text, layout })
  const totals: Totals = {
    made: problem.blanks.map(() => 0),
    copies: problem.boards.map(() => 0),
    covering: problem.boards.map(() => 0),
    why: problem.boards.map(() => []),
    staves: [],
    weight: 0,
    cost: 0,
    blankArea: 0,
    boardArea: 0,
  }
  plan.layouts.forEach((_, at) => {
    checkLayout(problem, plan, at, totals, report)
  })
  checkPanels(problem, totals, report)
  checkCounts(problem, totals, report)
  checkClaims(problem, plan, totals, report)
  return faults
}
