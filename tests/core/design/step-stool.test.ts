import { describe, expect, it } from 'vitest'
import { stepStool } from '#lib/core/design/designs/step-stool/step-stool'
import type { ParameterValues } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

describe('step stool', () => {
  it('adds up: two equal rises, posts under their treads, bearers from post to post', () => {
    const model = modelOf(stepStool, {
      height: 440,
      treadThickness: 25,
      treadDepth: 220,
      overhang: 10,
      bearerThickness: 22,
    })
    expect(figureOf(model, 'rise')).toBe(220)
    expect(figureOf(model, 'longPost')).toBe(415)
    expect(figureOf(model, 'shortPost')).toBe(195)
    expect(figureOf(model, 'longBearer')).toBe(440 - 10 - 22 - 22)
    expect(figureOf(model, 'shortBearer')).toBe(440 - 220 - 10 - 22 - 22)
  })

  it('a post let in twice has its prism less both notches; one let in at its top is open there', () => {
    const model = modelOf(stepStool)
    const volume = (id: string) => massProperties(partOf(model, id)).volumeMm3
    expect(volume('post-left-middle')).toBeCloseTo(55 * 38 * 415 - 2 * 55 * 22 * 60, 6)
    expect(volume('post-right-front')).toBeCloseTo(55 * 38 * 195 - 55 * 22 * 60, 6)
  })

  it('every tread bears on both sides, every bearer is let in', () => {
    const { joints } = modelOf(stepStool, { treadBoards: 3, treadDepth: 260 })
    for (const side of ['left', 'right'])
      for (const level of ['lower', 'upper'])
        expect(joints.filter((joint) => joint.id.startsWith(`tread-${side}-${level}`))).toHaveLength(3)
    expect(joints.filter((joint) => joint.kind === 'letIn')).toHaveLength(10)
    for (const joint of joints) expect([joint.grainAtA, joint.grainAtB]).toEqual(['long', 'long'])
  })

  it.each<[string, ParameterValues, string]>([
    ['sides meet', { width: 280, postThickness: 60, overhang: 40 }, 'width'],
    ['bearers on the floor', { height: 280, bearerWidth: 90 }, 'bearerWidth'],
    ['posts meet', { treadDepth: 150, postWidth: 80 }, 'postWidth'],
    ['notch leaves too little', { bearerThickness: 30 }, 'bearerThickness'],
    ['tread boards too narrow', { treadBoards: 4, treadDepth: 150 }, 'treadBoards'],
    ['first board misses the bearers', { treadBoards: 4, overhang: 12 }, 'overhang'],
    ['screw splits a bearer', { bearerThickness: 12 }, 'screwSize'],
    ['screw comes out of a post', { bearerScrewLength: 37 }, 'bearerScrewLength'],
    ['tread screw comes out', { screwLength: 100 }, 'screwLength'],
    ['a ladder', { height: 700 }, 'height'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(stepStool, values)).toContain(parameter)
  })

  it('always says that people stand on it, and warns of a narrow or overhanging one', () => {
    const about = (values: ParameterValues) =>
      modelOf(stepStool, values).notices.map((notice) => notice.parameter)
    expect(about({})).toEqual(['height'])
    expect(about({ width: 290 })).toContain('width')
    expect(about({ overhang: 25 })).toContain('overhang')
  })
})
