import { describe, expect, test } from 'vitest'
import { database } from '#lib/data/client'
import { isStarted, startShop } from '#lib/data/shop'

const first = {
  shopName: 'Mill Lane shop',
  timeZone: 'Europe/Berlin',
  units: 'mm',
  name: 'Ada',
  email: 'Ada@Example.org',
  password: 'three damp planks',
}

describe('the first sign-up', () => {
  test('bad input is told field by field', async () => {
    const bad = { ...first, timeZone: 'Mars', units: 'ells', email: 'ada', name: ' ', shopName: '' }
    const result = await startShop(null, bad)
    expect(result).toMatchObject({ ok: false, error: { code: 'badInput' } })
    if (!result.ok)
      expect(Object.keys(result.error.fields!).sort()).toEqual([
        'email',
        'name',
        'shopName',
        'timeZone',
        'units',
      ])
    // All faults at once, the password's too.
    expect(await startShop(null, { ...first, name: '', password: 'short' })).toMatchObject({
      error: { fields: { name: 'Type a name.', password: 'Use at least 10 characters.' } },
    })
    expect(await startShop(null, { ...first, password: 'short' })).toMatchObject({
      error: { fields: { password: 'Use at least 10 characters.' } },
    })
  })

  test('ten at once: one shop, one admin; afterwards nobody', async () => {
    expect(await isStarted(null, {})).toEqual({ ok: true, value: false })
    const tries = Array.from({ length: 10 }, (_, i) =>
      startShop(null, { ...first, email: `a${i}@example.org` }),
    )
    const results = await Promise.all(tries)
    expect(results.filter((r) => r.ok)).toHaveLength(1)
    for (const r of results) if (!r.ok) expect(r.error.code).toBe('alreadyStarted')
    expect(await database().shop.count()).toBe(1)
    expect(await database().member.findMany({ select: { role: true } })).toEqual([{ role: 'admin' }])
    expect(await isStarted(null, {})).toEqual({ ok: true, value: true })
    expect(await startShop(null, first)).toMatchObject({ error: { code: 'alreadyStarted' } })
  })
})
