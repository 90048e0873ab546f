/**
 * A board's face as a drawing: outline, grain, marks. A mark is told by its pattern and its letter, never by colour
 * alone: outline thick where it goes right through, dashed where it lies on the face turned away (ISO 128: hidden
 * edges are dashed). Coordinates inside are pixels, `scale` is pixels a millimetre.
 */
import clsx from 'clsx'
import type { DefectKind } from '#lib/core/board/board'
import type { MarkBox } from '#lib/core/board/mark-edit'
import { DEFECT_WORDS } from '#lib/shop/boards'

export type Face = 'A' | 'B'

export interface FaceMark extends MarkBox {
  readonly kind: DefectKind
  readonly face: Face | 'through'
}

const ROUND: ReadonlySet<DefectKind> = new Set(['hole', 'nailHole', 'knot', 'metal'])
const LEAST_PX = 3
const LETTER_PX = 15

export interface PxBox {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}

/** @param fromUm where the drawing begins along the board */
export const pxBox = (box: MarkBox, scale: number, fromUm = 0): PxBox => ({
  x: ((box.xUm - fromUm) / 1000) * scale,
  y: (box.yUm / 1000) * scale,
  w: Math.max(LEAST_PX, (box.widthUm / 1000) * scale),
  h: Math.max(LEAST_PX, (box.heightUm / 1000) * scale),
})

const line = (d: string, width = 1) => <path d={d} fill="none" stroke="var(--wood-ink)" strokeWidth={width} />

const PATTERN: Readonly<Record<DefectKind, { readonly size: number; readonly draw: React.ReactNode }>> = {
  hole: { size: 8, draw: line('M0 4H8M4 0V8', 0.8) },
  nailHole: { size: 4, draw: <rect width="4" height="4" fill="var(--wood-ink)" /> },
  knot: { size: 7, draw: <circle cx="3.5" cy="3.5" r="2.2" fill="none" stroke="var(--wood-ink)" /> },
  crack: { size: 8, draw: line('M0 6L4 2L8 6', 1.2) },
  rot: { size: 5, draw: <circle cx="2.5" cy="2.5" r="1.3" fill="var(--wood-ink)" /> },
  wane: { size: 7, draw: line('M-1 8L8 -1', 1.3) },
  stain: { size: 9, draw: line('M0 4.5H5', 1.2) },
  metal: { size: 6, draw: line('M0 6L6 0M0 0L6 6', 1.3) },
}
const KINDS = Object.keys(PATTERN) as DefectKind[]

/** Once a drawing that shows marks with their patterns. `prefix` keeps its names apart from other drawings'. */
export function MarkPatterns({ prefix }: { readonly prefix: string }) {
  return (
    <defs>
      {KINDS.map((kind) => {
        const { size, draw } = PATTERN[kind]
        return (
          <pattern
            key={kind}
            id={`${prefix}-${kind}`}
            width={size}
            height={size}
            patternUnits="userSpaceOnUse"
          >
            {draw}
          </pattern>
        )
      })}
    </defs>
  )
}

interface MarkShapeProps {
  readonly mark: FaceMark
  readonly box: PxBox
  /** The face that is shown. */
  readonly face: Face
  readonly prefix: string
  readonly isSelected?: boolean
}

export function MarkShape({ mark, box, face, prefix, isSelected }: MarkShapeProps) {
  const isAway = mark.face !== 'through' && mark.face !== face
  const paint = {
    stroke: isSelected ? 'var(--accent-strong)' : 'var(--wood-ink)',
    strokeWidth: isSelected || mark.face === 'through' ? 2.4 : 1.3,
    strokeDasharray: isAway ? '5 3' : undefined,
  }
  const shapes = (fill: string, isOutline: boolean) =>
    ROUND.has(mark.kind) ? (
      <ellipse
        cx={box.x + box.w / 2}
        cy={box.y + box.h / 2}
        rx={box.w / 2}
        ry={box.h / 2}
        fill={fill}
        {...(isOutline ? paint : {})}
      />
    ) : (
      <rect x={box.x} y={box.y} width={box.w} height={box.h} fill={fill} {...(isOutline ? paint : {})} />
    )
  return (
    <g opacity={isAway && !isSelected ? 0.75 : 1}>
      {isAway ? null : shapes('var(--sheet)', false)}
      {shapes(isAway ? 'transparent' : `url(#${prefix}-${mark.kind})`, true)}
    </g>
  )
}

/** The mark's letter on a small tag: in the mark where there is room, else beside it with a leader. */
export function MarkLetter({
  kind,
  box,
  field,
}: {
  readonly kind: DefectKind
  readonly box: PxBox
  /** Width and height of the drawing. */
  readonly field: { readonly w: number; readonly h: number }
}) {
  const isRoomy = box.w >= LETTER_PX + 6 && box.h >= LETTER_PX + 6
  const middle = { x: box.x + box.w / 2, y: box.y + box.h / 2 }
  const beside = {
    x: box.x + box.w + LETTER_PX + 6 < field.w ? box.x + box.w + 4 : box.x - LETTER_PX - 4,
    y: box.y > LETTER_PX + 4 ? box.y - LETTER_PX : box.y + box.h,
  }
  const at = isRoomy ? { x: middle.x - LETTER_PX / 2, y: middle.y - LETTER_PX / 2 } : beside
  const x = Math.max(1, Math.min(field.w - LETTER_PX - 1, at.x))
  const y = Math.max(1, Math.min(field.h - LETTER_PX - 1, at.y))
  return (
    <g pointerEvents="none">
      {isRoomy ? null : (
        <path
          d={`M${middle.x} ${middle.y}L${x + LETTER_PX / 2} ${y + LETTER_PX / 2}`}
          stroke="var(--wood-ink)"
          strokeWidth="0.8"
        />
      )}
      <rect
        x={x}
        y={y}
        width={LETTER_PX}
        height={LETTER_PX}
        fill="var(--sheet)"
        stroke="var(--ink)"
        strokeWidth="0.9"
      />
      <text
        x={x + LETTER_PX / 2}
        y={y + LETTER_PX - 3.6}
        textAnchor="middle"
        fontSize="11.5"
        fontWeight="700"
        fill="var(--ink)"
      >
        {DEFECT_WORDS[kind].letter}
      </text>
    </g>
  )
}

/** Wood with its grain along x, between thick edges. */
export function FaceOutline({ w, h }: { readonly w: number; readonly h: number }) {
  const strokes = [0.14, 0.31, 0.47, 0.66, 0.83]
  return (
    <g>
      <rect width={w} height={h} fill="var(--wood)" />
      {strokes.map((at, i) => {
        const y = at * h
        const sway = (i % 2 ? -1 : 1) * Math.min(3, h * 0.05)
        return (
          <path
            key={at}
            d={`M0 ${y}C${w * 0.3} ${y + sway} ${w * 0.6} ${y - sway} ${w} ${y + sway / 2}`}
            fill="none"
            stroke="var(--wood-ink)"
            strokeOpacity="0.22"
          />
        )
      })}
      <rect width={w} height={h} fill="none" stroke="var(--ink)" strokeWidth="1.8" />
    </g>
  )
}

interface StripProps {
  readonly board: {
    readonly number: number
    readonly lengthUm: number
    readonly widthUm: number
    readonly defects: readonly (FaceMark & { readonly id: string })[]
  }
  /** The longest board of the list: all are drawn to one scale. */
  readonly longestUm: number
  readonly className?: string
}

/** A board in a list, true to scale among the others; marks of both faces are filled spots. */
export function BoardStrip({ board, longestUm, className }: StripProps) {
  const [l, w] = [board.lengthUm / 1000, board.widthUm / 1000]
  const share = Math.max(0.03, board.lengthUm / longestUm)
  return (
    <svg
      viewBox={`0 0 ${l} ${w}`}
      preserveAspectRatio="none"
      style={{ width: `${share * 100}%`, aspectRatio: `${l} / ${w}` }}
      className={clsx('overflow-visible', className)}
      aria-hidden="true"
    >
      <rect
        width={l}
        height={w}
        fill="var(--wood)"
        stroke="var(--ink)"
        strokeWidth="1.5"
        vectorEffect="non-scaling-stroke"
      />
      {board.defects.map((d) => (
        <rect
          key={d.id}
          x={d.xUm / 1000}
          y={d.yUm / 1000}
          width={d.widthUm / 1000}
          height={d.heightUm / 1000}
          fill="var(--wood-ink)"
          stroke="var(--wood-ink)"
          strokeWidth="1"
          vectorEffect="non-scaling-stroke"
        />
      ))}
    </svg>
  )
}
