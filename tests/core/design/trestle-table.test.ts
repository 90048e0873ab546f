import { describe, expect, it } from 'vitest'
import { trestleTable } from '#lib/core/design/designs/trestle-table/trestle-table'
import type { ParameterValues } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

const DEG = Math.PI / 180

describe('trestle table', () => {
  it('legs 610 mm high at 5° are 612.33 mm, feet 53.37 mm out; tops 580 mm apart make 686.74 mm (h / cos a, h tan a)', () => {
    const model = modelOf(trestleTable, {
      height: 635,
      topThickness: 25,
      rake: 5,
      depth: 680,
      sideOverhang: 50,
    })
    expect(figureOf(model, 'legLength')).toBeCloseTo(612.33, 2)
    expect(figureOf(model, 'footOffset')).toBeCloseTo(53.37, 2)
    expect(figureOf(model, 'footSpread')).toBeCloseTo(686.74, 2)
  })

  it('legs at 7° standing 620 mm have their feet 76.13 mm out (h tan a)', () => {
    const model = modelOf(trestleTable, { height: 645, topThickness: 25, rake: 7 })
    expect(figureOf(model, 'footOffset')).toBeCloseTo(76.13, 2)
  })

  it('a bearer 76 mm wide takes 76.290 mm along a leg raked 5° (w / cos a); its shoulders and ends are at 5°', () => {
    const model = modelOf(trestleTable, { rake: 5, bearerWidth: 76 })
    expect(figureOf(model, 'notchAlong')).toBeCloseTo(76.29, 2)
    const notches = partOf(model, 'leg-left-front').operations.filter((op) => op.kind === 'notch')
    expect(notches).toHaveLength(2)
    for (const notch of notches) {
      expect(Math.abs(notch.skewRad)).toBeCloseTo(5 * DEG, 12)
      expect(notch.widthMm).toBeCloseTo(76, 9)
      expect(notch.depthMm).toBeCloseTo(20, 9)
    }
    for (const op of partOf(model, 'bearer-right').operations)
      if (op.kind === 'endCut')
        expect([Math.abs(op.mitreRad), Math.abs(op.bevelRad)]).toEqual([
          expect.closeTo(5 * DEG, 12),
          expect.closeTo(0, 12),
        ])
  })

  it('a leg has the volume of its parallelogram less two notches', () => {
    const model = modelOf(trestleTable)
    const a = 8 * DEG
    const leg = (715 / Math.cos(a)) * 70 * 58 - 2 * (75 / Math.cos(a)) * 70 * 20
    expect(massProperties(partOf(model, 'leg-right-back')).volumeMm3).toBeCloseTo(leg, 3)
  })

  it('the aprons lie on the slope of the legs, below the top', () => {
    const model = modelOf(trestleTable)
    const lap = model.joints.find((joint) => joint.id === 'apron-left-front')!
    // Beside it ends the bearer, flush in its notch: 58 less 20 of the leg are left for the apron.
    expect(lap.contact.areaMm2).toBeGreaterThan(90 * 38 - 1)
    expect(lap.glued).toBe(false)
    expect(lap.contact.normal[2]).toBeCloseTo(-Math.sin(8 * DEG), 12)
  })

  it.each<[string, ParameterValues, string]>([
    ['legs cross', { depth: 450, legWidth: 120, sideOverhang: 90, topBoards: 3 }, 'legWidth'],
    ['trestles meet', { length: 700, endOverhang: 300 }, 'endOverhang'],
    ['notch leaves too little', { bearerThickness: 40 }, 'bearerThickness'],
    ['low rails on the floor', { railHeight: 100, bearerWidth: 90 }, 'railHeight'],
    ['low rails under the aprons', { height: 500, railHeight: 400 }, 'railHeight'],
    ['stretcher between the legs', { depth: 450, stretcherWidth: 200 }, 'stretcherWidth'],
    ['aprons past the top', { apronThickness: 40, sideOverhang: 25 }, 'sideOverhang'],
    ['boards too narrow', { topBoards: 14, depth: 600 }, 'topBoards'],
    ['first board misses the bearers', { topBoards: 10, sideOverhang: 60 }, 'sideOverhang'],
    ['screw splits a bearer', { bearerThickness: 14 }, 'screwSize'],
    ['bearer screw comes out', { bearerScrewLength: 57 }, 'bearerScrewLength'],
    ['legs lean inwards', { rake: -4 }, 'rake'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(trestleTable, values)).toContain(parameter)
  })

  it('warns of long ends, of wide boards and of tight knees', () => {
    const about = (values: ParameterValues) =>
      modelOf(trestleTable, values).notices.map((notice) => notice.parameter)
    expect(about({})).toEqual([])
    expect(about({ endOverhang: 400 })).toContain('endOverhang')
    expect(about({ topBoards: 4 })).toContain('topBoards')
    expect(about({ apronWidth: 120 })).toContain('apronWidth')
  })
})
