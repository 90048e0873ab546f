'use client'
/**
 * The drawing area of a face: a stretch of the board at a scale, with its marks. Drawn on with a mouse or a finger
 * (pointer events; the page does not scroll under the finger while marks are placed) and with keys.
 */
import { type KeyboardEvent, type PointerEvent, useId, useRef, useState } from 'react'
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
import type { LengthUnit } from '#lib/core/units/inches'
import { sayLength } from '#lib/format/length'
import { DEFECT_WORDS } from '#lib/shop/boards'
import { type Face, FaceOutline, MarkLetter, MarkPatterns, MarkShape, pxBox } from './board-face'
import type { EditMark, MarksEvent } from './board-face-marks'

export const SIDE_PX = 16
const TOP_PX = 24
const BOTTOM_PX = 12
const FINGER_PX = 44
const HANDLE_PX = 11
const HANDLE_REACH_PX = 20
const DRAG_PX = 5
const HELD_STEPS = 10

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

type Drag = {
  readonly startX: number
  readonly startY: number
  readonly box: MarkBox | null
} & (
  | { readonly kind: 'draw'; readonly tool: DefectKind }
  | { readonly kind: 'move'; readonly key: string; readonly was: MarkBox }
  | { readonly kind: 'resize'; readonly key: string; readonly was: MarkBox; readonly corner: MarkCorner }
)

export const stepUmIn = (units: LengthUnit): number => (units === 'in' ? 25_400 / 16 : 1_000)

const isOn = (mark: EditMark, face: Face) => mark.face === 'through' || mark.face === face

interface Place {
  readonly xUm: number
  readonly yUm: number
}

/** The mark under a finger: small ones are as easy to hit as large ones, the nearest wins. */
function markUnder(marks: readonly EditMark[], at: Place, reachUm: number): EditMark | undefined {
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

function cornerUnder(box: MarkBox, at: Place, reachUm: number): MarkCorner | undefined {
  const off = (c: MarkCorner) => Math.hypot(cornerOf(box, c).xUm - at.xUm, cornerOf(box, c).yUm - at.yUm)
  const [nearest] = [...MARK_CORNERS].sort((a, b) => off(a) - off(b))
  return off(nearest) <= reachUm ? nearest : undefined
}

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

export function BoardFaceCanvas(props: CanvasProps) {
  const { board, marks, selected, face, tool, scale, fromUm, widthPx, units, canEdit, dispatch } = props
  const prefix = useId().replace(/[^a-zA-Z0-9]/g, '')
  const svg = useRef<SVGSVGElement>(null)
  const [drag, setDrag] = useState<Drag | null>(null)
  const [cursor, setCursor] = useState<MarkBox | null>(null)
  const stepUm = stepUmIn(units)
  const umPerPx = 1000 / scale
  const facePx = { w: (board.lengthUm / 1000) * scale, h: (board.widthUm / 1000) * scale }
  const heightPx = facePx.h + TOP_PX + BOTTOM_PX
  const chosen = marks.find((m) => m.key === selected)
  const shown = marks.filter((m) => isOn(m, face))

  const placeOf = (event: PointerEvent): Place => {
    const rect = svg.current!.getBoundingClientRect()
    return {
      xUm: fromUm + (event.clientX - rect.left - SIDE_PX) * umPerPx,
      yUm: (event.clientY - rect.top - TOP_PX) * umPerPx,
    }
  }

  const begin = (event: PointerEvent<SVGSVGElement>) => {
    if (event.button !== 0) return
    const at = placeOf(event)
    const reachUm = (event.pointerType === 'mouse' ? 6 : FINGER_PX / 2) * umPerPx
    const start = { startX: event.clientX, startY: event.clientY, box: null }
    const corner = canEdit && chosen ? cornerUnder(chosen, at, HANDLE_REACH_PX * umPerPx) : undefined
    const under = corner ? chosen : markUnder(shown, at, reachUm)
    if (under) dispatch({ do: 'select', key: under.key })
    else if (selected && tool === 'select') dispatch({ do: 'select', key: null })
    if (!canEdit) return
    if (under && corner) setDrag({ ...start, kind: 'resize', key: under.key, was: under, corner })
    else if (under) setDrag({ ...start, kind: 'move', key: under.key, was: under })
    else if (tool !== 'select') setDrag({ ...start, kind: 'draw', tool })
    else return
    svg.current?.setPointerCapture(event.pointerId)
  }

  const follow = (event: PointerEvent<SVGSVGElement>) => {
    if (!drag) return
    const [dxPx, dyPx] = [event.clientX - drag.startX, event.clientY - drag.startY]
    if (!drag.box && Math.hypot(dxPx, dyPx) < DRAG_PX) return
    const at = placeOf(event)
    const [dx, dy] = [dxPx * umPerPx, dyPx * umPerPx]
    const box =
      drag.kind === 'draw'
        ? markBetween({ xUm: at.xUm - dx, yUm: at.yUm - dy }, at, board, stepUm)
        : drag.kind === 'move'
          ? moveMark(drag.was, dx, dy, board, stepUm)
          : resizeMark(drag.was, drag.corner, dx, dy, board, stepUm)
    setDrag({ ...drag, box })
  }

  const end = (event: PointerEvent<SVGSVGElement>) => {
    if (!drag) return
    setDrag(null)
    if (drag.kind === 'draw') {
      const box = drag.box ?? markAt(drag.tool, placeOf(event), board, stepUm)
      place(drag.tool, box)
    } else if (drag.box) dispatch({ do: 'change', key: drag.key, to: boxOnly(drag.box) })
  }

  const place = (kind: DefectKind, box: MarkBox) =>
    dispatch({ do: 'add', mark: { ...boxOnly(box), kind, face: props.isThrough ? 'through' : face } })

  /** The mark that keys would place: about the middle of the window until it is moved. */
  const aimed = (): MarkBox | null => {
    if (tool === 'select') return null
    const middle = { xUm: fromUm + ((widthPx - 2 * SIDE_PX) * umPerPx) / 2, yUm: board.widthUm / 2 }
    return cursor ?? markAt(tool, middle, board, stepUm)
  }

  const nudge = (event: KeyboardEvent, [x, y]: readonly [number, number]) => {
    const from = chosen ?? aimed()
    if (!from) return
    const byUm = stepUm * (event.repeat ? HELD_STEPS : 1)
    const [dx, dy] = [x * byUm, y * byUm]
    const box = event.shiftKey
      ? resizeMark(from, 'farEnd', dx, dy, board, stepUm)
      : moveMark(from, dx, dy, board, stepUm)
    if (chosen) dispatch({ do: 'change', key: chosen.key, to: boxOnly(box), isNudge: true })
    else setCursor(boxOnly(box))
    props.show(box)
  }

  const toEnd = (isStart: boolean) => {
    const from = chosen ?? aimed()
    if (!from) return
    const box = moveMark(from, isStart ? -board.lengthUm : board.lengthUm, 0, board, stepUm)
    if (chosen) dispatch({ do: 'change', key: chosen.key, to: boxOnly(box), isNudge: true })
    else setCursor(boxOnly(box))
    props.show(box)
  }

  const press = (event: KeyboardEvent<SVGSVGElement>) => {
    if (!canEdit) return
    const arrow = ARROWS[event.key]
    if (arrow) nudge(event, arrow)
    else if (event.key === 'Home' || event.key === 'End') toEnd(event.key === 'Home')
    else if (event.key === 'Enter' || event.key === ' ') pressEnter()
    else if ((event.key === 'Delete' || event.key === 'Backspace') && selected)
      dispatch({ do: 'remove', key: selected })
    else if (event.key === 'Escape') dispatch({ do: 'select', key: null })
    else if (event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey)) dispatch({ do: 'undo' })
    else return
    event.preventDefault()
  }

  const pressEnter = () => {
    const box = aimed()
    if (selected) dispatch({ do: 'select', key: null })
    else if (box && tool !== 'select') place(tool, box)
  }

  const [isFocused, setFocused] = useState(false)
  const ghost = isFocused && !selected && canEdit ? aimed() : null
  const drawn = drag?.kind === 'draw' && drag.box ? { ...drag.box, kind: drag.tool, face } : null
  const boxOf = (mark: EditMark) =>
    pxBox(drag && drag.kind !== 'draw' && drag.key === mark.key && drag.box ? drag.box : mark, scale)
  const isPlacing = canEdit && (tool !== 'select' || selected !== null)
  const field = { w: facePx.w, h: facePx.h }

  return (
    <svg
      ref={svg}
      width={widthPx}
      height={heightPx}
      viewBox={`${-SIDE_PX} ${-TOP_PX} ${widthPx} ${heightPx}`}
      tabIndex={canEdit ? 0 : undefined}
      role={canEdit ? 'application' : 'img'}
      aria-roledescription={canEdit ? 'drawing area' : undefined}
      aria-label={`Face ${face}, ${sayLength(board.lengthUm, units)} by ${sayLength(board.widthUm, units)}, ${shown.length === 1 ? 'one mark' : `${shown.length} marks`}`}
      className="block max-w-full select-none outline-none focus-visible:outline-3 focus-visible:outline-offset-[-3px] focus-visible:outline-accent"
      style={{
        touchAction: isPlacing ? 'none' : 'pan-y',
        cursor: canEdit && tool !== 'select' ? 'crosshair' : undefined,
      }}
      onPointerDown={begin}
      onPointerMove={follow}
      onPointerUp={end}
      onPointerCancel={() => setDrag(null)}
      onKeyDown={press}
      onFocus={(e) => setFocused(e.currentTarget.matches(':focus-visible'))}
      onBlur={() => {
        setFocused(false)
        setCursor(null)
      }}
    >
      <MarkPatterns prefix={prefix} />
      <g transform={`translate(${-(fromUm / 1000) * scale} 0)`}>
        <FaceOutline w={facePx.w} h={facePx.h} />
        <Ruler lengthUm={board.lengthUm} scale={scale} units={units} />
        {marks.map((mark) => (
          <MarkShape
            key={mark.key}
            mark={mark}
            box={boxOf(mark)}
            face={face}
            prefix={prefix}
            isSelected={mark.key === selected}
          />
        ))}
        {marks.map((mark) => (
          <MarkLetter key={mark.key} kind={mark.kind} box={boxOf(mark)} field={field} />
        ))}
        {drawn ? (
          <MarkShape mark={drawn} box={pxBox(drawn, scale)} face={face} prefix={prefix} isSelected />
        ) : null}
        {ghost ? (
          <Aim box={pxBox(ghost, scale)} letter={tool === 'select' ? '' : DEFECT_WORDS[tool].letter} />
        ) : null}
        {chosen && canEdit && isOn(chosen, face) ? <Handles box={boxOf(chosen)} /> : null}
      </g>
    </svg>
  )
}

const boxOnly = ({ xUm, yUm, widthUm, heightUm }: MarkBox): MarkBox => ({ xUm, yUm, widthUm, heightUm })

type PxProps = { readonly box: ReturnType<typeof pxBox> }

function Handles({ box }: PxProps) {
  const half = HANDLE_PX / 2
  return MARK_CORNERS.map((corner) => (
    <rect
      key={corner}
      x={(corner.endsWith('End') ? box.x + box.w : box.x) - half}
      y={(corner.startsWith('far') ? box.y + box.h : box.y) - half}
      width={HANDLE_PX}
      height={HANDLE_PX}
      fill="var(--sheet)"
      stroke="var(--accent-strong)"
      strokeWidth="2"
    />
  ))
}

/** Where Enter would place a mark. */
function Aim({ box, letter }: PxProps & { readonly letter: string }) {
  const [cx, cy] = [box.x + box.w / 2, box.y + box.h / 2]
  return (
    <g stroke="var(--accent-strong)" fill="none" strokeWidth="1.6" pointerEvents="none">
      <path d={`M${cx - 26} ${cy}H${cx + 26}M${cx} ${cy - 26}V${cy + 26}`} strokeWidth="1" />
      <rect x={box.x} y={box.y} width={box.w} height={box.h} strokeDasharray="4 2" />
      <text
        x={box.x + box.w + 6}
        y={box.y - 4}
        fontSize="12"
        fontWeight="700"
        fill="var(--ink)"
        stroke="none"
      >
        {letter}
      </text>
    </g>
  )
}

const TICKS_MM = [10, 20, 50, 100, 200, 500, 1000]
const TICKS_IN = [1, 2, 6, 12, 24, 48].map((inches) => inches * 25.4)
const TICK_PX = 56

/** Along the upper edge, in the units of the person. */
function Ruler({ lengthUm, scale, units }: { lengthUm: number; scale: number; units: LengthUnit }) {
  const ticks = units === 'in' ? TICKS_IN : TICKS_MM
  const everyMm = ticks.find((t) => t * scale >= TICK_PX) ?? ticks[ticks.length - 1]
  const count = Math.floor(lengthUm / 1000 / everyMm)
  return (
    <g stroke="var(--ink-soft)" fontSize="11" fill="var(--ink-soft)">
      {Array.from({ length: count + 1 }, (_, i) => {
        const x = i * everyMm * scale
        const label = units === 'in' ? `${Math.round((i * everyMm) / 25.4)}"` : `${Math.round(i * everyMm)}`
        return (
          <g key={label}>
            <path d={`M${x} -2V-8`} strokeWidth="1" />
            <text x={x} y={-11} textAnchor={i === 0 ? 'start' : 'middle'} stroke="none">
              {label}
            </text>
          </g>
        )
      })}
    </g>
  )
}
