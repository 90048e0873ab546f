/**
 * An order of a structure's nodes that keeps its stiffness matrix narrow: reverse Cuthill-McKee (Cuthill and McKee
 * 1969, George 1971) from a node far out (George and Liu 1979). In: neighbours of each node; out: the nodes in order.
 * Tests: tests/core/statics/linear-solver.test.ts
 */

/** Breadth first, neighbours of low degree first. */
function reach(neighbours: readonly (readonly number[])[], start: number, seen: Uint8Array): number[] {
  const order = [start]
  seen[start] = 1
  for (let head = 0; head < order.length; head++) {
    const next = neighbours[order[head]].filter((node) => seen[node] === 0)
    next.sort((a, b) => neighbours[a].length - neighbours[b].length || a - b)
    for (const node of next) {
      if (seen[node] === 1) continue
      seen[node] = 1
      order.push(node)
    }
  }
  return order
}

/** @example orderNodes([[2], [2], [0, 1]]) //=> [1, 2, 0] */
export function orderNodes(neighbours: readonly (readonly number[])[]): number[] {
  const seen = new Uint8Array(neighbours.length)
  const order: number[] = []
  for (let start = 0; start < neighbours.length; start++) {
    if (seen[start] === 1) continue
    let far = start
    for (let round = 0; round < 2; round++) far = reach(neighbours, far, seen.slice()).at(-1)!
    order.push(...reach(neighbours, far, seen))
  }
  return order.reverse()
}
