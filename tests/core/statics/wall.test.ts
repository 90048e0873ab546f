// What hangs on a wall, against the statics of the whole piece.
import { describe, expect, it } from 'vitest'
import { wallShelf } from '#lib/core/design/designs/wall-shelf/wall-shelf'
import type { Model, ParameterValues } from '#lib/core/design/model'
import { checkStrength, studyStrength } from '#lib/core/statics/strength'
import { verifyFrame } from '#lib/core/statics/verify-frame'
import { wallSupports } from '#lib/core/statics/wall'

function shelf(values: ParameterValues = {}): Model {
  const built = wallShelf.build({ species: 'redOak', ...values })
  if (!built.ok) throw new Error(built.error[0].message)
  return built.value
}
function studyOf(model: Model) {
  const study = studyStrength(model)
  if (!study.ok) throw new Error(study.error)
  return study.value
}

describe('a shelf on a wall', () => {
  const { model, results, report } = studyOf(shelf())
  const { fixings, contacts } = model.wall!
  const of = (name: string) => results.find(({ loadCase }) => loadCase.name === name)!
  const sum = (values: readonly number[]) => values.reduce((a, b) => a + b, 0)

  it('is screwed through its rail near every bracket; uprights and ends of arms and braces only press', () => {
    expect(fixings.map(({ partId }) => partId)).toEqual(['rail', 'rail'])
    const pressing = new Set(contacts.map((node) => node.replace(/-\d@\d+$/, '')))
    expect([...pressing].sort()).toEqual(['arm', 'brace', 'upright'])
    expect(report.tipping).toBeUndefined()
  })

  // Statics: the fixings bear all the weight; about them, the load's lever from the wall is that of the pull.
  it('full: the fixings bear the whole weight, and the uprights press as moments say', () => {
    const { result } = of('Every shelf full, for years')
    const loadN = 0.001 * 900 * (260 - 3)
    const along = sum(fixings.map(({ node }) => result.reactions.get(node)![2]))
    expect(along).toBeCloseTo(loadN + model.weightN, 6)
    const pull = sum(fixings.map(({ node }) => result.reactions.get(node)![1]))
    const pressing = contacts.map((node) => ({
      pushN: -(result.reactions.get(node)?.[1] ?? 0),
      at: model.frame.nodes.find(({ id }) => id === node)!.at,
    }))
    expect(pull).toBeCloseTo(sum(pressing.map(({ pushN }) => pushN)), 6)
    const [, y, z] = model.frame.nodes.find(({ id }) => id === fixings[0].node)!.at
    const turning = loadN * (y - 130) + model.weightN * (y - model.centre[1])
    const held = sum(pressing.map(({ pushN, at }) => pushN * (z - at[2])))
    expect(Math.abs(held / turning - 1)).toBeLessThan(0.01)
  })

  it('under every load nothing pulls at the wall but fixings, and the independent check agrees', () => {
    const upper = contacts.filter(
      (node) => model.frame.nodes.find(({ id }) => id === node)!.at[2] > fixings[0].at[2],
    )
    expect(upper.length).toBeGreaterThan(1)
    for (const { result, frameCase } of results) {
      expect(result.status).toBe('held')
      const pressing = contacts.filter((node) => result.reactions.has(node))
      for (const node of pressing) expect(result.reactions.get(node)![1]).toBeLessThan(1e-6)
      for (const node of contacts) expect(result.nodes.get(node)![1]).toBeLessThan(1e-6)
      const frame = {
        ...model.frame,
        supports: wallSupports(model.wall!, new Set(pressing)),
        cases: [frameCase],
      }
      expect(verifyFrame(frame, frameCase, result)).toEqual([])
    }
    expect(upper.some((node) => of('Every shelf full, for years').result.reactions.has(node))).toBe(false)
  })

  it('tells what the hardest loaded fixing must bear, as a condition and without a capacity', () => {
    const check = report.checks.find(({ kind }) => kind === 'wall')!
    expect(check).toMatchObject({ weight: 'condition', passes: false, capacity: 0, margin: 0 })
    expect(check.sentence).toMatch(/^2 fixings into the wall are counted on, in «Wall rail»/)
    expect(check.sentence).toMatch(/What a wall bears is not known here/)
    expect(report.verdict).toBe('passes')
    expect(report.conditions).toEqual(['once it is fixed to a wall that bears it'])
    expect(report.wall!.fixings).toHaveLength(2)
  })

  it('hung higher it bears the same; deeper it pulls harder', () => {
    const pull = (values: ParameterValues) =>
      Math.max(...studyOf(shelf(values)).report.wall!.fixings.map(({ pullN }) => pullN))
    expect(pull({ mountHeight: 2000 })).toBeCloseTo(pull({}), 6)
    expect(pull({ depth: 320 })).toBeGreaterThan(pull({}))
  })
})

describe('without a rail', () => {
  it('each upright is screwed near both of its ends', () => {
    const whole = shelf()
    const bare: Model = {
      ...whole,
      parts: whole.parts.filter(({ id }) => id !== 'rail'),
      joints: whole.joints.filter(({ a, b }) => a !== 'rail' && b !== 'rail'),
    }
    const { model, report } = studyOf(bare)
    expect(model.wall!.fixings.map(({ partId }) => partId)).toEqual([
      ...['upright-1', 'upright-1', 'upright-2', 'upright-2'],
    ])
    expect(report.checks.some(({ kind }) => kind === 'wall')).toBe(true)
  })

  it('what does not touch its wall is refused in a sentence, with no number', () => {
    const away = shelf()
    const made = checkStrength({
      ...away,
      place: away.place.map((box) => ({ ...box, min: [box.min[0], box.min[1] + 50, box.min[2]] })),
    })
    expect(made.ok ? '' : made.error).toBe('No part is fixed to the wall.')
  })
})
