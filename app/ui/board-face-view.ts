/** The stretch of a face that is shown, and what pointer and keys need to know of it. */
import type { DefectKind } from '#lib/core/board/board'
import type { MarkBox } from '#lib/core/board/mark-edit'
import type { LengthUnit } from '#lib/core/units/inches'
import type { Face } from './board-face'
import type { EditMark, MarksEvent } from './board-face-marks'

export interface Place {
  readonly xUm: number
  readonly yUm: number
}

export const SIDE_PX = 16
export const TOP_PX = 24

export type Tool = DefectKind | 'select'

export interface CanvasProps {
  readonly board: { readonly lengthUm: number; readonly widthUm: number }
  readonly marks: readonly EditMark[]
  readonly selected: string | null
  readonly face: Face
  readonly tool: Tool
  readonly isThrough: boolean
  /** Pixels a millimetre. */
  readonly scale: number
  /** Where the window begins along the board. */
  readonly fromUm: number
  readonly widthPx: number
  readonly units: LengthUnit
  readonly canEdit: boolean
  readonly dispatch: (event: MarksEvent) => void
  /** Brings a place into the window. */
  readonly show: (box: MarkBox) => void
}

/** What pointer and keys need to know of the drawing. */
export interface FaceView {
  readonly umPerPx: number
  /** What marks snap to: 1 mm or 1/16 in. */
  readonly stepUm: number
  readonly chosen: EditMark | undefined
  /** Marks of the face that is shown. */
  readonly shown: readonly EditMark[]
  readonly middle: Place
  /** From pixels in the drawing. */
  readonly placeAt: (xPx: number, yPx: number) => Place
  readonly place: (kind: DefectKind, box: MarkBox) => void
}

export const isOn = (mark: EditMark, face: Face) => mark.face === 'through' || mark.face === face

export function viewOf(props: CanvasProps): FaceView {
  const { board, marks, face, scale, fromUm, widthPx } = props
  const umPerPx = 1000 / scale
  return {
    umPerPx,
    stepUm: props.units === 'in' ? 25_400 / 16 : 1_000,
    chosen: marks.find((m) => m.key === props.selected),
    shown: marks.filter((m) => isOn(m, face)),
    middle: { xUm: fromUm + ((widthPx - 2 * SIDE_PX) * umPerPx) / 2, yUm: board.widthUm / 2 },
    placeAt: (xPx, yPx) => ({ xUm: fromUm + (xPx - SIDE_PX) * umPerPx, yUm: (yPx - TOP_PX) * umPerPx }),
    place: (kind, box) =>
      props.dispatch({
        do: 'add',
        mark: { ...boxOnly(box), kind, face: props.isThrough ? 'through' : face },
      }),
  }
}

export const boxOnly = ({ xUm, yUm, widthUm, heightUm }: MarkBox): MarkBox => ({
  xUm,
  yUm,
  widthUm,
  heightUm,
})
