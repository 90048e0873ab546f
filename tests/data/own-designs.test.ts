import { beforeAll, describe, expect, test } from 'vitest'
import { crateRecipe } from '#lib/core/design/designs/crate/crate-recipe'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { all as allBuilds, header, start } from '#lib/data/builds'
import { database } from '#lib/data/client'
import { copy, offered, open, recipe as recipeOf, remove, save, share } from '#lib/data/own-designs'
import { open as openVariant, save as saveNumbers, takeVersion } from '#lib/data/variants'
import type { Actor } from '#lib/shop/actor'
import { ownDesignName } from '#lib/shop/own-design'
import { member, shop } from './arrange'
import { must } from './arrange-build'

let owner: Actor
let other: Actor

beforeAll(async () => {
  await shop()
  owner = await member('member', 'Yusra')
  other = await member('member', 'Piet')
})

const copied = async (name = 'Apple crate') => must(await copy(owner, { from: 'crate', name })).designId
const deeper = (recipe: Recipe, formula = 'height + 20 - thickness'): Recipe => ({
  ...recipe,
  parts: recipe.parts.map((part, k) => (k === 0 ? { ...part, length: formula } : part)),
})
const code = (result: { ok: boolean; error?: { code: string } }) => (result.ok ? 'ok' : result.error?.code)

describe('copies', () => {
  test('a copy has the formulas of the shipped design, under its own name, and is mine alone', async () => {
    const designId = await copied()
    const mine = must(await open(owner, { designId }))
    expect(mine.recipe).toEqual({ ...crateRecipe, name: 'Apple crate' })
    expect(mine).toMatchObject({
      number: 1,
      last: 1,
      sharing: 'mine',
      isMine: true,
      mayChange: true,
      copiedFrom: 'crate',
    })
    expect(code(await open(other, { designId }))).toBe('notFound')
    expect(must(await offered(other, {})).map((d) => d.id)).not.toContain(designId)
  })

  test('a design without a recipe says that it cannot be copied; one that there is not is not there', async () => {
    expect(code(await copy(owner, { from: 'counterSeat', name: 'Seat' }))).toBe('notCopied')
    expect(code(await copy(owner, { from: 'throne', name: 'Throne' }))).toBe('notFound')
    expect(code(await copy(owner, { from: 'crate', name: '  ' }))).toBe('badInput')
  })

  test('a shared design can be copied by others; their copy is theirs', async () => {
    const designId = await copied('To copy')
    const from = ownDesignName({ designId, number: 1 })
    expect(code(await copy(other, { from, name: 'Mine now' }))).toBe('notFound')
    must(await share(owner, { designId, sharing: 'shop' }))
    const theirs = must(await copy(other, { from, name: 'Mine now' }))
    expect(must(await open(other, { designId: theirs.designId }))).toMatchObject({
      isMine: true,
      sharing: 'mine',
    })
  })
})

describe('versions', () => {
  test('a save adds a version; the old one stays as it was; a late writer is told', async () => {
    const designId = await copied()
    const { recipe } = must(await open(owner, { designId }))
    expect(must(await save(owner, { designId, version: 1, recipe: deeper(recipe), note: 'Deeper' }))).toEqual(
      { version: 2 },
    )
    expect(code(await save(owner, { designId, version: 1, recipe, note: '' }))).toBe('changedMeanwhile')
    expect(must(await open(owner, { designId, version: 1 })).recipe).toEqual(recipe)
    const now = must(await open(owner, { designId }))
    expect(now.recipe.parts[0].length).toBe('height + 20 - thickness')
    expect(now.versions.map((v) => [v.number, v.note, v.memberName])).toEqual([
      [2, 'Deeper', 'Yusra'],
      [1, '', 'Yusra'],
    ])
  })

  test('twelve savings of one version at once: one is kept', async () => {
    const designId = await copied()
    const { recipe } = must(await open(owner, { designId }))
    const tries = Array.from({ length: 12 }, (_, k) =>
      save(owner, { designId, version: 1, recipe: deeper(recipe, `height + ${k} - thickness`), note: '' }),
    )
    const results = await Promise.all(tries)
    expect(results.filter((r) => r.ok)).toHaveLength(1)
    for (const r of results) if (!r.ok) expect(['changedMeanwhile', 'busy']).toContain(r.error.code)
    expect(must(await open(owner, { designId })).last).toBe(2)
  })

  test('the database lets nobody change, take away or skip a version', async () => {
    const designId = await copied()
    const db = database()
    const where = { designId_number: { designId, number: 1 } }
    await expect(db.ownDesignVersion.update({ where, data: { note: 'x' } })).rejects.toThrow()
    await expect(db.ownDesignVersion.delete({ where })).rejects.toThrow()
    const skipped = { designId, number: 5, recipe: {}, memberId: owner.memberId }
    await expect(db.ownDesignVersion.create({ data: skipped })).rejects.toThrow()
  })

  test.each<[string, (recipe: Recipe) => unknown, string, string]>([
    ['a name that is not there', (r) => deeper(r, 'heigth'), 'recipeFaulty', 'recipe.parts.0.length'],
    ['a size below nothing', (r) => deeper(r, 'thickness - height'), 'recipeFaulty', 'recipe.parts.0.length'],
    [
      'a part too many',
      (r) => ({ ...r, parts: r.parts.map((p) => ({ ...p, repeat: '1000000000' })) }),
      'recipeFaulty',
      'recipe.parts.0.repeat',
    ],
    ['no shape of a recipe', (r) => ({ ...r, parts: 'none' }), 'badInput', 'recipe.parts'],
    ['a field of its own', (r) => ({ ...r, run: 'rm' }), 'badInput', 'recipe'],
  ])('%s: refused at its field, and nothing is saved', async (_, change, wanted, field) => {
    const designId = await copied()
    const { recipe } = must(await open(owner, { designId }))
    const result = await save(owner, { designId, version: 1, recipe: change(recipe), note: '' })
    expect(code(result)).toBe(wanted)
    expect(Object.keys((!result.ok && result.error.fields) || {})).toContain(field)
    expect(must(await open(owner, { designId })).last).toBe(1)
  })
})

describe('sharing', () => {
  test('others see a shared one and may not change it; an admin may; unshared it is gone for them', async () => {
    const designId = await copied('For all')
    const { recipe } = must(await open(owner, { designId }))
    const admin = await member('admin')
    expect(code(await save(admin, { designId, version: 1, recipe, note: '' }))).toBe('notFound')
    must(await share(owner, { designId, sharing: 'shop' }))
    expect(must(await open(other, { designId }))).toMatchObject({ mayChange: false, ownerName: 'Yusra' })
    expect(code(await save(other, { designId, version: 1, recipe, note: '' }))).toBe('notAllowed')
    expect(code(await share(other, { designId, sharing: 'mine' }))).toBe('notAllowed')
    expect(code(await remove(other, { designId }))).toBe('notAllowed')
    must(await save(admin, { designId, version: 1, recipe: deeper(recipe), note: 'By the admin' }))
    must(await share(owner, { designId, sharing: 'mine' }))
    expect(code(await open(other, { designId }))).toBe('notFound')
  })

  test('what is taken away is offered to nobody', async () => {
    const designId = await copied('Gone')
    must(await remove(owner, { designId }))
    expect(code(await open(owner, { designId }))).toBe('notFound')
    expect(must(await offered(owner, {})).map((d) => d.id)).not.toContain(designId)
    expect(
      code(await start(owner, { name: 'Too late', designId: ownDesignName({ designId, number: 1 }) })),
    ).toBe('badInput')
  })
})

describe('builds', () => {
  async function begun() {
    const designId = await copied()
    const { recipe } = must(await open(owner, { designId }))
    const name = ownDesignName({ designId, number: 1 })
    const { buildId } = must(await start(owner, { name: 'A crate', designId: name }))
    return { designId, recipe, name, buildId }
  }

  test('a build is made to the version that it was begun with, whatever is saved later', async () => {
    const { designId, recipe, name, buildId } = await begun()
    must(await save(owner, { designId, version: 1, recipe: deeper(recipe), note: 'Deeper' }))
    const variant = must(await openVariant(owner, { buildId }))
    expect(variant.designId).toBe(name)
    expect(must(await recipeOf(other, { designId: name }))).toEqual(recipe)
    expect(must(await header(other, { buildId })).designName).toBe('Apple crate')
    expect(must(await allBuilds(owner, { show: 'open' })).builds.find((b) => b.id === buildId)).toMatchObject(
      { designName: 'Apple crate' },
    )
  })

  test('its numbers are read against its own version', async () => {
    const { buildId } = await begun()
    const variant = must(await openVariant(owner, { buildId }))
    const bad = await saveNumbers(owner, {
      variantId: variant.id,
      version: 1,
      parameters: { ...variant.parameters, slats: 8, height: 120 },
    })
    expect(bad.ok ? '' : bad.error.fields?.slats).toMatch(/they need 30 mm/)
    must(
      await saveNumbers(owner, {
        variantId: variant.id,
        version: 1,
        parameters: { ...variant.parameters, length: 500 },
      }),
    )
  })

  test('the newer version is offered with what differs, and taken when asked for; numbers stay', async () => {
    const { designId, recipe, buildId } = await begun()
    const before = must(await openVariant(owner, { buildId }))
    expect(before.newer).toBeNull()
    must(
      await saveNumbers(owner, {
        variantId: before.id,
        version: 1,
        parameters: { ...before.parameters, length: 520 },
      }),
    )
    const parameters = recipe.parameters
      .filter((p) => p.id !== 'bottomGap')
      .concat({ ...recipe.parameters[1], id: 'lid', label: 'Lid', default: 12, min: 8, max: 30 })
    const newer: Recipe = JSON.parse(
      JSON.stringify({ ...recipe, parameters }).replaceAll('bottomGap', '4 mm'),
    )
    must(await save(owner, { designId, version: 1, recipe: newer, note: 'With a lid' }))
    const offer = must(await openVariant(owner, { buildId }))
    expect(offer.newer).toMatchObject({ number: 2, note: 'With a lid', memberName: 'Yusra' })
    expect(offer.newer?.differences.map((d) => d.label)).toEqual(
      expect.arrayContaining(['Parameter «bottomGap»', 'Parameter «lid»']),
    )
    const input = { variantId: offer.id, version: 2, designId: offer.newer!.designId }
    expect(code(await takeVersion(other, input))).toBe('notAllowed')
    must(await takeVersion(owner, input))
    const after = must(await openVariant(owner, { buildId }))
    expect(after).toMatchObject({ version: 3, newer: null, parameters: { length: 520, lid: 12 } })
    expect(after.parameters).not.toHaveProperty('bottomGap')
  })

  test('another design is no newer version, and a version that is not there is not taken', async () => {
    const { buildId, designId } = await begun()
    const variant = must(await openVariant(owner, { buildId }))
    const stranger = ownDesignName({ designId: await copied(), number: 1 })
    for (const wrong of [stranger, 'crate', ownDesignName({ designId, number: 9 }), ''])
      expect(code(await takeVersion(owner, { variantId: variant.id, version: 1, designId: wrong }))).toBe(
        'notFound',
      )
  })

  test('nobody begins a build with a design that is not offered to them', async () => {
    const { name } = await begun()
    expect(code(await start(other, { name: 'Not mine', designId: name }))).toBe('badInput')
  })

  test('the database refuses a variant of a version that is not there', async () => {
    const { buildId } = await begun()
    const data = { buildId, name: 'Nowhere', chosen: false, parameters: {} }
    const missing = ownDesignName({ designId: '00000000-0000-4000-8000-000000000000', number: 1 })
    await expect(database().variant.create({ data: { ...data, designId: missing } })).rejects.toThrow()
    await expect(database().variant.create({ data: { ...data, designId: 'own:x' } })).rejects.toThrow()
  })

  test('a build goes on when its design is kept to oneself or taken away', async () => {
    const { designId, buildId } = await begun()
    must(await remove(owner, { designId }))
    const variant = must(await openVariant(other, { buildId }))
    expect(must(await recipeOf(other, { designId: variant.designId })).name).toBe('Apple crate')
  })
})
