/**
 * The marks of a face while they are edited: added, changed, deleted, undone. A run of nudges of one mark is undone
 * at once. Pure. Tests: tests/app/board-face-marks.test.ts
 */
import type { DefectKind } from '#lib/core/board/board'
import type { MarkBox } from '#lib/core/board/mark-edit'

export interface EditMark extends MarkBox {
  readonly key: string
  readonly kind: DefectKind
  readonly face: 'A' | 'B' | 'through'
}
export type NewMark = Omit<EditMark, 'key'>

export interface MarksState {
  readonly marks: readonly EditMark[]
  readonly selected: string | null
  readonly past: readonly (readonly EditMark[])[]
  readonly nextKey: number
  /** The mark that the last change nudged. */
  readonly nudged: string | null
}

export type MarksEvent =
  | { readonly do: 'add'; readonly mark: NewMark }
  | { readonly do: 'change'; readonly key: string; readonly to: Partial<NewMark>; readonly isNudge?: boolean }
  | { readonly do: 'remove'; readonly key: string }
  | { readonly do: 'select'; readonly key: string | null }
  | { readonly do: 'undo' }
  | { readonly do: 'take'; readonly marks: readonly NewMark[] }

const MOST_UNDONE = 100

export const plainMark = ({ kind, face, xUm, yUm, widthUm, heightUm }: NewMark): NewMark => ({
  kind,
  face,
  xUm,
  yUm,
  widthUm,
  heightUm,
})

export function beginMarks(marks: readonly NewMark[]): MarksState {
  const keyed = marks.map((mark, i) => ({ ...plainMark(mark), key: `m${i}` }))
  return { marks: keyed, selected: null, past: [], nextKey: marks.length, nudged: null }
}

const changed = (
  state: MarksState,
  marks: readonly EditMark[],
  over: Partial<MarksState> = {},
): MarksState => ({
  ...state,
  marks,
  past: [...state.past, state.marks].slice(-MOST_UNDONE),
  nudged: null,
  ...over,
})

function undone(state: MarksState): MarksState {
  const marks = state.past.at(-1)
  if (!marks) return state
  const selected = marks.some((m) => m.key === state.selected) ? state.selected : null
  return { ...state, marks, selected, past: state.past.slice(0, -1), nudged: null }
}

export function marksAfter(state: MarksState, event: MarksEvent): MarksState {
  switch (event.do) {
    case 'add': {
      const key = `m${state.nextKey}`
      const more = { selected: key, nextKey: state.nextKey + 1 }
      return changed(state, [...state.marks, { ...plainMark(event.mark), key }], more)
    }
    case 'change': {
      const marks = state.marks.map((m) => (m.key === event.key ? { ...m, ...event.to } : m))
      const goesOn = event.isNudge === true && state.nudged === event.key
      if (goesOn) return { ...state, marks }
      return changed(state, marks, { nudged: event.isNudge ? event.key : null })
    }
    case 'remove':
      return changed(
        state,
        state.marks.filter((m) => m.key !== event.key),
        { selected: null },
      )
    case 'select':
      return { ...state, selected: event.key, nudged: null }
    case 'undo':
      return undone(state)
    case 'take':
      return beginMarks(event.marks)
  }
}

/** Whether two sets of marks say the same of a board; their order says nothing. */
export function sameMarks(a: readonly NewMark[], b: readonly NewMark[]): boolean {
  const bag = (marks: readonly NewMark[]) => marks.map((m) => JSON.stringify(plainMark(m))).sort()
  return JSON.stringify(bag(a)) === JSON.stringify(bag(b))
}
