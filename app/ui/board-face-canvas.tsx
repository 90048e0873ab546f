'use client'
/**
 * The drawing area of a face: a stretch of the board at a scale, with its marks. Drawn on with a mouse or a finger
 * (pointer events; the page does not scroll under the finger while marks are placed) and with keys.
 */
import { useId, useRef } from 'react'
import { MARK_CORNERS, type MarkBox } from '#lib/core/board/mark-edit'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayLength } from '#lib/format/length'
import { DEFECT_WORDS } from '#lib/shop/boards'
import { FaceOutline, MarkLetter, MarkPatterns, MarkShape, pxBox } from './board-face'
import { useFaceKeys } from './board-face-keys'
import type { EditMark } from './board-face-marks'
import { useFacePointer } from './board-face-pointer'
import { type CanvasProps, isOn, SIDE_PX, TOP_PX, viewOf } from './board-face-view'

const BOTTOM_PX = 12
const HANDLE_PX = 11

const faceLabel = ({ board, face, units }: CanvasProps, count: number): string =>
  `Face ${face}, ${sayLength(board.lengthUm, units)} by ${sayLength(board.widthUm, units)}, ${
    count === 1 ? 'one mark' : `${count} marks`
  }`

export function BoardFaceCanvas(props: CanvasProps) {
  const { board, tool, scale, widthPx, canEdit } = props
  const svg = useRef<SVGSVGElement>(null)
  const view = viewOf(props)
  const pointer = useFacePointer(props, view, svg)
  const keys = useFaceKeys(props, view)
  const heightPx = (board.widthUm / 1000) * scale + TOP_PX + BOTTOM_PX
  const isPlacing = canEdit && (tool !== 'select' || view.chosen !== undefined)
  return (
    <svg
      ref={svg}
      width={widthPx}
      height={heightPx}
      viewBox={`${-SIDE_PX} ${-TOP_PX} ${widthPx} ${heightPx}`}
      tabIndex={canEdit ? 0 : undefined}
      role={canEdit ? 'application' : 'img'}
      aria-roledescription={canEdit ? 'drawing area' : undefined}
      aria-label={faceLabel(props, view.shown.length)}
      className="block max-w-full outline-none select-none focus-visible:outline-3 focus-visible:outline-offset-[-3px] focus-visible:outline-accent"
      // While marks are placed the page does not scroll under the finger.
      style={{
        touchAction: isPlacing ? 'none' : 'pan-y',
        cursor: canEdit && tool !== 'select' ? 'crosshair' : undefined,
      }}
      {...pointer.handlers}
      {...keys.handlers}
    >
      <FaceDrawing {...props} drag={pointer.drag} aim={keys.aim} />
    </svg>
  )
}

interface DrawingProps extends CanvasProps {
  readonly drag: ReturnType<typeof useFacePointer>['drag']
  readonly aim: MarkBox | null
}

function FaceDrawing({
  board,
  marks,
  selected,
  face,
  tool,
  scale,
  fromUm,
  units,
  canEdit,
  drag,
  aim,
}: DrawingProps) {
  const prefix = useId().replace(/[^a-zA-Z0-9]/g, '')
  const field = { w: (board.lengthUm / 1000) * scale, h: (board.widthUm / 1000) * scale }
  const boxOf = (mark: EditMark) =>
    pxBox(drag && drag.kind !== 'draw' && drag.key === mark.key && drag.box ? drag.box : mark, scale)
  const drawn = drag?.kind === 'draw' && drag.box ? { ...drag.box, kind: drag.tool, face } : null
  const chosen = marks.find((m) => m.key === selected)
  return (
    <>
      <MarkPatterns prefix={prefix} />
      <g transform={`translate(${-(fromUm / 1000) * scale} 0)`}>
        <FaceOutline {...field} />
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
        {aim ? (
          <Aim box={pxBox(aim, scale)} letter={tool === 'select' ? '' : DEFECT_WORDS[tool].letter} />
        ) : null}
        {chosen && canEdit && isOn(chosen, face) ? <Handles box={boxOf(chosen)} /> : null}
      </g>
    </>
  )
}

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
