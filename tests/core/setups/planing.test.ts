import { expect, test } from 'vitest'
import type { CutNode } from '#lib/core/cutting/problem'
import type { Piece } from '#lib/core/setups/pieces'
import { planedPieces } from '#lib/core/setups/planing'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'

const { planer } = DEFAULT_SETUP_SHOP
const at = { layout: 0, copy: 0, path: '' }
const spot = (lengthMm: number, widthMm: number) => ({
  xUm: 0,
  yUm: 0,
  lengthUm: lengthMm * 1000,
  widthUm: widthMm * 1000,
})

function leaf(id: string, lengthMm: number, widthMm: number, kind: 'blank' | 'waste' = 'blank'): Piece {
  const node: CutNode =
    kind === 'blank'
      ? { kind, ...spot(lengthMm, widthMm), blank: 0, turned: false }
      : { kind, ...spot(lengthMm, widthMm) }
  return { id, name: id, node, place: at, children: [] }
}

function cut(id: string, lengthMm: number, widthMm: number, children: readonly [Piece, Piece]): Piece {
  const node: CutNode = {
    kind: 'cut',
    ...spot(lengthMm, widthMm),
    cut: 'crosscut',
    atUm: 1,
    first: children[0].node,
    second: children[1].node,
  }
  return { id, name: id, node, place: at, children }
}

const ids = (root: Piece): readonly string[] => planedPieces(root, planer).map((piece) => piece.id)

// Common practice: nothing shorter than the rollers' spacing plus 50 mm goes through, 305 mm (12 in) as a default.
test('long blanks are planed one by one', () => {
  expect(ids(cut('board', 900, 100, [leaf('a', 400, 100), leaf('b', 496, 100)]))).toEqual(['a', 'b'])
})

test('a blank too short is planed with the piece that it comes from, and with its neighbours', () => {
  const piece = cut('piece', 600, 100, [leaf('short', 200, 100), leaf('b', 396, 100)])
  expect(ids(cut('board', 1200, 100, [piece, leaf('c', 590, 100)]))).toEqual(['piece', 'c'])
})

test('waste is not planed', () => {
  expect(ids(cut('board', 900, 100, [leaf('a', 400, 100), leaf('w', 100, 100, 'waste')]))).toEqual(['a'])
})

test('a board too wide for the planer is planed after it is ripped', () => {
  expect(ids(cut('board', 900, 500, [leaf('a', 900, 250), leaf('b', 900, 246)]))).toEqual(['a', 'b'])
})

test('what fits nowhere is left to the hand plane, one by one', () => {
  expect(ids(cut('board', 250, 100, [leaf('a', 120, 100), leaf('b', 120, 100)]))).toEqual(['a', 'b'])
})
