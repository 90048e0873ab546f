import { describe, expect, test } from 'vitest'
import { sideTableRecipe } from '#lib/core/design/designs/side-table/side-table-recipe'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { CAUTION } from '#lib/core/statics/sources'
import { ownDesign } from '#lib/engine/own-design'
import { answerAsk, type StrengthAsk } from '#lib/engine/strength-run'

const seat = { designId: 'counterSeat', parameters: { species: 'redOak', abreast: 1 }, options: {} } as const

function answer<K extends StrengthAsk['kind']>(ask: StrengthAsk & { kind: K }, onProgress?: () => void) {
  const made = answerAsk(ask, onProgress)
  if (!made.ok) throw new Error(made.error)
  return made.value as Extract<typeof made.value, { kind: K }>
}

describe('what a page asks about strength', () => {
  test('a study can be sent by a worker, and carries its caution and its drawings', () => {
    const { sheet } = structuredClone(answer({ kind: 'study', ...seat }))
    expect(sheet.report.caution).toBe(CAUTION)
    expect(sheet.report.checks.length).toBeGreaterThan(50)
    expect(sheet.shapes.some(({ loadCase }) => loadCase === sheet.report.checks[0].loadCase)).toBe(true)
    const ids = new Set(sheet.parts.map(({ partId }) => partId))
    for (const { where } of sheet.report.checks)
      for (const id of where.partIds) expect(ids.has(id), id).toBe(true)
  })

  test('the grade of salvage and the air of the year change the answer', () => {
    const marginsOf = (options: StrengthAsk['options']) =>
      new Map(
        answer({ kind: 'study', ...seat, options }).sheet.report.checks.map(({ id, margin }) => [id, margin]),
      )
    const [clear, knotty] = [marginsOf({ grade: 'clear' }), marginsOf({ grade: 'knotty' })]
    const bending = [...clear.keys()].find((id) => id.startsWith('bending/'))!
    expect(knotty.get(bending)!).toBeLessThan(clear.get(bending)!)
    const damp = marginsOf({ damp: { tempC: 21, humidity: 0.8 } })
    const moving = [...clear.keys()].find((id) => id.startsWith('movement/'))!
    expect(damp.get(moving)!).toBeCloseTo(marginsOf({}).get(moving)!, 6)
    const growth = (options: StrengthAsk['options']) =>
      answer({ kind: 'study', ...seat, options }).sheet.report.movement.parts[0].growthMm
    expect(growth({ damp: { tempC: 21, humidity: 0.8 } })).toBeGreaterThan(growth({}))
  })

  test('a cure makes its check pass when the piece is judged again with it', () => {
    const weak = { ...seat, parameters: { ...seat.parameters, species: 'ponderosaPine' } }
    const before = answer({ kind: 'study', ...weak }).sheet.report
    const failing = before.checks.find(({ passes }) => !passes)!
    let told = 0
    const { report } = answer({ kind: 'cure', ...weak, checkId: failing.id }, () => told++)
    expect(report.status).toBe('done')
    expect(told).toBe(report.tried)
    expect(report.cures.length).toBeGreaterThan(0)
    const [{ parameter, to, from }] = report.cures
    expect(to).not.toBe(from)
    const parameters = { ...weak.parameters, [parameter]: to }
    const after = answer({ kind: 'study', ...weak, parameters }).sheet.report
    expect(after.checks.find(({ id }) => id === failing.id)!.passes).toBe(true)
  })

  test('an open wood is tried in every wood at once, a named one when asked', () => {
    const open = { ...seat, parameters: { ...seat.parameters, species: 'any' } }
    const { woods } = answer({ kind: 'study', ...open }).sheet
    expect(woods.some(({ passes }) => passes)).toBe(true)
    expect(woods.some(({ passes }) => !passes)).toBe(true)
    expect(answer({ kind: 'study', ...seat }).sheet.woods).toEqual([])
    expect(answer({ kind: 'woods', ...seat }).woods).toEqual(woods)
  })

  test('a range is the same for the same seed, and wider than a point', () => {
    const ask = { kind: 'scatter', ...seat, seed: 1, draws: 300 } as const
    const { report } = answer(ask)
    expect(answer(ask).report).toEqual(report)
    expect(report.draws).toBe(300)
    for (const { low, middle, high } of report.checks) {
      expect(low).toBeLessThan(middle)
      expect(middle).toBeLessThan(high)
    }
  })

  test('ways to join are those that the design offers', () => {
    const { comparison } = answer({ kind: 'compare', ...seat })
    expect(new Set(comparison.ways.map(({ choices }) => choices.joint)).size).toBe(2)
    const { comparison: none } = answer({ kind: 'compare', ...seat, designId: 'sideTable', parameters: {} })
    expect(none.ways.length).toBeLessThan(2)
  })

  test('what cannot be judged gets a sentence and no number', () => {
    for (const ask of [
      { kind: 'study', ...seat, designId: 'nothing' },
      { kind: 'study', ...seat, parameters: { species: 'redOak', abreast: -4 } },
      { kind: 'cure', ...seat, checkId: 'no/such' },
    ] as const) {
      const made = answerAsk(ask)
      expect(made.ok ? '' : made.error).toMatch(/\.$/)
    }
  })
})

describe('wrong or missing input gives a sentence and no number', () => {
  const NAME = 'own:6f1d2a34-0000-4000-8000-000000000001@1'
  const [angle, ...otherJoints] = sideTableRecipe.joints
  const [leg, ...otherParts] = sideTableRecipe.parts
  const FAULTS: readonly (readonly [string, Partial<Recipe>, RegExp])[] = [
    [
      'a joint without screws and glue',
      { joints: [{ ...angle, glued: false, screws: undefined }, ...otherJoints] },
      /^Nothing holds «.+» to «.+»: the joint has no screws and no glue\.$/,
    ],
    ['a leg that touches nothing', { joints: otherJoints.slice(1) }, /touch(es)? nothing: no joint holds/],
    [
      'a wood that the table lacks',
      { parts: [{ ...leg, species: 'ironwood' }, ...otherParts] },
      /^The species «ironwood» of «.+» is not in the table/,
    ],
    [
      'a piece that hangs in the air',
      { parts: sideTableRecipe.parts.map((part) => ({ ...part, z: `${part.z} + 100 mm` })) },
      /^No part stands on the floor\.$/,
    ],
  ]
  test.each(FAULTS)('%s', (_, fault, sentence) => {
    const design = ownDesign(NAME, { ...sideTableRecipe, ...fault })
    expect(design).toBeDefined()
    for (const kind of ['study', 'woods'] as const) {
      const made = answerAsk({ kind, designId: NAME, parameters: {}, options: {} }, undefined, design)
      // Every part of one wood: a wood that the table lacks does not matter there.
      if (kind === 'woods' && /ironwood/.test(sentence.source)) continue
      expect(made.ok).toBe(false)
      if (made.ok) return
      expect(made.error).toMatch(sentence)
      expect(made.error).not.toMatch(/\d (mm|N|MPa)|NaN|undefined/)
    }
  })
})
