/** A picture of a whole piece as SVG: its seen edges, thick after ISO 128-2, crisp at any size. */
import type { Picture } from '#lib/core/design/drawing/picture'

const ROUND = 100
const n = (value: number): string => String(Math.round(value * ROUND) / ROUND)

interface PictureSvgProps {
  readonly picture: Picture
  readonly label: string
  /** Several pictures at one scale: each fills this box, in mm of the piece; absent: its own frame. */
  readonly boxMm?: readonly [number, number]
  readonly className?: string
}

/** What the frame measures, mm. */
export const frameMm = ({ frame: { min, max } }: Picture): readonly [number, number] => [
  max[0] - min[0],
  max[1] - min[1],
]

export function PictureSvg({ picture, label, boxMm = frameMm(picture), className }: PictureSvgProps) {
  const { min, max } = picture.frame
  // Centred across, standing on the bottom of its box. SVG runs downwards.
  const left = (min[0] + max[0] - boxMm[0]) / 2
  const top = -min[1] - boxMm[1]
  const lines = picture.lines.map(([a, b]) => `M${n(a[0])} ${n(-a[1])}L${n(b[0])} ${n(-b[1])}`)
  return (
    <svg
      role="img"
      aria-label={label}
      className={className}
      viewBox={`${n(left)} ${n(top)} ${n(boxMm[0])} ${n(boxMm[1])}`}
      width="100%"
      style={{ display: 'block' }}
    >
      <path
        d={lines.join('')}
        fill="none"
        stroke="var(--ink, #25241f)"
        strokeWidth={1.4}
        strokeLinecap="round"
        vectorEffect="non-scaling-stroke"
      />
    </svg>
  )
}
