import { describe, expect, test } from 'vitest'
import { passwordFault } from '#lib/shop/members'

describe('new passwords', () => {
  test('length in characters as people count them', () => {
    expect(passwordFault('nine char')).toMatch(/at least 10/)
    expect(passwordFault('ten chars!')).toBeNull()
    expect(passwordFault('🪵🪚🔨🪵🪚🔨🪵🪚')).toMatch(/at least 10/)
    expect(passwordFault('x9'.repeat(101))).toMatch(/at most 200/)
  })

  test('very common ones, in any case, and monotonous ones', () => {
    for (const password of [
      'password123',
      'PassWord123',
      'qwertyuiop',
      '1234567890',
      'aaaaaaaaaaaa',
      'ababababab',
    ])
      expect(passwordFault(password)).toMatch(/too many people/i)
  })

  test('one’s own e-mail or name', () => {
    expect(passwordFault('ada@example.org', { email: 'ada@example.org' })).toMatch(/easy to guess/)
    expect(passwordFault('Adalbertine', { name: 'adalbertine' })).toMatch(/easy to guess/)
    expect(passwordFault('three damp planks', { email: 'ada@example.org', name: 'Ada' })).toBeNull()
  })
})
