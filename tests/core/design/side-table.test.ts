import { describe, expect, it } from 'vitest'
import { sideTable } from '#lib/core/design/designs/side-table/side-table'
import type { ParameterValues } from '#lib/core/design/model'
import { figureOf, modelOf, refusedFor } from './ask-design'

describe('side table', () => {
  it('adds up: legs under the top, aprons inside the legs', () => {
    const model = modelOf(sideTable, {
      height: 500,
      topThickness: 20,
      length: 500,
      depth: 400,
      overhang: 25,
      boardThickness: 19,
      legWidth: 65,
    })
    expect(figureOf(model, 'legLength')).toBe(480)
    expect(figureOf(model, 'longApron')).toBe(500 - 2 * 25 - 2 * 19)
    expect(figureOf(model, 'shortApron')).toBe(400 - 2 * 25 - 4 * 19)
    expect(figureOf(model, 'legSideBoard')).toBe(65 - 19)
    expect(figureOf(model, 'boardWidth')).toBe((400 - 3 * 3) / 4)
  })

  it('weighs what its boards weigh (red oak 705.6 kg/m3 at 12 %: 1000 × 0.63 × 1.12, Wood Handbook)', () => {
    const model = modelOf(sideTable, { species: 'redOak', apronWidth: 80, legWidth: 65, overhang: 25 })
    const legs = 4 * 480 * 19 * (65 + 46)
    const aprons = 2 * 80 * 19 * (412 + 274)
    const top = 500 * 391 * 20
    expect(figureOf(model, 'weight')).toBeCloseTo((legs + aprons + top) * 705.6e-9, 9)
  })

  it('joins long grain to long grain everywhere, and glues a top board only along an apron', () => {
    for (const joint of modelOf(sideTable).joints) {
      expect([joint.grainAtA, joint.grainAtB]).toEqual(['long', 'long'])
      if (joint.kind === 'onTop') expect(joint.glued).toBe(/front|back/.test(joint.id))
    }
  })

  it('an apron bears on its leg with its own width times what the angle leaves', () => {
    const model = modelOf(sideTable, { legWidth: 65, apronWidth: 80 })
    const area = (id: string) => model.joints.find((joint) => joint.id === id)?.contact.areaMm2
    expect(area('long-left-front')).toBeCloseTo((65 - 19) * 80, 6)
    expect(area('short-left-front')).toBeCloseTo((65 - 38) * 80, 6)
  })

  it.each<[string, ParameterValues, string]>([
    ['legs meet', { length: 280, legWidth: 120, boardThickness: 20 }, 'legWidth'],
    ['no bearing behind two boards', { legWidth: 50, boardThickness: 19 }, 'boardThickness'],
    ['aprons to the floor', { height: 300, apronWidth: 200 }, 'apronWidth'],
    ['slats too narrow', { topBoards: 12 }, 'topBoards'],
    ['first board misses the apron', { topBoards: 6, overhang: 20 }, 'overhang'],
    ['screw splits thin wood', { boardThickness: 12 }, 'screwSize'],
    ['leg screw comes out', { legScrewLength: 90 }, 'legScrewLength'],
    ['frame screw comes out of the leg', { frameScrewLength: 40 }, 'frameScrewLength'],
    ['frame screw too short', { frameScrewLength: 22 }, 'frameScrewLength'],
    ['top screw too short', { topScrewLength: 24 }, 'topScrewLength'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(sideTable, values)).toContain(parameter)
  })

  it('warns of wide boards held across and of gaps that close', () => {
    expect(modelOf(sideTable, { topBoards: 2 }).notices[0]).toMatchObject({
      level: 'caution',
      parameter: 'topBoards',
    })
    expect(modelOf(sideTable, { topGap: 0 }).notices[0]).toMatchObject({ parameter: 'topGap' })
  })
})
