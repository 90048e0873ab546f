import { describe, expect, test } from 'vitest'
import type { StrengthCheck } from '#lib/core/statics/checks'
import type { WoodVerdict } from '#lib/core/statics/compare-woods'
import {
  alikeChecks,
  alikeHeld,
  barOf,
  checkMarginWords,
  marginWords,
  movingParts,
  rangeBar,
  readHumidity,
  readSeason,
  strengthMark,
  tippingWords,
  verdictOf,
  woodsWords,
  woodWords,
} from '#lib/shop/strength-words'

const check = (more: Partial<StrengthCheck>): StrengthCheck => {
  const margin = more.margin ?? 1.5
  return {
    id: 'bending/leg',
    kind: 'bending',
    weight: 'safety',
    title: 'Leg: bending',
    demand: 1,
    capacity: margin,
    unit: 'MPa',
    margin,
    passes: margin >= 1,
    loadCase: 'Sat on',
    where: { partIds: ['leg'], at: [0, 0, 0] },
    sources: [],
    sentence: '',
    ...more,
  }
}

const wood = (name: string, margin: number): WoodVerdict => ({
  speciesId: name,
  name,
  passes: margin >= 1,
  margin,
  title: 'Leg: bending',
})

test('the mark of a piece is its strength, not what only annoys', () => {
  const bump = check({ kind: 'tipping', weight: 'comfort', unit: 'times', margin: 0.2, title: 'Bumped' })
  const mark = strengthMark([bump, check({ margin: 2.2 }), check({ margin: 1.3, title: 'Rail: bending' })])
  expect(mark).toMatchObject({ level: 'caution', margin: 1.3, check: 'Rail: bending' })
  expect(strengthMark([bump])).toMatchObject({ margin: 0.2 })
})

describe('the wood in words', () => {
  const fails = check({ margin: 0.4 })

  test('what fails in unnamed wood alone depends on the wood', () => {
    const verdict = verdictOf([fails], [wood('oak', 1.4), wood('pine', 0.6)])
    expect(verdict).toMatchObject({ level: 'caution', title: 'It depends on the wood' })
    expect(verdict.margin).toBe(
      'Of 2 woods it holds in these: oak. In wood that nobody has named it is not safe.',
    )
    expect(verdict.count).toMatch(/^Judged as the weakest wood: leg: bending: bears 40 %.*Name the wood/)
  })

  test('what fails in every wood fails', () => {
    expect(verdictOf([fails], [wood('pine', 0.6)])).toMatchObject({
      level: 'stop',
      title: 'A part would break',
    })
    expect(verdictOf([fails])).toMatchObject({ level: 'stop' })
  })

  test.each([
    [[wood('pine', 0.5)], 'It holds in none of the 1 woods that the table knows.'],
    [[wood('oak', 2), wood('pine', 1)], 'It holds in each of the 2 woods that the table knows.'],
    [
      ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((n) => wood(n, 2)).concat(wood('pine', 0.5)),
      'Of 8 woods it holds in these: a, b, c, d, e and 2 more.',
    ],
  ])('a list of woods', (woods, words) => expect(woodsWords(woods)).toBe(words))

  test('what holds on a condition says so, and is no failure', () => {
    const tips = check({
      kind: 'tipping',
      weight: 'condition',
      unit: 'times',
      margin: 0.55,
      title: 'Tipping: empty',
      condition: 'once it is fixed to a wall',
    })
    expect(verdictOf([tips, check({})])).toEqual({
      level: 'caution',
      title: 'It holds, once it is fixed to a wall',
      margin: 'Tipping: empty: tips at 55 % of what is put on it.',
      count: 'Of 2 checks, 1 fails.',
    })
  })
})

describe('margins in words', () => {
  test.each([
    [0, 'bears nothing'],
    [0.004, 'bears 1 % of what is asked of it'],
    [0.21, 'bears 21 % of what is asked of it'],
    // Never rounded up to what it does not bear.
    [0.579, 'bears 57 % of what is asked of it'],
    [1.01, 'bears just what is asked of it'],
    [1.18, 'bears what is asked of it with 18 % to spare'],
    [3.27, 'bears 3.20 times what is asked of it'],
    [999, 'nothing is asked of it'],
  ])('%f', (margin, words) => expect(marginWords(margin)).toBe(words))

  test('a failing margin never reads like a passing one', () => {
    for (let percent = 1; percent < 99.5; percent += 0.5)
      expect(marginWords(percent / 100)).toMatch(/^bears \d{1,2} % of/)
  })

  test('tipping and sizes in words of their own', () => {
    expect(checkMarginWords(check({ kind: 'tipping', unit: 'times', margin: 2.06 }))).toBe(
      'stands 2.06 times what is put on it',
    )
    expect(checkMarginWords(check({ kind: 'tipping', unit: 'times', margin: 0.67 }))).toBe(
      'tips at 67 % of what is put on it',
    )
    expect(checkMarginWords(check({ kind: 'sag', unit: 'mm', demand: 6, capacity: 4, margin: 4 / 6 }))).toBe(
      '6.00 mm, where 4.00 mm is the most that is good',
    )
  })

  test('bars: what is asked stands in the middle, twice that fills it', () => {
    expect(barOf({ margin: 1 })).toEqual({ bears: 0.5, asked: 0.5 })
    expect(barOf({ margin: 7 }).bears).toBe(1)
    expect(barOf({ margin: 0.5 }).bears).toBe(0.25)
    expect(rangeBar({ low: 0.5, middle: 1, high: 9 })).toEqual({
      low: 0.125,
      middle: 0.25,
      high: 1,
      one: 0.25,
    })
  })
})

describe('the verdict', () => {
  test('what could hurt stops it', () => {
    const verdict = verdictOf([
      check({ kind: 'joint', title: 'Joint, rail to leg', margin: 0.58 }),
      check({ weight: 'comfort', kind: 'sag', margin: 0.9 }),
      check({ id: 'b' }),
    ])
    expect(verdict).toEqual({
      level: 'stop',
      title: 'A joint would give way',
      margin: 'Joint, rail to leg: bears 58 % of what is asked of it.',
      count: 'Of 3 checks, 2 fail, 1 of them where someone could be hurt. Do not build it like this.',
    })
  })

  test('what only annoys is a caution, nothing is good', () => {
    const sag = check({ weight: 'comfort', kind: 'sag', unit: 'mm', demand: 6, capacity: 4, margin: 4 / 6 })
    expect(verdictOf([sag, check({ id: 'b' })])).toMatchObject({
      level: 'caution',
      title: 'It holds, but: it sags',
      count: 'Of 2 checks, 1 fails, and nobody is hurt by it.',
    })
    expect(verdictOf([check({})])).toMatchObject({ level: 'good', title: 'It holds' })
    expect(() => verdictOf([])).toThrow(RangeError)
  })
})

describe('what is alike', () => {
  const kindOf = (id: string) => id.replace(/-\w+$/, '')

  test('checks of parts of one kind share a line, the worst in front; failing ones never hide passing ones', () => {
    const of = (id: string, part: string, margin: number) =>
      check({ id, margin, where: { partIds: [part], at: [0, 0, 0] } })
    const lines = alikeChecks(
      [
        of('a', 'leg-left', 0.5),
        of('b', 'leg-right', 0.6),
        of('c', 'leg-back', 1.2),
        of('d', 'rail-front', 2),
      ],
      kindOf,
    )
    expect(lines.map(({ worst, others }) => [worst.id, others.map(({ id }) => id)])).toEqual([
      ['a', ['b']],
      ['c', []],
      ['d', []],
    ])
  })

  test('no check is lost', () => {
    const all = Array.from({ length: 20 }, (_, i) =>
      check({ id: `${i}`, where: { partIds: [`leg-${i % 3}`], at: [0, 0, 0] } }),
    )
    const seen = alikeChecks(all, kindOf).flatMap(({ worst, others }) => [worst, ...others])
    expect(new Set(seen.map(({ id }) => id)).size).toBe(20)
  })

  test('moving parts by kind and width; what is held, the worst first', () => {
    const part = (partId: string, widthMm: number) => ({ partId, widthMm, growthMm: widthMm / 50 })
    expect(movingParts([part('leg-a', 50), part('leg-b', 50), part('leg-c', 60)], kindOf)).toEqual([
      { partId: 'leg-c', widthMm: 60, growthMm: 1.2, count: 1 },
      { partId: 'leg-a', widthMm: 50, growthMm: 1, count: 2 },
    ])
    const held = (partId: string, growthMm: number) => ({
      partId,
      byId: 'rail-a',
      jointIds: [],
      isGlued: true,
      spanMm: 50,
      growthMm,
      limitMm: 1.6,
      at: [0, 0, 0] as const,
    })
    const [top, below] = alikeHeld([held('leg-a', 1), held('seat-a', 2), held('leg-b', 1.1)], kindOf)
    expect([top.worst.partId, top.count]).toEqual(['seat-a', 1])
    expect([below.worst.partId, below.count]).toEqual(['leg-b', 2])
  })
})

describe('what is typed and asked', () => {
  test('humidity', () => {
    expect(readHumidity(' 35,5 % ')).toEqual({ ok: true, value: 0.355 })
    for (const bad of ['', 'dry', '0', '96', '1e1', '-5']) expect(readHumidity(bad).ok).toBe(false)
  })

  test('a season has a dry and a damp end', () => {
    expect(readSeason('35', '65')).toEqual({ ok: true, value: { dry: 0.35, damp: 0.65 } })
    expect(readSeason('65', '65').ok).toBe(false)
    expect(readSeason('x', '65')).toMatchObject({ ok: false, error: { dry: expect.any(String) } })
  })

  test('a wood that nobody named is said to be judged so', () => {
    expect(woodWords('redOak')).toBeNull()
    expect(woodWords('any')).toMatch(/weaker/)
    expect(woodWords('hardwood')).toMatch(/among hardwoods/)
  })

  test('tipping in a sentence', () => {
    expect(tippingWords({ factor: 2.06, towards: [0, -1], outsetMm: -60 })).toBe(
      'stands 2.06 times this before it goes over forwards.',
    )
    expect(tippingWords({ factor: 0.23, towards: [-1, 0], outsetMm: 18.2 })).toBe(
      'goes over to the left: it bears 23 % of this. Feet 19 mm further out on that side would hold it.',
    )
    expect(tippingWords({ factor: Number.POSITIVE_INFINITY, towards: [1, 0], outsetMm: -9 })).toBe(
      'nothing tips it.',
    )
  })

  test('with the lean of the legs on that side, now and at which it would just pass', () => {
    const firm = { factor: 2, towards: [0, -1], outsetMm: -60 } as const
    const weak = { factor: 0.5, towards: [0, -1], outsetMm: 40 } as const
    const lean = (now: number, toPass: number) => ({
      nowRad: (now * Math.PI) / 180,
      toPassRad: (toPass * Math.PI) / 180,
    })
    expect(tippingWords(firm, lean(8, 3))).toMatch(/forwards\. Legs lean 8\.0° there; 3\.0° would just do\.$/)
    expect(tippingWords(firm, lean(8, -2))).toMatch(/there; upright ones would do\.$/)
    expect(tippingWords(firm, lean(0, -5))).toMatch(/forwards\.$/)
    expect(tippingWords(weak, lean(0, 4))).toMatch(/Or legs that lean 4\.0° there instead of 0\.0°\.$/)
    expect(tippingWords(weak, lean(0, 50))).toMatch(/would hold it\.$/)
  })
})
