/**
 * Plane before you cut short: pieces that stay together through the planer, because a part of them would be too short
 * by itself (a planer tips and throws what its rollers cannot hold; the machine's manual says how short that is).
 * In: a problem whose blanks say how long a planed piece must be, and a cut tree. Out: pieces, parts by hand.
 * Whole micrometres. Tests: tests/core/cutting/plan-forms.test.ts
 */
import type { CutNode, CutProblem } from './problem'

/** A piece longer than this many times the planer's least length loses more to its warp than was reckoned with. */
const MOST_PLANED = 2

/** Calls back for every blank with the pieces that it comes from, the board first and itself last. */
function eachBlank(
  node: CutNode,
  above: readonly CutNode[],
  visit: (leaf: Extract<CutNode, { kind: 'blank' }>, line: readonly CutNode[]) => void,
): void {
  const line = [...above, node]
  if (node.kind === 'blank') visit(node, line)
  if (node.kind !== 'cut') return
  eachBlank(node.first, line, visit)
  if (node.second !== undefined) eachBlank(node.second, line, visit)
}

/**
 * Parts that are never in a piece fit for the planer before they are cut short.
 * @example planedByHand(problem, treeOfBoardOf250mm) //=> 2
 */
export function planedByHand(problem: CutProblem, tree: CutNode): number {
  let count = 0
  eachBlank(tree, [], (leaf, line) => {
    const leastUm = problem.blanks[leaf.blank].planedUm ?? 0
    const isFit = ({ lengthUm }: CutNode): boolean => lengthUm >= leastUm && lengthUm <= MOST_PLANED * leastUm
    if (leaf.lengthUm < leastUm && !line.some(isFit)) count++
  })
  return count
}

/**
 * The pieces of a layout that are planed before they are cut short: for each short blank the smallest piece above it
 * that the planer takes.
 * @example planedTogether(problem, tree).map((piece) => piece.lengthUm) //=> [366_000]
 */
export function planedTogether(problem: CutProblem, tree: CutNode): readonly CutNode[] {
  const found = new Set<CutNode>()
  eachBlank(tree, [], (leaf, line) => {
    const leastUm = problem.blanks[leaf.blank].planedUm ?? 0
    const piece = line.findLast((each) => each.lengthUm >= leastUm)
    if (leaf.lengthUm < leastUm && piece !== undefined) found.add(piece)
  })
  return [...found]
}
