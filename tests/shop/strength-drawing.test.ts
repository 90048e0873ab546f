import { describe, expect, test } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { area } from '#lib/core/geometry/polygon2'
import { checkStrength } from '#lib/core/statics/strength'
import { feetDrawing, onElevation, shapeDrawing, svgPoints, timesLarger } from '#lib/shop/strength-drawing'

const box = { partId: 'box', name: 'Box', kind: 'box', corners: cornersOf(400, 300, 600) }

function cornersOf(x: number, y: number, z: number) {
  return [0, x].flatMap((a) => [0, y].flatMap((b) => [0, z].map((c) => [a, b, c] as const)))
}

const lineTo = (dx: number, dy: number) => ({
  loadCase: 'Pushed',
  mostMm: Math.hypot(dx, dy),
  lines: [
    {
      partId: 'box',
      rest: [[0, 0, 0] as const, [0, 0, 600] as const],
      moved: [[0, 0, 0] as const, [dx, dy, 600] as const],
    },
  ],
})

describe('an elevation', () => {
  test('how many times larger: 1, 2, 5, 10…, never beyond the room', () => {
    expect(timesLarger(0.4, 50)).toBe(100)
    expect(timesLarger(7.6, 60)).toBe(5)
    expect(timesLarger(90, 50)).toBe(1)
    expect(timesLarger(0, 50)).toBe(1)
    for (const most of [0.03, 0.7, 2, 11]) {
      const times = timesLarger(most, 54)
      expect(times * most).toBeLessThanOrEqual(54)
      expect(times * most * 2.5).toBeGreaterThan(54)
    }
  })

  test('up is up, and the view is the one that shows the movement', () => {
    expect(onElevation('front', [1, 2, 3])).toEqual([1, -3])
    expect(onElevation('side', [1, 2, 3])).toEqual([2, -3])
    expect(shapeDrawing([box], lineTo(3, 1), [0, 0, 600]).view).toBe('front')
    expect(shapeDrawing([box], lineTo(1, 3), [0, 0, 600]).view).toBe('side')
  })

  test('the moved line is drawn the said times larger, inside the frame', () => {
    const { deflected, box: frame, parts, mark } = shapeDrawing([box], lineTo(3, 0), [400, 0, 600])
    const [, top] = deflected!.lines[0]
    // 9 % of 600 mm is 54 mm of room for 3 mm: ten times.
    expect(deflected!.times).toBe(10)
    expect(top).toEqual([30, -600])
    expect(mark).toEqual([400, -600])
    expect(Math.abs(area(parts[0].outline))).toBeCloseTo(400 * 600, 6)
    expect(frame).toEqual({ x: -30, y: -630, width: 460, height: 660 })
  })

  test('without a load nothing is bent', () => {
    expect(shapeDrawing([box], undefined, [0, 0, 0]).deflected).toBeUndefined()
  })
})

test('the feet from above: the weight inside, the arrow away from it, across the line', () => {
  const model = counterSeat.build({ species: 'redOak', abreast: 1 })
  const report = model.ok ? checkStrength(model.value) : model
  if (!report.ok) throw new Error('the seat cannot be judged')
  const { support, arrow, line, centre, box: frame } = feetDrawing(report.value.tipping!)!
  const xs = support.map(([x]) => x)
  expect(centre[0]).toBeGreaterThan(Math.min(...xs))
  expect(centre[0]).toBeLessThan(Math.max(...xs))
  const [tail, tip] = arrow
  const away = (p: readonly number[]) => Math.hypot(p[0] - centre[0], p[1] - centre[1])
  expect(away(tip)).toBeGreaterThan(away(tail))
  const along = [line[1][0] - line[0][0], line[1][1] - line[0][1]]
  expect(along[0] * (tip[0] - tail[0]) + along[1] * (tip[1] - tail[1])).toBeCloseTo(0, 6)
  for (const [x, y] of [tip, tail, ...support]) {
    expect(x).toBeGreaterThanOrEqual(frame.x)
    expect(x).toBeLessThanOrEqual(frame.x + frame.width)
    expect(y).toBeGreaterThanOrEqual(frame.y)
    expect(y).toBeLessThanOrEqual(frame.y + frame.height)
  }
  expect(svgPoints([[1.26, 2]])).toBe('1.3,2')
})
