import { describe, expect, test } from 'vitest'
import { addressOf } from '#lib/auth/options'
import { hashPassword, verifyPassword } from '#lib/auth/password'

describe('password hashes', () => {
  test('Argon2id version 1.3 (RFC 9106) with the OWASP cheat sheet’s m=19456, t=2, p=1, a salt of 16 bytes at least', async () => {
    const [, kind, version, parameters, salt] = (await hashPassword('three damp planks')).split('$')
    expect([kind, version, parameters]).toEqual(['argon2id', 'v=19', 'm=19456,t=2,p=1'])
    expect(Buffer.from(salt, 'base64').length).toBeGreaterThanOrEqual(16)
  })

  test('right, wrong, nobody’s, and a hash that is none', async () => {
    const hash = await hashPassword('three damp planks')
    expect(await verifyPassword(hash, 'three damp planks')).toBe(true)
    expect(await verifyPassword(hash, 'three dry planks')).toBe(false)
    expect(await verifyPassword(undefined, 'three damp planks')).toBe(false)
    expect(await verifyPassword('-', 'three damp planks')).toBe(false)
  })

  test('one password typed on two keyboards: NFKC (NIST SP 800-63B, 5.1.1.2)', async () => {
    const hash = await hashPassword('Schraubst\u00f6cke')
    expect(await verifyPassword(hash, 'Schraubsto\u0308cke')).toBe(true)
  })

  test('an unknown e-mail is not answered at once', async () => {
    const hash = await hashPassword('three damp planks')
    const time = async (of: string | undefined) => {
      const times: number[] = []
      for (let i = 0; i < 7; i++) {
        const from = performance.now()
        await verifyPassword(of, 'something else')
        times.push(performance.now() - from)
      }
      return times.sort((a, b) => a - b)[3]
    }
    await time(undefined)
    const [known, unknown] = [await time(hash), await time(undefined)]
    expect(unknown).toBeGreaterThan(known / 5)
  })
})

describe('where a try came from', () => {
  test('the last hop that the nearest proxy saw', () => {
    expect(addressOf({ 'x-forwarded-for': '1.2.3.4, 10.0.0.7' })).toBe('10.0.0.7')
    expect(addressOf({})).toBe('unknown')
    expect(addressOf(undefined)).toBe('unknown')
  })
})
