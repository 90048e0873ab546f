import { describe, expect, test } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import type { Model } from '#lib/core/design/model'
import { boxOf, pushNeeded, type TurnedBox, takeApart } from '#lib/core/design/take-apart'
import { add, type Vec3 } from '#lib/core/geometry/vec3'
import { seededRng } from '#lib/core/units/rng'

const cube = (middle: Vec3): TurnedBox => ({
  middle,
  axes: [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ],
  halves: [1, 1, 1],
})
const cornersOf = ({ middle, axes, halves }: TurnedBox): Vec3[] =>
  [-1, 1].flatMap((i) =>
    [-1, 1].flatMap((j) =>
      [-1, 1].map((k) =>
        [i, j, k].reduce<Vec3>(
          (p, sign, n) => [0, 1, 2].map((m) => p[m] + sign * halves[n] * axes[n][m]) as unknown as Vec3,
          middle,
        ),
      ),
    ),
  )

/** Independent of the separating axes: do two boxes share a point? By sampling one in the other's axes. */
function overlap(a: TurnedBox, b: TurnedBox): boolean {
  const steps = [-0.999, 0, 0.999]
  const inside = (p: Vec3, box: TurnedBox) =>
    box.axes.every(
      (axis, i) =>
        Math.abs(
          axis[0] * (p[0] - box.middle[0]) +
            axis[1] * (p[1] - box.middle[1]) +
            axis[2] * (p[2] - box.middle[2]),
        ) <
        box.halves[i] - 1e-6,
    )
  const sample = (box: TurnedBox, other: TurnedBox) =>
    steps.some((s) =>
      steps.some((t) =>
        steps.some((u) => {
          const p = [0, 1, 2].map(
            (m) =>
              box.middle[m] +
              s * box.halves[0] * box.axes[0][m] +
              t * box.halves[1] * box.axes[1][m] +
              u * box.halves[2] * box.axes[2][m],
          ) as unknown as Vec3
          return inside(p, other)
        }),
      ),
    )
  return sample(a, b) || sample(b, a) || cornersOf(a).some((p) => inside(p, b))
}

function apart(model: Model): TurnedBox[] {
  const offsets = takeApart(model)
  return model.parts.map((part) => {
    const box = boxOf(part)
    return { ...box, middle: add(box.middle, offsets.get(part.id)!) }
  })
}

function clashes(model: Model): number {
  const boxes = apart(model)
  let count = 0
  boxes.forEach((a, i) => {
    for (const b of boxes.slice(i + 1)) {
      if (pushNeeded(a, b, [1, 0, 0], 0) > 0) count++
      if (overlap(a, b)) count++
    }
  })
  return count
}

describe('two boxes', () => {
  test('how far one must move: 2 and a gap of 1, from a cube in the same place', () =>
    expect(pushNeeded(cube([0, 0, 0]), cube([0, 0, 0]), [1, 0, 0], 1)).toBeCloseTo(3, 9))
  test('nothing if they are apart along any axis', () =>
    expect(pushNeeded(cube([0, 0, 0]), cube([0, 3.1, 0]), [1, 0, 0], 1)).toBe(0))
  test('a cube turned by 45° needs 1 + √2', () => {
    const s = Math.SQRT1_2
    const turned: TurnedBox = {
      ...cube([0, 0, 0]),
      axes: [
        [s, s, 0],
        [-s, s, 0],
        [0, 0, 1],
      ],
    }
    expect(pushNeeded(cube([0, 0, 0]), turned, [1, 0, 0], 0)).toBeCloseTo(1 + Math.SQRT2, 9)
  })
})

describe.each(designs)('$name', (design) => {
  const built = design.build({})
  if (!built.ok) throw new Error('the defaults must make a piece')
  const model = built.value

  test('no two boxes overlap', () => expect(clashes(model)).toBe(0))
  test('the same model is taken apart the same way', () =>
    expect([...takeApart(model)]).toEqual([...takeApart(structuredClone(model))]))
  test('nothing sinks into the floor', () => {
    if (model.hangs !== undefined) return
    for (const box of apart(model))
      expect(Math.min(...cornersOf(box).map((p) => p[2]))).toBeGreaterThan(-1e-6)
  })
  test('a part moves no further than six times the longest part', () => {
    const longest = Math.max(...model.parts.map((p) => p.blank.lengthMm))
    for (const offset of takeApart(model).values()) expect(Math.hypot(...offset)).toBeLessThan(6 * longest)
  })
})

test('boxes do not overlap for chance parameters either', () => {
  const rng = seededRng(41)
  let judged = 0
  for (let tries = 0; tries < 60; tries++) {
    const design = designs[rng.below(designs.length)]
    const values: Record<string, number | string> = {}
    for (const { id, unit, options, min = 0, max = 0 } of design.parameters) {
      if (unit === 'choice') values[id] = options![rng.below(options!.length)].value
      else if (rng.next() < 0.4) values[id] = Math.round(min + rng.next() * (max - min))
    }
    const built = design.build(values)
    if (!built.ok) continue
    judged++
    expect(clashes(built.value), `${design.id} ${JSON.stringify(values)}`).toBe(0)
  }
  expect(judged).toBeGreaterThan(5)
})
