import { beforeAll, expect, test } from 'vitest'
import { finish } from '#lib/data/builds'
import { database } from '#lib/data/client'
import { chosen, MOST_VARIANTS, make, open, remove, rename, save } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { member, shop } from './arrange'
import { must, started } from './arrange-build'

let maker: Actor

beforeAll(async () => {
  await shop()
  maker = await member('member', 'Noor')
})

async function fresh() {
  const buildId = await started(maker)
  return { buildId, ...must(await chosen(maker, { buildId })) }
}

test('saved with the version that was seen; the next writer needs the next version', async () => {
  const v = await fresh()
  const parameters = { ...v.parameters, counterHeight: 950 }
  expect(await save(maker, { variantId: v.id, version: 1, parameters })).toEqual({
    ok: true,
    value: { version: 2 },
  })
  const late = await save(maker, {
    variantId: v.id,
    version: 1,
    parameters: { ...parameters, counterHeight: 800 },
  })
  expect(late.ok ? '' : late.error.code).toBe('changedMeanwhile')
  expect(must(await chosen(maker, { buildId: v.buildId }))).toMatchObject({
    version: 2,
    parameters: { counterHeight: 950 },
  })
})

test('twenty savings of one version at once: one is kept', async () => {
  const v = await fresh()
  const tries = Array.from({ length: 20 }, (_, i) =>
    save(maker, { variantId: v.id, version: 1, parameters: { ...v.parameters, counterHeight: 900 + i } }),
  )
  const results = await Promise.all(tries)
  expect(results.filter((r) => r.ok)).toHaveLength(1)
  expect(
    results.filter((r) => !r.ok).every((r) => !r.ok && ['changedMeanwhile', 'busy'].includes(r.error.code)),
  ).toBe(true)
  expect(must(await chosen(maker, { buildId: v.buildId })).version).toBe(2)
})

test.each([
  ['legs that cross', { rake: -10 }, 'rake'],
  ['clearance above the seat', { kneeClearance: 2000 }, 'kneeClearance'],
  ['letters in a number', { counterHeight: 'abc' }, 'counterHeight'],
  ['a choice that is none', { finish: 'gold' }, 'finish'],
  ['a parameter that the design does not have', { turbo: 1 }, 'turbo'],
])('%s: refused by name, and the old numbers stay', async (_, over, parameter) => {
  const v = await fresh()
  const result = await save(maker, { variantId: v.id, version: 1, parameters: { ...v.parameters, ...over } })
  expect(result.ok ? '' : result.error.code).toBe('designRefused')
  expect(result.ok ? '' : result.error.fields?.[parameter]).toMatch(/\w.*\.$/)
  expect(must(await chosen(maker, { buildId: v.buildId })).version).toBe(1)
})

test('not-a-number, infinity and what is no record are bad input', async () => {
  const v = await fresh()
  for (const parameters of [
    { rake: Number.NaN },
    { rake: Number.POSITIVE_INFINITY },
    'rake',
    { rake: null },
  ]) {
    const result = await save(maker, { variantId: v.id, version: 1, parameters })
    expect(result.ok ? '' : result.error.code).toBe('badInput')
  }
})

test('an admin may, another member may not, nobody may in a finished build', async () => {
  const v = await fresh()
  const input = { variantId: v.id, version: 1, parameters: v.parameters }
  const refused = await save(await member(), input)
  expect(refused.ok ? '' : refused.error.code).toBe('notAllowed')
  must(await save(await member('admin'), input))
  must(await finish(maker, { buildId: v.buildId }))
  const closed = await save(maker, { ...input, version: 2 })
  expect(closed.ok ? '' : closed.error.code).toBe('buildClosed')
  expect(must(await chosen(maker, { buildId: v.buildId })).mayChange).toBe(false)
})

test('what is stored are all parameters, whatever was left out', async () => {
  const v = await fresh()
  must(await save(maker, { variantId: v.id, version: 1, parameters: { rake: 4 } }))
  const row = await database().variant.findUniqueOrThrow({ where: { id: v.id } })
  expect(row.parameters).toEqual({ ...v.parameters, rake: 4 })
})

const code = (result: { ok: boolean; error?: { code: string } }) => (result.ok ? '' : result.error?.code)

test('another one is made from the present numbers or from others, named, and is not the chosen one', async () => {
  const v = await fresh()
  const copy = must(await make(maker, { fromId: v.id, name: ' Like it ' })).variantId
  const other = must(await make(maker, { fromId: v.id, name: 'Steep', parameters: { rake: 4 } })).variantId
  const seen = async (variantId: string) => must(await open(maker, { buildId: v.buildId, variantId }))
  expect(await seen(copy)).toMatchObject({ name: 'Like it', chosen: false, parameters: v.parameters })
  expect((await seen(other)).parameters).toEqual({ ...v.parameters, rake: 4 })
  expect(must(await chosen(maker, { buildId: v.buildId }))).toMatchObject({ id: v.id, variants: 3 })
  const refused = await make(maker, { fromId: v.id, name: 'No piece', parameters: { rake: -10 } })
  expect(refused.ok ? '' : refused.error.fields?.rake).toMatch(/\.$/)
})

test('no two of one build have one name, in whatever letters; fifty at once: one', async () => {
  const v = await fresh()
  const results = await Promise.all(
    Array.from({ length: 50 }, (_, i) =>
      make(maker, { fromId: v.id, name: i % 2 ? 'Low back' : 'LOW BACK' }),
    ),
  )
  expect(results.filter((r) => r.ok)).toHaveLength(1)
  for (const r of results) if (!r.ok) expect(['alreadyExists', 'busy']).toContain(r.error.code)
  const second = must(await make(maker, { fromId: v.id, name: 'Other' })).variantId
  const clash = await rename(maker, { variantId: second, name: 'low BACK' })
  expect(clash.ok ? '' : clash.error.fields?.name).toMatch(/name\.$/)
  must(await rename(maker, { variantId: second, name: 'other' }))
})

test('one that is taken away is gone, its name is free again; the chosen one stays', async () => {
  const v = await fresh()
  const { variantId } = must(await make(maker, { fromId: v.id, name: 'Second' }))
  expect(code(await remove(maker, { variantId: v.id }))).toBe('variantChosen')
  must(await remove(maker, { variantId }))
  expect(code(await open(maker, { buildId: v.buildId, variantId }))).toBe('notFound')
  expect(code(await save(maker, { variantId, version: 1, parameters: {} }))).toBe('notFound')
  expect(code(await make(maker, { fromId: variantId, name: 'Third' }))).toBe('notFound')
  must(await make(maker, { fromId: v.id, name: 'Second' }))
})

test(`no more than ${MOST_VARIANTS}, however many are made at once`, async () => {
  const v = await fresh()
  await database().variant.createMany({
    data: Array.from({ length: MOST_VARIANTS - 3 }, (_, i) => ({
      buildId: v.buildId,
      name: `No. ${i}`,
      designId: v.designId,
      parameters: v.parameters,
      chosen: false,
    })),
  })
  const results = await Promise.all(
    Array.from({ length: 10 }, (_, i) => make(maker, { fromId: v.id, name: `Late ${i}` })),
  )
  expect(results.filter((r) => r.ok)).toHaveLength(2)
  expect(results.filter((r) => code(r) === 'tooMany').length).toBeGreaterThan(0)
})

test('a variant is opened under its own build only', async () => {
  const [a, b] = [await fresh(), await fresh()]
  expect(code(await open(maker, { buildId: a.buildId, variantId: b.id }))).toBe('notFound')
})

test('another one is finished as the one that it comes from, and then goes its own way', async () => {
  const v = await fresh()
  await database().finishPlan.create({ data: { variantId: v.id, plan: { of: 'first' } } })
  const { variantId } = must(await make(maker, { fromId: v.id, name: 'Second' }))
  const second = await database().finishPlan.findUniqueOrThrow({ where: { variantId } })
  expect([second.plan, second.version]).toEqual([{ of: 'first' }, 1])
  await database().finishPlan.update({ where: { variantId }, data: { plan: { of: 'second' } } })
  const first = await database().finishPlan.findUniqueOrThrow({ where: { variantId: v.id } })
  expect(first.plan).toEqual({ of: 'first' })
})
