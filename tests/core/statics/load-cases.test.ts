import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { sideTable } from '#lib/core/design/designs/side-table/side-table'
import { splayedStool } from '#lib/core/design/designs/splayed-stool/splayed-stool'
import type { Design, ParameterValues } from '#lib/core/design/model'
import { staticsFromModel } from '#lib/core/statics/from-model'
import { footRestPoint, loadCases, SEAT_LOADS } from '#lib/core/statics/load-cases'
import type { SeatLevel } from '#lib/core/statics/seat-levels'
import { checkStrength } from '#lib/core/statics/strength'

function modelOf(design: Design, values: ParameterValues = {}) {
  const built = design.build({ species: 'redOak', ...values })
  if (!built.ok) throw new Error(built.error[0].message)
  return built.value
}
function statics(design: Design, values: ParameterValues = {}) {
  const made = staticsFromModel(modelOf(design, values), { grade: 'sound', factor: 2 })
  if (!made.ok) throw new Error(made.error)
  return made.value
}
function report(level?: SeatLevel, values: ParameterValues = {}) {
  const made = checkStrength(modelOf(counterSeat, values), level === undefined ? {} : { level })
  if (!made.ok) throw new Error(made.error)
  return made.value
}

describe('how hard a seat is used', () => {
  // EN 12520, and EN 16139 levels 1 and 2, static loads after EN 1728: from memory of their tables.
  it.each([
    ['home', 1300, 1300, 1300, 400, 300],
    ['public', 1600, 1300, 1300, 500, 400],
    ['hard', 2000, 1600, 1600, 620, 760],
  ] as const)('%s: seat %d, edge %d, footrest %d, leg forward %d, sideways %d N', (level, ...loads) => {
    const { staticN, edgeN, footRestN, legForwardN, legSidewaysN } = SEAT_LOADS[level]
    expect([staticN, edgeN, footRestN, legForwardN, legSidewaysN]).toEqual(loads)
    const sizes = loadCases(statics(counterSeat), level).map(({ id, sizeN }) => [id.split('-')[0], sizeN])
    expect(sizes).toContainEqual(['seat', staticN])
    expect(sizes).toContainEqual(['footrest', footRestN])
    expect(sizes).toContainEqual(['push', legForwardN])
    expect(sizes).toContainEqual(['push', legSidewaysN])
  })

  it('is at home unless it is said, names its standard, and asks more in public', () => {
    const bending = (level?: SeatLevel) => {
      const { checks } = report(level)
      const check = checks.find(({ id }) => id === 'bending/seat1-board-2')!
      return { demand: check.demand, source: check.sources[0].source }
    }
    expect(bending()).toEqual(bending('home'))
    expect(bending('home').source).toMatch(/^EN 12520/)
    expect(bending('public').source).toMatch(/^EN 16139 level 1/)
    expect(bending('hard').demand).toBeGreaterThan(bending('home').demand)
  })
})

describe('feet', () => {
  it('that lift while it stands on the others are said; a seat that is sat on in the middle lifts none', () => {
    const made = checkStrength(modelOf(sideTable))
    if (!made.ok) throw new Error(made.error)
    const [note] = made.value.notes.filter((one) => one.startsWith('Feet come off the floor'))
    expect(note).toMatch(/pushed forwards \(\d of 8 places\)/)
    expect(note).not.toMatch(/loaded in the middle/)
    expect(report().notes.some((one) => one.startsWith('Feet come off'))).toBe(false)
  })

  it('a sole stands on the middle of a narrow rail, and 20 mm inside the edge of a wide tread', () => {
    const seat = statics(counterSeat)
    const rail = seat.parts.get('seat1-rail-back')!.axis
    const on = footRestPoint(seat, 'seat1-rail-back')
    // The rail leans with the legs: the middle of its upper edge, half its width along the lean from its middle.
    expect(on[0]).toBeCloseTo(rail.centre[0], 6)
    expect(Math.hypot(on[1] - rail.centre[1], on[2] - rail.centre[2])).toBeCloseTo(30, 6)
    expect(on[2]).toBeGreaterThan(rail.centre[2])
    const stool = statics(splayedStool, { treadWidth: 70 })
    const tread = stool.parts.get('tread-left')!.axis
    const foot = footRestPoint(stool, 'tread-left')
    expect(Math.hypot(foot[0] - tread.centre[0], foot[1] - tread.centre[1])).toBeCloseTo(15, 6)
    expect(Math.abs(foot[0])).not.toBeCloseTo(Math.abs(tread.centre[0]), 3)
  })
})

it('a push that would tip the piece is eased until it stands (EN 1728, from memory)', () => {
  const light = report('home', { rake: 2, seatDepth: 340 })
  expect(light.cases.filter(({ what }) => what === 'eased').length).toBeGreaterThan(0)
  for (const { what, share } of light.cases) if (what === 'eased') expect(share).toBeLessThan(1)
})
