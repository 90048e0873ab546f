import { expect, test } from 'vitest'
import { safeNext } from '../../app/sign-in/enter'

test('after signing in one comes to a page of this shop, whatever the address says', () => {
  expect(safeNext('/stations/1?minutes=95&build=2')).toBe('/stations/1?minutes=95&build=2')
  for (const elsewhere of [
    '//evil.example',
    '/\\evil.example',
    '/\t/evil.example',
    'https://evil.example',
    'javascript:alert(1)',
    '/sign-in?next=/sign-in',
    '',
    undefined,
  ])
    expect(safeNext(elsewhere)).toBe('/')
})
