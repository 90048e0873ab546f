/** A drawing as SVG: line widths and dashes after ISO 128-2, in pixels, so that they stay crisp at any size. */

import type { Drawing, DrawnText, LineKind } from '#lib/core/design/drawing/drawing'
import type { Vec2 } from '#lib/core/geometry/polygon2'

const ROUND = 100
const n = (value: number): string => String(Math.round(value * ROUND) / ROUND)
/** SVG runs downwards. */
const point = ([x, y]: Vec2): string => `${n(x)} ${n(-y)}`
const pathOf = (points: readonly Vec2[]): string => `M${points.map(point).join('L')}`

const INK = 'var(--ink, #25241f)'
const SOFT = 'var(--ink-soft, #5a5649)'
const STOP = 'var(--stop, #a32a1e)'
const ACCENT = 'var(--accent, #0d5a70)'

/** Drawn in this order, so that what is seen lies on top. */
const STYLES: readonly { kind: LineKind; stroke: string; width: number; dash?: string }[] = [
  { kind: 'surroundings', stroke: SOFT, width: 0.9, dash: '14 3 2 3 2 3' },
  { kind: 'floor', stroke: SOFT, width: 0.9 },
  { kind: 'hidden', stroke: INK, width: 0.9, dash: '5 3' },
  { kind: 'axis', stroke: ACCENT, width: 0.8, dash: '9 2.5 2 2.5' },
  { kind: 'dimension', stroke: SOFT, width: 0.8 },
  { kind: 'visible', stroke: INK, width: 1.9 },
  { kind: 'clash', stroke: STOP, width: 1.4 },
]

function FigureText({ text }: { text: DrawnText }) {
  const turn = text.angleRad === 0 ? '' : ` rotate(${n((-text.angleRad * 180) / Math.PI)})`
  return (
    <text
      transform={`translate(${point(text.at)})${turn}`}
      fontSize={n(text.heightMm)}
      textAnchor="middle"
      dominantBaseline="central"
      fill={text.kind === 'label' ? SOFT : INK}
      stroke="var(--sheet, #fdfbf5)"
      strokeWidth={n(text.heightMm * 0.22)}
      strokeLinejoin="round"
      paintOrder="stroke"
    >
      {text.text}
    </text>
  )
}

/** What the drawing shows, for who cannot see it. */
const inWords = (drawing: Drawing): string =>
  `${drawing.title} view. Dimensions: ${drawing.texts
    .filter((text) => text.kind === 'dimension')
    .map((text) => text.text)
    .join(', ')}.`

export function DrawingSvg({ drawing, className }: { drawing: Drawing; className?: string }) {
  const { min, max } = drawing.bounds
  const size = [max[0] - min[0], max[1] - min[1]]
  return (
    <svg
      role="img"
      aria-label={inWords(drawing)}
      className={className}
      viewBox={`${n(min[0])} ${n(-max[1])} ${n(size[0])} ${n(size[1])}`}
      width="100%"
      style={{ display: 'block', fontVariantNumeric: 'tabular-nums' }}
    >
      {STYLES.map(({ kind, stroke, width, dash }) => (
        <path
          key={kind}
          d={drawing.lines
            .filter((line) => line.kind === kind)
            .map((line) => pathOf(line.points))
            .join('')}
          fill="none"
          stroke={stroke}
          strokeWidth={width}
          strokeDasharray={dash}
          strokeLinecap={dash === undefined ? 'round' : 'butt'}
          strokeLinejoin="round"
          vectorEffect="non-scaling-stroke"
        />
      ))}
      <path d={drawing.arrows.map((arrow) => `${pathOf(arrow.points)}Z`).join('')} fill={SOFT} />
      {drawing.texts.map((text) => (
        <FigureText key={`${text.dimensionId ?? text.text}`} text={text} />
      ))}
    </svg>
  )
}
