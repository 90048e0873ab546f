import { expect, test } from 'vitest'
import { countedWords, sizeKey, wantedHardware } from '#lib/shop/hardware'

const lot = (id: string, size: string, count: number) => ({ id, kind: 'screw' as const, size, count })

test.each([
  ['No. 8 × 32 mm', 'no 8 x 32'],
  ['No. 8 × 32 mm', 'NO.8X32MM'],
  ['M6 × 40', 'm6 x 40 mm'],
])('%s and %s are one size', (a, b) => expect(sizeKey(a)).toBe(sizeKey(b)))

test.each([
  ['No. 8 × 32 mm', 'No. 8 × 33 mm'],
  ['No. 8 × 32 mm', 'No. 10 × 32 mm'],
  ['1 1/4 in', '1/4 in'],
])('%s and %s are not', (a, b) => expect(sizeKey(a)).not.toBe(sizeKey(b)))

test('a build is shown what lies there of what it wants, the fullest tin first, and what it took', () => {
  const [row] = wantedHardware(
    [{ kind: 'screw', size: 'No. 8 × 32 mm', count: 16 }],
    [
      lot('a', 'no 8 x 32', 3),
      lot('b', 'No. 8 × 32 mm', 40),
      lot('c', 'No. 6 × 32 mm', 99),
      lot('d', 'no8x32', 0),
    ],
    [
      lot('b', 'No. 8 × 32 mm', 10),
      lot('a', 'no 8 x 32', 4),
      lot('a', 'no 8 x 32', -4),
      lot('b', 'No. 8 × 32 mm', -3),
      lot('c', 'No. 6 × 32 mm', 2),
    ],
  )
  expect(row).toMatchObject({ wanted: 16, taken: 7, takenFrom: [{ id: 'b', count: 7 }] })
  expect(row.lots.map(({ id }) => id)).toEqual(['b', 'a'])
})

test('what it does not need is not shown', () =>
  expect(wantedHardware([], [lot('a', 'M6', 3)], [])).toEqual([]))

test('one and many', () =>
  expect([countedWords('screw', 1), countedWords('other', 2)]).toEqual(['1 screw', '2 pieces']))
