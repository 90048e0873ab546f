import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { evaluate, type Value } from '#lib/core/design/recipe/evaluate'
import { judgeFormula } from '#lib/core/design/recipe/judge-formula'
import { nearestName } from '#lib/core/design/recipe/nearest-name'
import { LIMITS } from '#lib/core/design/recipe/recipe'
import { nameFault } from '#lib/core/design/recipe/syntax'
import { BARE, DEG, MM, PLAIN, sayUnit, type Unit, YES_NO } from '#lib/core/design/recipe/unit'
import { parseFormula } from '#lib/engine/formula-parser'

const UNITS = new Map<string, Unit>([
  ['width', MM],
  ['height', MM],
  ['rake', DEG],
  ['slats', PLAIN],
  ['isTall', YES_NO],
  ['finish', { kind: 'choice', options: ['clear', 'paint'] }],
  ['screwSize', { kind: 'choice', options: ['no6', 'no8'] }],
])
const VALUES = new Map<string, Value>([
  ['width', 300],
  ['height', 450],
  ['rake', 8],
  ['slats', 3],
  ['isTall', true],
  ['finish', 'paint'],
  ['screwSize', 'no8'],
])

function tree(text: string) {
  const read = parseFormula(text)
  if (!read.ok) throw new Error(read.error)
  return read.value
}
const worth = (text: string): Value => evaluate(tree(text), VALUES)
function unitOf(text: string): Unit {
  const unit = judgeFormula(tree(text), UNITS)
  if (!unit.ok) throw new Error(unit.error)
  return unit.value
}
function faultOf(text: string): string {
  const read = parseFormula(text)
  const judged = read.ok ? judgeFormula(read.value, UNITS) : read
  if (judged.ok) throw new Error(`«${text}» passed`)
  return judged.error
}

describe('values', () => {
  it.each([
    ['2 + 3 * 4', 14],
    ['2 ^ 3 ^ 2', 512],
    ['-2 ^ 2', -4],
    ['(2 + 3) * 4', 20],
    ['7 mod 3', 1],
    ['-1 mod 3', 2],
    ['1 / 8', 0.125],
    ['width / 2 - 60', 90],
    ['min(width, height, 100 mm)', 100],
    ['max(1, 2, 3)', 3],
    ['abs(-4)', 4],
    ['round(2.5)', 3],
    ['floor(-2.5)', -3],
    ['ceil(2.1)', 3],
    ['sqrt(width * width)', 300],
    ['slats == 3 ? 1 : 2', 1],
    ['slats > 3 ? 1 : slats > 2 ? 5 : 6', 5],
    ['1 < slats < 4', true],
    ['1 < slats < 3', false],
    ['isTall and not (slats == 2)', true],
    ['finish == "paint"', true],
    ['finish != "paint" or slats >= 3', true],
    ['2 × width − 10', 590],
    ['slats ≥ 3', true],
  ])('%s is %s', (text, value) => {
    expect(worth(text)).toBe(value)
  })

  // Exact values of the unit circle; angles are in degrees.
  it.each([
    ['sin(30)', 0.5],
    ['cos(60)', 0.5],
    ['tan(45)', 1],
    ['asin(0.5)', 30],
    ['acos(0.5)', 60],
    ['atan(1)', 45],
    ['atan2(1, -1)', 135],
    ['sin(rake) ^ 2 + cos(rake) ^ 2', 1],
  ])('%s is %f', (text, value) => {
    expect(worth(text)).toBeCloseTo(value, 12)
  })

  it('knows the shank of a No. 8 screw: 0.060 in + 8 × 0.013 in (ANSI/ASME B18.6.1, from secondary lists)', () => {
    expect(worth('shank(screwSize)')).toBeCloseTo(4.1656, 10)
  })

  it('agrees with arithmetic written out, for random numbers', () => {
    let judged = 0
    const some = fc.double({ min: -1e3, max: 1e3, noNaN: true }).map((x) => Number(x.toFixed(3)))
    fc.assert(
      fc.property(some, some, some, (a, b, c) => {
        judged++
        expect(worth(`(${a}) * (${b}) - (${c}) / 7 + abs(${a})`)).toBeCloseTo(a * b - c / 7 + Math.abs(a), 6)
      }),
    )
    expect(judged).toBeGreaterThan(50)
  })
})

describe('units', () => {
  it.each<[string, Unit]>([
    ['60', BARE],
    ['height - 60', MM],
    ['60 - height', MM],
    ['2 * width', MM],
    ['width / height', PLAIN],
    ['width / 180 mm', PLAIN],
    ['sqrt(width * height)', MM],
    ['width ^ 2 / height', MM],
    ['sin(rake)', PLAIN],
    ['sin(30)', PLAIN],
    ['atan2(width, height)', DEG],
    ['asin(width / height)', DEG],
    ['rake + 5', DEG],
    ['90 - rake', DEG],
    ['max(0, width)', MM],
    ['slats > 2 ? width : 30', MM],
    ['width > 30', YES_NO],
    ['finish == "clear"', YES_NO],
  ])('%s', (text, unit) => {
    expect(sayUnit(unitOf(text))).toBe(sayUnit(unit))
  })

  it.each([
    ['width + rake', /«\+» adds a length in mm and an angle in degrees/],
    ['width + slats', /do not go together/],
    ['sin(width)', /«sin» wants an angle in degrees and gets a length in mm/],
    ['sqrt(width)', /«sqrt» wants a plain number or an area/],
    ['width ^ 0.5', /whole number written out/],
    ['2 ^ width', /must be a plain number/],
    ['width > rake', /compares/],
    ['width ? 1 : 2', /wants yes or no/],
    ['slats > 1 ? width : rake', /both must be of one unit/],
    ['min(width, rake)', /«min» gets/],
    ['finish == "gold"', /«gold» is none of the choices: clear, paint\./],
    ['finish + 1', /wants a number and gets a choice/],
    ['isTall + 1', /gets yes or no/],
    ['shank(width)', /shank\(screwSize\)/],
    ['atan2(1)', /takes 2/],
  ])('%s is refused', (text, sentence) => {
    expect(faultOf(text)).toMatch(sentence)
    expect(faultOf(text)).toMatch(/\.$/)
  })
})

describe('names', () => {
  it.each([
    ['widht / 2', /There is no name «widht» here\. Do you mean «width»\?/],
    ['Height', /Do you mean «height»/],
    ['zebra', /^There is no name «zebra» here\.$/],
    ['sni(30)', /Do you mean «sin»/],
    ['width(2)', /write \* before it/],
  ])('%s: the nearest is offered', (text, sentence) => {
    expect(faultOf(text)).toMatch(sentence)
  })

  it('nearest by edit distance', () => {
    expect(nearestName('lenght', ['length', 'width'])).toBe('length')
    expect(nearestName('x', ['length', 'width'])).toBeUndefined()
  })

  it.each([
    'sin',
    'mm',
    'i',
    'and',
    'constructor',
    'toString',
    'hasOwnProperty',
    '__proto__',
    'a b',
    '2a',
    '',
    'finish',
    'x'.repeat(41),
  ])('«%s» cannot be a name', (name) => {
    expect(nameFault(name)).toMatch(/\.$/)
  })
  it.each(['rake', 'legWidth2', 'A'])('«%s» can', (name) => expect(nameFault(name)).toBeUndefined())
})

describe('what is no formula here', () => {
  it.each([
    'width.constructor',
    'width["constructor"]',
    'constructor',
    '__proto__',
    'constructor("return 1")()',
    'f(x) = x',
    'a = 3',
    'a; b',
    '1\n2',
    '[1, 2]',
    '{ a: 1 }',
    '1:3',
    'width!',
    "width'",
    'width to mm',
    'true',
    'null',
    'NaN',
    'Infinity',
    '1e999',
    'import("fs")',
    'eval("1")',
    'parse("1")',
    'createUnit("x")',
    'random()',
    'width # what for',
    '2 width',
    '1 / 2 mm',
    '',
    '   ',
    'width +',
    '(width',
    'width ? 1',
    '1,5',
    '"text"+1',
    'process',
    'globalThis',
    'this',
    '() => 1',
    '`x`',
  ])('%s', (text) => {
    expect(faultOf(text)).toMatch(/^[^\n]{8,300}\.$|\?$/)
    expect(faultOf(text)).not.toMatch(/undefined|Error:/)
  })

  it.each([
    ['brackets', `${'('.repeat(140)}1${')'.repeat(140)}`],
    ['minuses', `${'-'.repeat(290)}1`],
    ['choices', `${'isTall?1:'.repeat(30)}1`],
    ['powers', Array(140).fill('9').join('^')],
    ['sums', Array(140).fill('1').join('+')],
    ['not', `${'not '.repeat(70)}isTall`],
    ['calls', `${'abs('.repeat(35)}1${')'.repeat(35)}`],
    ['length', '1'.repeat(LIMITS.formulaChars + 1)],
  ])('too much of it: %s', (_, text) => {
    expect(faultOf(text)).toMatch(/too deeply|too long|too many|at most/)
  })

  it('whatever is typed gives a sentence or a formula, and never throws', () => {
    const bits = [
      'width',
      'rake',
      '2',
      '(',
      ')',
      '+',
      '-',
      '*',
      '/',
      '^',
      '?',
      ':',
      ',',
      'sin',
      'min',
      ' ',
      '.',
      '"',
      '[',
      '{',
      '=',
      'not',
      'mm',
      '!',
      '%',
      '<',
      "'",
      '\\',
      'e',
      '#',
      '∞',
    ]
    const seen = { good: 0, bad: 0 }
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...bits), { maxLength: 14 }), (pieces) => {
        const read = parseFormula(pieces.join(''))
        const judged = read.ok ? judgeFormula(read.value, UNITS) : read
        if (judged.ok && read.ok) {
          seen.good++
          evaluate(read.value, VALUES)
        } else seen.bad++
      }),
      { numRuns: 4000, seed: 5 },
    )
    expect(seen.good).toBeGreaterThan(20)
    expect(seen.bad).toBeGreaterThan(1000)
  })
})
