import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import {
  formatInches,
  formatMm,
  inchesFromUm,
  LENGTH_PROBLEMS,
  lengthProblemSentence,
  parseLength,
} from '#lib/core/units/inches'

const lengthUm = (text: string, unit: 'mm' | 'in' = 'mm') => {
  const result = parseLength(text, { unit })
  return result.ok ? result.value : result.error
}

describe('parseLength', () => {
  // The international inch is exactly 25.4 mm (1959 agreement), a foot 12 of them.
  it.each([
    ['1613', 1_613_000],
    ['1613mm', 1_613_000],
    ['1613 MM', 1_613_000],
    ['161.3 cm', 1_613_000],
    ['161,3 cm', 1_613_000],
    ['1.613 m', 1_613_000],
    ['1,613 m', 1_613_000],
    ['  1613   mm ', 1_613_000],
    ['1613 millimetres', 1_613_000],
    ['0', 0],
    ['0,125 in', 3_175],
    ['.5', 500],
    [',5', 500],
    ['12.', 12_000],
    ['5\' 3-7/16"', 1_611_313],
    ['5\'3 7/16"', 1_611_313],
    ["5'3 7/16", 1_611_313],
    ["5'-3 7/16", 1_611_313],
    ['5’ 3 7/16”', 1_611_313],
    ['5′ 3 7/16″', 1_611_313],
    ["5' 3 7/16''", 1_611_313],
    ['5 ft 3 7/16 in', 1_611_313],
    ['5 ft. 3-7/16 in.', 1_611_313],
    ['5 feet 3 inches', 1_600_200],
    ['5 ft 3 in', 1_600_200],
    ["5' 3", 1_600_200],
    ["5'", 1_524_000],
    ["5 1/2'", 1_676_400],
    ['63 7/16', 1_611_313],
    ['63 - 7 / 16', 1_611_313],
    ['63-7/16"', 1_611_313],
    ['63‑7⁄16″', 1_611_313],
    ['63.4375"', 1_611_313],
    ['63,4375 in', 1_611_313],
    ['63½"', 1_612_900],
    ['¾', 19_050],
    ['7/16', 11_113],
    ['5/4', 31_750],
    ['10 1/3', 262_467],
    ['24 in', 609_600],
    ['100 m', 100_000_000],
  ])('reads %j', (text, expected) => {
    expect(lengthUm(text)).toBe(expected)
  })

  it('takes a bare whole or decimal number in the default unit, a bare fraction always in inches', () => {
    expect(lengthUm('63', 'in')).toBe(1_600_200)
    expect(lengthUm('63.5', 'in')).toBe(1_612_900)
    expect(lengthUm('63 mm', 'in')).toBe(63_000)
    expect(lengthUm('63', 'mm')).toBe(63_000)
    expect(lengthUm('63 7/16', 'mm')).toBe(lengthUm('63 7/16', 'in'))
  })

  it.each([
    ['', 'empty'],
    ['   ', 'empty'],
    ['abc', 'notANumber'],
    ['12 apples', 'notANumber'],
    ['1e3', 'notANumber'],
    ['0x10', 'notANumber'],
    ['NaN', 'notANumber'],
    ['Infinity', 'notANumber'],
    ['1.2.3', 'notANumber'],
    ['5 3', 'notANumber'],
    ['5 3 in', 'notANumber'],
    ['5\' 3" 2', 'notANumber'],
    ['mm', 'notANumber'],
    ['--5', 'notANumber'],
    ['9'.repeat(100), 'notANumber'],
    ['-5', 'negative'],
    ['−5 mm', 'negative'],
    ['-1/2', 'negative'],
    ['100.001 m', 'tooLarge'],
    ['9'.repeat(50), 'tooLarge'],
    ['7/0', 'badFraction'],
    ['7/15', 'badFraction'],
    ['63 17/16', 'badFraction'],
    ['63.5 7/16', 'badFraction'],
    ['63 7/16 mm', 'metricFraction'],
    ['1/2 cm', 'metricFraction'],
    ['5 ft 30 cm', 'mixedUnits'],
    ['3 in 5 ft', 'mixedUnits'],
    ['1 m 20 cm', 'mixedUnits'],
    ["5' 3'", 'mixedUnits'],
    ['1,613', 'ambiguousComma'],
    ['12,500 mm', 'ambiguousComma'],
  ])('refuses %j', (text, expected) => {
    expect(lengthUm(text)).toBe(expected)
  })

  it('has one sentence for every problem', () => {
    const sentences = LENGTH_PROBLEMS.map(lengthProblemSentence)
    expect(new Set(sentences).size).toBe(LENGTH_PROBLEMS.length)
    for (const sentence of sentences) expect(sentence).toMatch(/^[A-Z].*\.$/)
  })

  it('never throws, whatever is typed', () => {
    let judged = 0
    const signs = fc.constantFrom(...'0123456789 .,/-\'"′″½inftcmx'.split(''))
    fc.assert(
      fc.property(fc.array(signs, { maxLength: 20 }), fc.string(), (typed, any) => {
        for (const text of [typed.join(''), any]) {
          const result = parseLength(text, { unit: 'mm' })
          if (result.ok) expect(Number.isSafeInteger(result.value) && result.value >= 0).toBe(true)
          else expect(LENGTH_PROBLEMS).toContain(result.error)
          judged++
        }
      }),
      { numRuns: 500 },
    )
    expect(judged).toBeGreaterThan(0)
  })
})

describe('formatInches', () => {
  it.each([
    [1_611_313, 16, false, '63 7/16"'],
    [1_611_313, 16, true, '5\' 3 7/16"'],
    [0, 16, false, '0"'],
    [0, 16, true, '0"'],
    [1_524_000, 16, true, '5\' 0"'],
    [304_800, 16, false, '12"'],
    [304_800, 16, true, '1\' 0"'],
    [317_500, 16, true, '1\' 1/2"'],
    [12_700, 32, false, '1/2"'],
    [-12_700, 32, false, '-1/2"'],
    [-10, 16, false, '0"'],
    // 15 31/32 in carries to 16 in on a tape in 16ths.
    [405_606, 16, false, '16"'],
    [405_606, 32, false, '15 31/32"'],
    [405_605, 16, false, '15 15/16"'],
    [304_600, 16, true, '1\' 0"'],
    [397, 64, false, '1/64"'],
  ] as const)('%i um in %iths, feet %s', (valueUm, denominator, feet, expected) => {
    expect(formatInches(valueUm, { denominator, feet })).toBe(expected)
  })

  it('is read back within half a tick', () => {
    let judged = 0
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 12_000_000 }),
        fc.constantFrom(16 as const, 32 as const, 64 as const),
        fc.boolean(),
        (valueUm, denominator, feet) => {
          const read = parseLength(formatInches(valueUm, { denominator, feet }), { unit: 'mm' })
          expect(read.ok).toBe(true)
          // Half a tick, and half a micrometre for each of the two snaps.
          if (read.ok) expect(Math.abs(read.value - valueUm)).toBeLessThanOrEqual(12_700 / denominator + 1)
          judged++
        },
      ),
    )
    expect(judged).toBeGreaterThan(0)
  })

  it('writes and reads every 32nd up to 20 ft exactly', () => {
    for (let ticks = 1; ticks <= 20 * 12 * 32; ticks++) {
      const expectedUm = Math.floor(ticks * 793.75 + 0.5)
      const text = formatInches(expectedUm, { denominator: 32 })
      expect(parseLength(text, { unit: 'mm' })).toEqual({ ok: true, value: expectedUm })
      const feetText = formatInches(expectedUm, { denominator: 32, feet: true })
      expect(parseLength(feetText, { unit: 'mm' })).toEqual({ ok: true, value: expectedUm })
    }
  })
})

describe('formatMm', () => {
  it.each([
    [1_613_000, undefined, '1613'],
    [1_611_313, undefined, '1611.3'],
    [1_611_313, 3, '1611.313'],
    [1_611_313, 0, '1611'],
    [50, undefined, '0.1'],
    [49, undefined, '0'],
    [-49, undefined, '0'],
    [-50, undefined, '-0.1'],
    [0, undefined, '0'],
    [999_950, undefined, '1000'],
    [12_500, 2, '12.5'],
  ] as const)('%i um with %s decimals', (valueUm, decimals, expected) => {
    expect(formatMm(valueUm, decimals === undefined ? {} : { decimals })).toBe(expected)
  })

  it('refuses what is not whole micrometres', () => {
    expect(() => formatMm(0.5)).toThrow(RangeError)
    expect(() => formatInches(Number.NaN, { denominator: 16 })).toThrow(RangeError)
  })

  it('gives inches as a number', () => {
    expect(inchesFromUm(1_611_312.5)).toBeCloseTo(63.4375, 10)
  })
})
