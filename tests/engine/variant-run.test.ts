import { describe, expect, test } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { checkStrength } from '#lib/core/statics/strength'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { answerVariant, type VariantAsk } from '#lib/engine/variant-run'
import { cutShop, setupShop } from '#lib/shop/machines'
import type { VariantShop } from '#lib/shop/variant-figures'

const ALLOWANCES = { lengthAllowanceUm: 2_000, widthAllowanceUm: 3_000, skimUm: 500, endTrimUm: 10_000 }
const shop: VariantShop = {
  cut: cutShop(ALLOWANCES, []),
  setups: setupShop([]),
  prices: { currency: 'EUR', softwoodPerM3Minor: 60_000, hardwoodPerM3Minor: null },
}

const ask = (asked: VariantAsk, tell?: (done: number) => void) => answerVariant(asked, loadSolidKernel, tell)

describe.each(designs.map((d) => [d.id, d] as const))('%s', (designId, design) => {
  test('its strength is what the Strength page says, and the answer can be sent by a worker', async () => {
    const told: number[] = []
    const answer = await ask({ kind: 'figures', designId, parameters: {}, shop }, (done) => told.push(done))
    if (!answer.ok || answer.value.kind !== 'figures') throw new Error('no figures')
    const { strength, figures } = answer.value.sum
    const built = design.build({})
    const report = built.ok ? checkStrength(built.value) : built
    if (typeof strength === 'string') expect(report).toMatchObject({ ok: false })
    else {
      const safety = report.ok ? report.value.checks.filter(({ weight }) => weight === 'safety') : []
      expect(strength.margin).toBe(Math.min(...safety.map(({ margin }) => margin)))
      expect(safety.map(({ title }) => title)).toContain(strength.check)
    }
    expect(figures.parts).toBeGreaterThan(2)
    expect(figures.settingSeconds).toBeGreaterThan(0)
    expect(told).toEqual([0, 1])
    expect(structuredClone(answer.value)).toEqual(answer.value)
  })
})

test.each([
  ['a design that is gone', { designId: 'gone', parameters: {} }],
  ['numbers that make no piece', { designId: 'counterSeat', parameters: { rake: -20 } }],
])('%s: a sentence, no number', async (_, asked) => {
  const answer = await ask({ kind: 'figures', shop, ...asked })
  expect(answer.ok ? '' : answer.error).toMatch(/\w.*\.$/)
})

test('how far a number may go, and a number that is not there', async () => {
  const asked = { kind: 'stops', designId: 'counterSeat', parameters: {} } as const
  const answer = await ask({ ...asked, parameterId: 'rake' })
  if (!answer.ok || answer.value.kind !== 'stops') throw new Error('no stops')
  expect(answer.value.stops!.low.value).toBeLessThan(answer.value.stops!.high.value)
  expect((await ask({ ...asked, parameterId: 'turbo' })).ok).toBe(false)
})

test('a picture, and the part at a place of it', async () => {
  const asked = { designId: 'counterSeat', parameters: { abreast: 1 } } as const
  const answer = await ask({ ...asked, kind: 'picture', from: 'front' })
  if (!answer.ok || answer.value.kind !== 'picture') throw new Error('no picture')
  expect(answer.value.picture.lines.length).toBeGreaterThan(20)
  expect(answer.value.centres['seat1-leg-left-front'][0]).toBeLessThan(0.5)
  expect(answer.value.centres['seat1-leg-right-front'][0]).toBeGreaterThan(0.5)
  const above = await ask({ ...asked, kind: 'picture', from: 'top' })
  if (!above.ok || above.value.kind !== 'picture') throw new Error('no picture')
  const at = above.value.centres['seat1-board-2']
  const there = await ask({ ...asked, kind: 'partAt', from: 'top', at })
  expect(there).toEqual({ ok: true, value: { kind: 'partAt', partId: 'seat1-board-2' } })
  const beside = await ask({ ...asked, kind: 'partAt', from: 'front', at: [0, 0] })
  expect(beside).toEqual({ ok: true, value: { kind: 'partAt', partId: null } })
})
