/** What lies over what on a drawing: shared by tests of drawings of whole pieces and of parts alone. */
import {
  type Bounds2,
  boundsOf,
  type DrawnText,
  type LineKind,
  type Sketch,
  textBox,
} from '#lib/core/design/drawing/drawing'
import type { Vec2 } from '#lib/core/geometry/polygon2'

/** Boxes are looked at without this share of the text's height at their borders: the air around letters. */
const AIR = 0.12

export function boxOf(text: DrawnText): Bounds2 {
  const { min, max } = boundsOf(textBox(text))
  const air = AIR * text.heightMm
  return { min: [min[0] + air, min[1] + air], max: [max[0] - air, max[1] - air] }
}

export const overlap = (a: Bounds2, b: Bounds2): boolean =>
  [0, 1].every((i) => a.min[i] < b.max[i] && b.min[i] < a.max[i])

/** Liang and Barsky (1984): whether a segment has a stretch in a box. */
export function crosses([a, b]: readonly [Vec2, Vec2], { min, max }: Bounds2): boolean {
  let [low, high] = [0, 1]
  for (const i of [0, 1] as const) {
    const run = b[i] - a[i]
    if (run === 0 && (a[i] <= min[i] || a[i] >= max[i])) return false
    if (run === 0) continue
    const [s, t] = [(min[i] - a[i]) / run, (max[i] - a[i]) / run]
    low = Math.max(low, Math.min(s, t))
    high = Math.min(high, Math.max(s, t))
  }
  return low < high
}

const nameOf = (text: DrawnText): string => `${text.dimensionId ?? ''} «${text.text}»`

/** Texts over texts. */
export function textClashes({ texts }: Sketch): string[] {
  return texts.flatMap((text, i) =>
    texts
      .slice(i + 1)
      .filter((other) => overlap(boxOf(text), boxOf(other)))
      .map((other) => `${nameOf(text)} over ${nameOf(other)}`),
  )
}

/** Texts that lines of some kinds run through. */
export function lineClashes({ texts, lines }: Sketch, kinds: readonly LineKind[]): string[] {
  return texts.flatMap((text) =>
    lines
      .filter((line) => kinds.includes(line.kind))
      .filter(({ points }) => points.some((p, i) => i > 0 && crosses([points[i - 1], p], boxOf(text))))
      .map(
        (line) =>
          `${nameOf(text)} crossed by a ${line.kind} line at ${line.points[0].map((n) => n.toFixed(1))}`,
      ),
  )
}

/** Texts that arrowheads cover. */
export function arrowClashes({ texts, arrows }: Sketch): string[] {
  return texts.flatMap((text) =>
    arrows
      .filter(({ points }) => overlap(boundsOf(points), boxOf(text)))
      .map(() => `${nameOf(text)} under an arrow`),
  )
}
