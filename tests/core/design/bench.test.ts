import { describe, expect, it } from 'vitest'
import { bench } from '#lib/core/design/designs/bench/bench'
import type { ParameterValues } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

const DEG = Math.PI / 180

describe('board bench', () => {
  it('ends 610 mm high that lean 5° are 612.33 mm along a face, feet 53.37 mm out (h / cos a, h tan a; plane trigonometry)', () => {
    const model = modelOf(bench, { height: 635, seatThickness: 25, rake: 5 })
    expect(figureOf(model, 'legLength')).toBeCloseTo(612.33, 2)
    expect(figureOf(model, 'footOffset')).toBeCloseTo(53.37, 2)
  })

  it('bevels both ends of an upright by the lean, and mitres the aprons by it', () => {
    const model = modelOf(bench, { rake: 5 })
    const cuts = (id: string) => partOf(model, id).operations.filter((op) => op.kind === 'endCut')
    for (const cut of cuts('end-left-1')) {
      expect(Math.abs(cut.bevelRad)).toBeCloseTo(5 * DEG, 12)
      expect(Math.abs(cut.mitreRad)).toBeCloseTo(0, 12)
    }
    for (const cut of cuts('apron-front')) {
      expect(Math.abs(cut.mitreRad)).toBeCloseTo(5 * DEG, 12)
      expect(Math.abs(cut.bevelRad)).toBeCloseTo(0, 12)
    }
  })

  it('a notch for an apron 76 mm wide is 76.290 mm along the edge at 5° (w / cos a), with its shoulder at 5°', () => {
    const model = modelOf(bench, { rake: 5, apronWidth: 76 })
    expect(figureOf(model, 'notchAlong')).toBeCloseTo(76.29, 2)
    const [notch] = partOf(model, 'end-right-2').operations.filter((op) => op.kind === 'notch')
    expect(notch).toMatchObject({ face: 'edgeA', jointId: 'apron-back-right' })
    expect(notch.widthMm).toBeCloseTo(76, 9)
    expect(notch.depthMm).toBeCloseTo(20, 9)
    expect(Math.abs(notch.skewRad)).toBeCloseTo(5 * DEG, 12)
  })

  it('an upright has the volume of its parallelogram less the notch, an apron that of its trapezium', () => {
    const model = modelOf(bench, { rake: 8, apronWidth: 90 })
    const [h, t, a] = [425, 28, 8 * DEG]
    const upright = (h / Math.cos(a)) * t * 145 - (90 / Math.cos(a)) * t * 20
    expect(massProperties(partOf(model, 'end-left-1')).volumeMm3).toBeCloseTo(upright, 2)
    const apron = ((920 + 920 + 2 * 90 * Math.tan(a)) / 2) * 90 * 20
    expect(massProperties(partOf(model, 'apron-front')).volumeMm3).toBeCloseTo(apron, 2)
  })

  it.each<[string, ParameterValues, string]>([
    ['aprons to the floor', { height: 250, apronWidth: 150 }, 'apronWidth'],
    ['ends meet', { length: 400, endOverhang: 150 }, 'endOverhang'],
    ['battens too many', { length: 600, battens: 5 }, 'endOverhang'],
    ['upright boards too narrow', { legBoards: 5, depth: 200 }, 'legBoards'],
    ['notches eat the upright', { legBoards: 5, apronThickness: 32, depth: 300 }, 'apronThickness'],
    ['seat boards too narrow', { seatBoards: 8 }, 'seatBoards'],
    ['first board misses the batten', { seatBoards: 5, sideOverhang: 40 }, 'sideOverhang'],
    ['screw splits an apron', { apronThickness: 12 }, 'screwSize'],
    ['seat screw out of the apron', { seatScrewLength: 130 }, 'seatScrewLength'],
    ['batten screw out of the seat', { battenScrewLength: 44 }, 'battenScrewLength'],
    ['apron screw too short', { apronScrewLength: 24 }, 'apronScrewLength'],
    ['feet under the seat', { rake: -2 }, 'rake'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(bench, values)).toContain(parameter)
  })

  it('stops a seat that tips when somebody sits on its end', () => {
    expect(modelOf(bench, { rake: 0, endOverhang: 250 }).notices[0]).toMatchObject({
      level: 'stop',
      parameter: 'endOverhang',
    })
    expect(modelOf(bench, { endOverhang: 45 }).notices).toEqual([])
  })
})
