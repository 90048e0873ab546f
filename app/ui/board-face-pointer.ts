'use client'
/**
 * Marks drawn, moved and pulled with a mouse or a finger. A small mark is as easy to hit as a large one: a finger
 * reaches 22 px around itself. What is drawn counts once the finger is lifted.
 */
import { type PointerEvent, type RefObject, useState } from 'react'
import type { DefectKind } from '#lib/core/board/board'
import {
  MARK_CORNERS,
  type MarkBox,
  type MarkCorner,
  markAt,
  markBetween,
  moveMark,
  resizeMark,
} from '#lib/core/board/mark-edit'
import type { EditMark } from './board-face-marks'
import { boxOnly, type CanvasProps, type FaceView, type Place } from './board-face-view'

const FINGER_REACH_PX = 22
const MOUSE_REACH_PX = 6
const HANDLE_REACH_PX = 20
const DRAG_PX = 5

export type Drag = {
  readonly startX: number
  readonly startY: number
  /** Null until the pointer has gone far enough to mean it. */
  readonly box: MarkBox | null
} & (
  | { readonly kind: 'draw'; readonly tool: DefectKind }
  | { readonly kind: 'move'; readonly key: string; readonly was: MarkBox }
  | { readonly kind: 'resize'; readonly key: string; readonly was: MarkBox; readonly corner: MarkCorner }
)

/** The mark under a finger, within its reach: the nearest, and of those the smallest. */
export function markUnder(marks: readonly EditMark[], at: Place, reachUm: number): EditMark | undefined {
  const near = marks.flatMap((mark) => {
    const dx = Math.max(mark.xUm - at.xUm, 0, at.xUm - mark.xUm - mark.widthUm)
    const dy = Math.max(mark.yUm - at.yUm, 0, at.yUm - mark.yUm - mark.heightUm)
    const off = Math.hypot(dx, dy)
    return off <= reachUm ? [{ mark, off, area: mark.widthUm * mark.heightUm }] : []
  })
  return near.sort((a, b) => a.off - b.off || a.area - b.area)[0]?.mark
}

const cornerOf = (box: MarkBox, corner: MarkCorner): Place => ({
  xUm: corner.endsWith('End') ? box.xUm + box.widthUm : box.xUm,
  yUm: corner.startsWith('far') ? box.yUm + box.heightUm : box.yUm,
})

/** The handle under a finger, unless the finger is nearer to the middle: there it moves the whole mark. */
export function cornerUnder(box: MarkBox, at: Place, reachUm: number): MarkCorner | undefined {
  const off = (to: Place) => Math.hypot(to.xUm - at.xUm, to.yUm - at.yUm)
  const middle = { xUm: box.xUm + box.widthUm / 2, yUm: box.yUm + box.heightUm / 2 }
  const [nearest] = [...MARK_CORNERS].sort((a, b) => off(cornerOf(box, a)) - off(cornerOf(box, b)))
  const offCorner = off(cornerOf(box, nearest))
  return offCorner <= reachUm && offCorner < off(middle) ? nearest : undefined
}

function dragged(drag: Drag, at: Place, dx: number, dy: number, props: CanvasProps, stepUm: number): MarkBox {
  const { board } = props
  if (drag.kind === 'draw') return markBetween({ xUm: at.xUm - dx, yUm: at.yUm - dy }, at, board, stepUm)
  if (drag.kind === 'move') return moveMark(drag.was, dx, dy, board, stepUm)
  return resizeMark(drag.was, drag.corner, dx, dy, board, stepUm)
}

export function useFacePointer(props: CanvasProps, view: FaceView, svg: RefObject<SVGSVGElement | null>) {
  const [drag, setDrag] = useState<Drag | null>(null)
  const { dispatch, tool, canEdit } = props
  const { umPerPx, stepUm, chosen, shown } = view

  const placeOf = (event: PointerEvent): Place => {
    const rect = svg.current!.getBoundingClientRect()
    return view.placeAt(event.clientX - rect.left, event.clientY - rect.top)
  }

  const begin = (event: PointerEvent<SVGSVGElement>) => {
    if (event.button !== 0) return
    const at = placeOf(event)
    const reachUm = (event.pointerType === 'mouse' ? MOUSE_REACH_PX : FINGER_REACH_PX) * umPerPx
    const corner = canEdit && chosen ? cornerUnder(chosen, at, HANDLE_REACH_PX * umPerPx) : undefined
    const under = corner ? chosen : markUnder(shown, at, reachUm)
    if (under) dispatch({ do: 'select', key: under.key })
    else if (chosen && tool === 'select') dispatch({ do: 'select', key: null })
    if (!canEdit || (!under && tool === 'select')) return
    svg.current?.setPointerCapture(event.pointerId)
    const start = { startX: event.clientX, startY: event.clientY, box: null }
    if (under && corner) setDrag({ ...start, kind: 'resize', key: under.key, was: under, corner })
    else if (under) setDrag({ ...start, kind: 'move', key: under.key, was: under })
    else if (tool !== 'select') setDrag({ ...start, kind: 'draw', tool })
  }

  const follow = (event: PointerEvent<SVGSVGElement>) => {
    if (!drag) return
    const [dxPx, dyPx] = [event.clientX - drag.startX, event.clientY - drag.startY]
    if (!drag.box && Math.hypot(dxPx, dyPx) < DRAG_PX) return
    const box = dragged(drag, placeOf(event), dxPx * umPerPx, dyPx * umPerPx, props, stepUm)
    setDrag({ ...drag, box })
  }

  const end = (event: PointerEvent<SVGSVGElement>) => {
    if (!drag) return
    setDrag(null)
    if (drag.kind === 'draw')
      view.place(drag.tool, drag.box ?? markAt(drag.tool, placeOf(event), props.board, stepUm))
    else if (drag.box) dispatch({ do: 'change', key: drag.key, to: boxOnly(drag.box) })
  }

  return {
    drag,
    handlers: {
      onPointerDown: begin,
      onPointerMove: follow,
      onPointerUp: end,
      onPointerCancel: () => setDrag(null),
    },
  }
}
