import { beforeAll, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import { type FinishPlan, usualPlan } from '#lib/core/finish/finish-plan'
import { finish } from '#lib/data/builds'
import { ofVariant, save } from '#lib/data/finish-plans'
import { chosen } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { member, shop } from './arrange'
import { must, started } from './arrange-build'

let maker: Actor
beforeAll(async () => {
  await shop()
  maker = await member('member', 'Noor')
})

const model = designById('counterSeat')!.build({})
if (!model.ok) throw new Error('must build')
const usual = usualPlan(model.value)

async function fresh() {
  const buildId = await started(maker)
  const variant = must(await chosen(maker, { buildId }))
  return { buildId, variantId: variant.id }
}
const codeOf = (r: Awaited<ReturnType<typeof save>>) => (r.ok ? 'ok' : r.error.code)

test('none at first; kept as it was sent; seen by another member', async () => {
  const { variantId } = await fresh()
  expect(must(await ofVariant(maker, { variantId }))).toEqual({ version: 0, plan: null })
  expect(must(await save(maker, { variantId, version: 0, plan: usual }))).toEqual({ version: 1 })
  const other = await member('member', 'Piet')
  expect(must(await ofVariant(other, { variantId }))).toEqual({ version: 1, plan: usual })
})

test('the next writer needs the version that there is', async () => {
  const { variantId } = await fresh()
  must(await save(maker, { variantId, version: 0, plan: usual }))
  const apart: FinishPlan = { ...usual, when: 'apart' }
  expect(codeOf(await save(maker, { variantId, version: 0, plan: apart }))).toBe('changedMeanwhile')
  expect(must(await save(maker, { variantId, version: 1, plan: apart }))).toEqual({ version: 2 })
  expect(codeOf(await save(maker, { variantId, version: 1, plan: usual }))).toBe('changedMeanwhile')
  expect(must(await ofVariant(maker, { variantId })).plan).toEqual(apart)
})

test('ten first plans at once: one is kept', async () => {
  const { variantId } = await fresh()
  const sent = await Promise.all(
    Array.from({ length: 10 }, () => save(maker, { variantId, version: 0, plan: usual })),
  )
  expect(sent.filter((r) => r.ok)).toHaveLength(1)
  for (const r of sent.filter((one) => !one.ok)) expect(['changedMeanwhile', 'busy']).toContain(codeOf(r))
})

test('an ended build keeps the plan that it has', async () => {
  const { buildId, variantId } = await fresh()
  must(await finish(maker, { buildId }))
  expect(codeOf(await save(maker, { variantId, version: 0, plan: usual }))).toBe('buildClosed')
})

test.each([
  ['a spread of nothing', { coating: { ...usual.regions[0].coating, spreadM2PerL: 0 } }],
  ['half a coat', { coating: { ...usual.regions[0].coating, coats: 0.5 } }],
  ['a colour that is none', { coating: { ...usual.regions[0].coating, colour: 'javascript:' } }],
  ['no name', { name: ' ' }],
  ['a face that no part has', { faces: ['top'] }],
])('%s is refused', async (_, wrong) => {
  const { variantId } = await fresh()
  const plan = { ...usual, regions: [{ ...usual.regions[0], ...wrong }] }
  expect(codeOf(await save(maker, { variantId, version: 0, plan }))).toBe('badInput')
})

test('two regions of one id, or a thousand, are refused', async () => {
  const { variantId } = await fresh()
  const twice = { ...usual, regions: [usual.regions[0], usual.regions[0]] }
  expect(codeOf(await save(maker, { variantId, version: 0, plan: twice }))).toBe('badInput')
  const many = {
    ...usual,
    regions: Array.from({ length: 1000 }, (_, i) => ({ ...usual.regions[0], id: `r${i}` })),
  }
  expect(codeOf(await save(maker, { variantId, version: 0, plan: many }))).toBe('badInput')
})
