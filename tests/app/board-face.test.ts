import { describe, expect, test } from 'vitest'
import {
  beginMarks,
  type MarksEvent,
  type MarksState,
  marksAfter,
  type NewMark,
  plainMark,
  sameMarks,
} from '../../app/ui/board-face-marks'
import { cornerUnder, markUnder } from '../../app/ui/board-face-pointer'

const knot: NewMark = {
  kind: 'knot',
  face: 'A',
  xUm: 100_000,
  yUm: 20_000,
  widthUm: 30_000,
  heightUm: 20_000,
}
const hole: NewMark = {
  ...knot,
  kind: 'hole',
  face: 'through',
  xUm: 500_000,
  widthUm: 10_000,
  heightUm: 10_000,
}

const run = (state: MarksState, ...events: MarksEvent[]) => events.reduce(marksAfter, state)
const shown = (state: MarksState) => state.marks.map(plainMark)

describe('editing marks', () => {
  const start = beginMarks([knot])

  test('a new one is chosen; undone it is gone, and nothing is chosen', () => {
    const added = run(start, { do: 'add', mark: hole })
    expect(added.marks.find((m) => m.key === added.selected)).toMatchObject(hole)
    const back = run(added, { do: 'undo' })
    expect([shown(back), back.selected]).toEqual([[knot], null])
  })

  test('deleted and undone, it is back as it was', () => {
    const gone = run(start, { do: 'remove', key: 'm0' })
    expect(gone.marks).toEqual([])
    expect(shown(run(gone, { do: 'undo' }))).toEqual([knot])
  })

  test('a run of nudges is undone at once, a drag by itself', () => {
    const nudge = (xUm: number): MarksEvent => ({ do: 'change', key: 'm0', to: { xUm }, isNudge: true })
    const moved = run(start, { do: 'change', key: 'm0', to: { xUm: 1 } }, nudge(2), nudge(3), nudge(4))
    expect(moved.past).toHaveLength(2)
    expect(run(moved, { do: 'undo' }).marks[0].xUm).toBe(1)
    expect(shown(run(moved, { do: 'undo' }, { do: 'undo' }))).toEqual([knot])
  })

  test('choosing another ends the run of nudges', () => {
    const nudge = (xUm: number): MarksEvent => ({ do: 'change', key: 'm0', to: { xUm }, isNudge: true })
    const moved = run(start, nudge(2), { do: 'select', key: 'm0' }, nudge(3))
    expect(run(moved, { do: 'undo' }).marks[0].xUm).toBe(2)
  })

  test('undo with nothing done changes nothing; keys are never used twice', () => {
    expect(run(start, { do: 'undo' })).toBe(start)
    const state = run(
      start,
      { do: 'add', mark: hole },
      { do: 'undo' },
      { do: 'add', mark: hole },
      { do: 'add', mark: hole },
    )
    expect(new Set(state.marks.map((m) => m.key)).size).toBe(state.marks.length)
  })

  test('the same marks in another order say the same', () => {
    expect(sameMarks([knot, hole], [hole, knot])).toBe(true)
    expect(sameMarks([knot], [knot, knot])).toBe(false)
    expect(sameMarks([knot], [{ ...knot, face: 'B' }])).toBe(false)
  })
})

describe('what a finger hits', () => {
  const { marks } = beginMarks([knot, hole])
  // At half a pixel a millimetre a 10 mm hole is 5 px; a finger of 44 px reaches 22 px, 44 mm, around.
  const reachUm = 44_000

  test('a 10 mm hole 30 mm beside the finger', () =>
    expect(markUnder(marks, { xUm: 540_000, yUm: 25_000 }, reachUm)?.kind).toBe('hole'))
  test('nothing 60 mm away', () =>
    expect(markUnder(marks, { xUm: 580_000, yUm: 25_000 }, reachUm)).toBeUndefined())
  test('the small one where one lies in the other', () => {
    const inside = beginMarks([
      { ...knot, widthUm: 100_000, heightUm: 60_000 },
      { ...hole, xUm: 120_000, yUm: 30_000 },
    ])
    expect(markUnder(inside.marks, { xUm: 125_000, yUm: 35_000 }, reachUm)?.kind).toBe('hole')
  })
  test('a corner resizes, the middle moves, also of a mark smaller than a finger', () => {
    expect(cornerUnder(hole, { xUm: 510_500, yUm: 30_500 }, reachUm)).toBe('farEnd')
    expect(cornerUnder(hole, { xUm: 505_000, yUm: 25_000 }, reachUm)).toBeUndefined()
    expect(cornerUnder(knot, { xUm: 99_000, yUm: 19_000 }, reachUm)).toBe('nearStart')
  })
})
