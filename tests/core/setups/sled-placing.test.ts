import { describe, expect, test } from 'vitest'
import type { EndCut, Notch, Operation, Part, Vec3 } from '#lib/core/design/model'
import {
  endCutPlacing,
  endCutPlacings,
  firstEndPlacing,
  notchPlacing,
  type SledPlacing,
} from '#lib/core/setups/sled-placing'
import { radFromDeg } from '#lib/core/units/angle'
import { seededRng } from '#lib/core/units/rng'
import { endCut, part } from './small-work'

const RAKE = radFromDeg(5)
const isEnd = (op: Operation): op is EndCut => op.kind === 'endCut'

/** A leg raked by 5 degrees that stands 610 mm high: both ends level, so parallel to each other. */
function rakedLeg(): Part {
  const lengthMm = 610 / Math.cos(RAKE)
  return part('leg', lengthMm + 10, 45, 38, [
    endCut('endA', 5, 0, RAKE),
    endCut('endB', 5 + lengthMm, 0, RAKE),
  ])
}

/**
 * The end that a sled so set really makes, in the part's own frame: the part is laid on a table, the blade stands where
 * the stop puts it, and the cut plane is carried back. Worked out by points on the table, not by the planner's vectors.
 */
function cutPlaneOf(piece: Part, placing: SledPlacing, tipX: number): { point: Vec3; normal: Vec3 } {
  const { widthMm: w, thicknessMm: t } = piece.blank
  const toPart = (u: number, v: number, up: number): Vec3 => {
    const isA = placing.onFence === 'edgeA'
    const isDown = placing.faceDown === 'faceB'
    const x = isA === isDown ? u : -u
    return [x, isA ? v : w - v, isDown ? up : t - up]
  }
  const isSame = (placing.onFence === 'edgeA') === (placing.faceDown === 'faceB')
  const tipU = isSame ? tipX : -tipX
  const bladeU = placing.stopSide === 'left' ? tipU + placing.stopMm : tipU - placing.stopMm
  const s = placing.sledAngleRad
  const lean = Math.tan(placing.bladeTiltRad) * (placing.stopSide === 'left' ? 1 : -1)
  const p0 = toPart(bladeU, 0, 0)
  const p1 = toPart(bladeU + Math.tan(s) * 50, 50, 0)
  // The blade leans about its line on the table, square to that line.
  const p2 = toPart(bladeU - lean * 50 * Math.cos(s), lean * 50 * Math.sin(s), 50)
  const [a, b] = [p1, p2].map((p) => [p[0] - p0[0], p[1] - p0[1], p[2] - p0[2]] as Vec3)
  const normal: Vec3 = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
  return { point: p0, normal }
}

function distanceMm(plane: { point: Vec3; normal: Vec3 }, p: Vec3): number {
  const n = plane.normal
  const d = (p[0] - plane.point[0]) * n[0] + (p[1] - plane.point[1]) * n[1] + (p[2] - plane.point[2]) * n[2]
  return Math.abs(d) / Math.hypot(...n)
}

const along = (cut: EndCut, y: number, z: number): number =>
  cut.point[0] - (cut.normal[1] * (y - cut.point[1]) + cut.normal[2] * (z - cut.point[2])) / cut.normal[0]

const corners = (piece: Part): readonly (readonly [number, number])[] =>
  [0, piece.blank.widthMm].flatMap((y) => [0, piece.blank.thicknessMm].map((z) => [y, z] as const))

describe('a raked leg', () => {
  const leg = rakedLeg()
  const [a, b] = leg.operations.filter(isEnd)
  const last = endCutPlacing(leg, b, 'left')

  test('comes out at the length that the rake asks for', () => {
    // Plane geometry (common practice): L = h / cos a; 610 mm at 5 degrees is 612.33 mm.
    expect(last.stopMm).toBeCloseTo(612.33, 2)
    expect(Math.abs(last.sledAngleRad)).toBeCloseTo(RAKE, 12)
    expect(last.bladeTiltRad).toBe(0)
  })

  test('both ends are cut with the sled at one angle', () => {
    expect(firstEndPlacing(leg, a, last, 'left').sledAngleRad).toBeCloseTo(last.sledAngleRad, 12)
  })

  test('the stop touches the tip, on the fence', () => {
    expect(last.tipOnFence).toBe(true)
    expect(last.atStop).toBe('endA')
  })
})

test('ends that lean towards each other are cut at one angle too, the part turned over', () => {
  const piece = part('t', 460, 50, 19, [endCut('endA', 5, 0, RAKE), endCut('endB', 455, 0, -RAKE)])
  const [a, b] = piece.operations.filter(isEnd)
  const last = endCutPlacing(piece, b, 'left')
  const first = firstEndPlacing(piece, a, last, 'left')
  expect(first.sledAngleRad).toBeCloseTo(last.sledAngleRad, 12)
  expect(first.faceDown).not.toBe(last.faceDown)
})

test('a square end needs no turn', () => {
  const piece = part('s', 300, 50, 19, [endCut('endB', 290, 0, 0)])
  const placing = endCutPlacing(piece, piece.operations.filter(isEnd)[0], 'left')
  expect(placing).toMatchObject({ sledAngleRad: 0, bladeTiltRad: 0, stopMm: 290 })
})

test.each(['left', 'right'] as const)(
  'a blade that leans to the %s is never asked to lean the other way',
  (side) => {
    for (const tilt of [0.2, -0.2]) {
      for (const turn of [0.1, -0.1]) {
        const piece = part('c', 300, 50, 19, [endCut('endB', 280, 0, turn, tilt)])
        const placing = endCutPlacing(piece, piece.operations.filter(isEnd)[0], side)
        expect(Math.sign(placing.bladeTiltRad)).toBe(side === 'left' ? 1 : -1)
      }
    }
  },
)

test('every way to lay a part makes the end that the model asks for', () => {
  const rng = seededRng(5)
  const turn = (): number => (rng.next() - 0.5) * 0.8
  let judged = 0
  for (let i = 0; i < 200; i++) {
    const operations = [endCut('endA', 30, 0, turn(), turn() / 2), endCut('endB', 370, 0, turn(), turn() / 2)]
    const piece = part('p', 400, 30 + rng.below(80), 15 + rng.below(30), operations)
    for (const cut of operations.filter(isEnd)) {
      const other = operations.filter(isEnd).find((op) => op !== cut)!
      const tips = corners(piece).map(([y, z]) => along(other, y, z))
      const tipX = other.end === 'endA' ? Math.min(...tips) : Math.max(...tips)
      for (const placing of endCutPlacings(piece, cut)) {
        const plane = cutPlaneOf(piece, placing, tipX)
        for (const [y, z] of corners(piece)) {
          expect(distanceMm(plane, [along(cut, y, z), y, z])).toBeLessThan(1e-6)
        }
        judged += 1
      }
    }
  }
  expect(judged).toBe(800)
})

describe('a notch', () => {
  const notch = (over: Partial<Notch> = {}): Notch => ({
    kind: 'notch',
    id: 'n',
    face: 'faceA',
    alongMm: 150,
    widthMm: 38,
    depthMm: 19,
    skewRad: 0,
    ...over,
  })

  test('square: the stop stands at the shoulder, the last pass a blade less than the width away', () => {
    const piece = part('p', 400, 45, 38, [notch()])
    const placing = notchPlacing(piece, notch(), 3.2, 40)
    expect(placing).toMatchObject({ stopMm: 131, sledAngleRad: 0, faceDown: 'faceA', atStop: 'endA' })
    expect(placing.travelMm).toBeCloseTo(38 - 3.2, 12)
  })

  test('at the rake: width / cos a along the part', () => {
    // Plane geometry (common practice): 38 mm at 5 degrees is 38.145 mm along the part.
    const placing = notchPlacing(part('p', 400, 45, 38), notch({ skewRad: RAKE }), 3.2, 40)
    expect(placing.travelMm + 3.2 / Math.cos(RAKE)).toBeCloseTo(38.145, 3)
    expect(Math.abs(placing.sledAngleRad)).toBeCloseTo(RAKE, 12)
  })

  test('parallel to the raked ends of a leg: stop at the tip, the distance that two parallel lines have', () => {
    const leg = rakedLeg()
    const start = leg.operations.filter(isEnd)[0].point[0]
    const op = notch({ alongMm: 200, skewRad: -RAKE })
    const both = [RAKE, -RAKE].map((skewRad) => notchPlacing(leg, { ...op, skewRad }, 3.2, 40))
    // On the centre line the leg begins half a width times tan a further in than on edge A.
    const centreStartMm = start - (45 / 2) * Math.tan(RAKE)
    const wantedMm = 200 - 38 / 2 / Math.cos(RAKE) - centreStartMm
    expect(both.some((placing) => Math.abs(placing.stopMm - wantedMm) < 1e-9)).toBe(true)
  })

  test('that opens at an end is measured from the other end', () => {
    const placing = notchPlacing(part('p', 400, 45, 38), notch({ alongMm: 19 }), 3.2, 40)
    expect(placing.atStop).toBe('endB')
    expect(placing.stopMm).toBeCloseTo(400 - 38, 9)
  })

  test('too near to one end for a stop is measured from the other', () => {
    expect(notchPlacing(part('p', 400, 45, 38), notch({ alongMm: 30 }), 3.2, 40).atStop).toBe('endB')
  })

  test('longer than the part is refused', () => {
    expect(() => notchPlacing(part('p', 30, 45, 38), notch({ alongMm: 15 }), 3.2, 40)).toThrow(RangeError)
  })
})
