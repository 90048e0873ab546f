import { describe, expect, it } from 'vitest'
import { crate } from '#lib/core/design/designs/crate/crate'
import type { ParameterValues } from '#lib/core/design/model'
import { figureOf, modelOf, refusedFor } from './ask-design'

describe('storage crate', () => {
  it('adds up: slats and gaps fill the sides, inside is outside less two slats', () => {
    const model = modelOf(crate, {
      length: 450,
      width: 320,
      height: 280,
      thickness: 14,
      slats: 3,
      slatGap: 10,
      gripGap: 32,
    })
    expect(figureOf(model, 'longSlat')).toBeCloseTo((266 - 2 * 10) / 3, 9)
    expect(figureOf(model, 'endSlat')).toBeCloseTo((266 - 10 - 32) / 3, 9)
    expect(figureOf(model, 'insideLength')).toBe(422)
    expect(figureOf(model, 'insideWidth')).toBe(292)
    expect(figureOf(model, 'cleatLength')).toBe(320 - 28 - 64)
  })

  it('weighs its boards (red oak 705.6 kg/m3 at 12 %)', () => {
    const model = modelOf(crate, { species: 'redOak', length: 450, width: 320, height: 280 })
    const slats = 2 * 3 * 82 * 450 * 14 + 2 * 3 * (224 / 3) * 292 * 14
    const posts = 4 * 32 * 32 * 266 + 2 * 32 * 32 * 228
    expect(figureOf(model, 'weight')).toBeCloseTo((slats + posts + 312 * 450 * 14) * 705.6e-9, 9)
  })

  it('leaves the grip at each end and joins long grain to long grain', () => {
    const model = modelOf(crate, { gripGap: 40 })
    const [below, top] = ['slat-left-2', 'slat-left-3'].map(
      (id) => model.parts.find((part) => part.id === id)!,
    )
    const lowZ = (part: typeof top) =>
      Math.min(part.frame.origin[2], part.frame.origin[2] + part.frame.y[2] * part.blank.widthMm)
    expect(lowZ(top) - lowZ(below) - below.blank.widthMm).toBeCloseTo(40, 9)
    for (const joint of model.joints) expect([joint.grainAtA, joint.grainAtB]).toEqual(['long', 'long'])
  })

  it.each<[string, ParameterValues, string]>([
    ['posts meet', { width: 180, post: 60 }, 'post'],
    ['slats too narrow', { slats: 7 }, 'slats'],
    ['bottom boards miss the cleats', { bottomBoards: 5 }, 'bottomBoards'],
    ['screws split a post', { post: 22, screwSize: 'no10' }, 'screwSize'],
    ['screw comes out', { screwLength: 50 }, 'screwLength'],
    ['screw too short', { screwLength: 20 }, 'screwLength'],
    ['no room for fingers', { gripGap: 15 }, 'gripGap'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(crate, values)).toContain(parameter)
  })

  it('says what it weighs when full, and warns above 23 kg (NIOSH lifting equation)', () => {
    expect(modelOf(crate, { length: 600, height: 350 }).notices[0].level).toBe('caution')
    expect(modelOf(crate, {}).notices[0].level).toBe('note')
  })
})
