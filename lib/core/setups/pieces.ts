/**
 * The boards and pieces of a cut plan, each with its place in its tree, and which part each blank becomes.
 * Lengths in whole micrometres. A blank's copies go to parts in the order of the layouts and of the trees.
 */
import type { BoardLayout, CutNode } from '#lib/core/cutting/problem'
import type { SetupBoard, SetupInput } from './setup-input'
import type { TreePlace } from './setup-plan'

export interface Piece {
  readonly id: string
  readonly name: string
  readonly node: CutNode
  readonly place: TreePlace
  /** Part that this piece becomes, or becomes a stave of. */
  readonly partId?: string
  readonly children: readonly Piece[]
}

export interface BoardCopy {
  readonly board: SetupBoard
  readonly root: Piece
}

/** Next part for a copy of a blank, in the order of the needs. */
function partQueue(input: SetupInput): (blank: number) => string | undefined {
  const queues = new Map<number, string[]>()
  for (const need of input.needs) {
    queues.set(need.blank, [...(queues.get(need.blank) ?? []), ...need.partIds])
  }
  return (blank) => queues.get(blank)?.shift()
}

function childrenOf(node: CutNode): readonly (readonly [string, CutNode])[] {
  if (node.kind !== 'cut') return []
  return node.second === undefined
    ? [['1', node.first]]
    : [
        ['1', node.first],
        ['2', node.second],
      ]
}

export function boardCopies(input: SetupInput): readonly BoardCopy[] {
  const nextPart = partQueue(input)
  const partNames = new Map(input.model.parts.map((part) => [part.id, part.name]))
  const copiesSoFar = new Map<number, number>()

  const pieceOf = (node: CutNode, place: TreePlace, id: string, label: string): Piece => {
    const partId = node.kind === 'blank' ? nextPart(node.blank) : undefined
    const blankName = node.kind === 'blank' ? input.blanks[node.blank].name : undefined
    const stave = node.kind === 'blank' && node.stave ? `, stave ${node.stave.at + 1}` : ''
    const partName = partId === undefined ? undefined : partNames.get(partId)
    const name = (partName === undefined ? blankName : `${partName}${stave}`) ?? label
    const children = childrenOf(node).map(([step, child]) =>
      pieceOf(
        child,
        { ...place, path: place.path + step },
        `${id}/${step}`,
        `piece of ${label.replace(/^piece of /, '')}`,
      ),
    )
    return { id, name, node, place, ...(partId === undefined ? {} : { partId }), children }
  }

  const copyOf = (layout: BoardLayout, index: number, copy: number): BoardCopy => {
    const board = input.boards[layout.board]
    const nth = copiesSoFar.get(layout.board) ?? 0
    copiesSoFar.set(layout.board, nth + 1)
    const id = nth === 0 ? board.id : `${board.id}#${nth + 1}`
    const name = nth === 0 ? board.name : `${board.name} (${nth + 1})`
    return { board, root: pieceOf(layout.tree, { layout: index, copy, path: '' }, id, name) }
  }

  return input.layouts.flatMap((layout, index) =>
    Array.from({ length: layout.copies }, (_, copy) => copyOf(layout, index, copy)),
  )
}

/** Leaves that become parts. */
export function blanksUnder(piece: Piece): readonly Piece[] {
  if (piece.node.kind === 'blank') return [piece]
  return piece.children.flatMap(blanksUnder)
}
