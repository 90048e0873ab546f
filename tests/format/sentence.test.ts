import { describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { sayInUnits, sayStrengthInUnits } from '#lib/format/sentence'

// 1 inch is 25.4 mm exactly (1959 agreement).
describe('sentences in this person’s unit', () => {
  it.each([
    ['Fence at 25.4 mm.', 'Fence at 1".'],
    ['Piece 508 × 50.8 mm.', 'Piece 20" × 2".'],
    ['254 to 304.8 mm is usual', '10" to 12" is usual'],
    ['Box 508 × 254 × 25.4 mm', 'Box 20" × 10" × 1"'],
    ['stands -25.4 mm off', 'stands -1" off'],
    ['elbows want 609.6 mm, no more', 'elbows want 24", no more'],
  ])('%s', (mm, inches) => {
    expect(sayInUnits(mm, 'in')).toBe(inches)
    expect(sayInUnits(mm, 'mm')).toBe(mm)
  })

  it('leaves areas, feeds, screw numbers and words alone', () => {
    for (const said of ['touch on 100 mm² only', '50 mm/s', '9 commas', 'No. 8'])
      expect(sayInUnits(said, 'in')).toBe(said)
    expect(sayInUnits('No. 8 × 25.4 mm', 'in')).toBe('No. 8 × 1"')
  })

  it('no notice, refusal or help of any design speaks millimetres to who reads inches', () => {
    let judged = 0
    for (const design of designs) {
      const built = design.build({})
      const hard = design.build({
        species: 'any',
        ...Object.fromEntries(design.parameters.map((p) => [p.id, p.max ?? p.default])),
      })
      const said = [
        ...(built.ok
          ? [...built.value.notices.map((n) => n.message), ...(built.value.fit ?? []).map((l) => l.measured)]
          : []),
        ...(hard.ok ? [] : hard.error.map((e) => e.message)),
        ...design.parameters.map((p) => p.help),
      ]
      for (const sentence of said)
        expect(sayInUnits(sentence, 'in').replaceAll('mm²', '')).not.toMatch(/\d mm\b/)
      judged += said.length
    }
    expect(judged).toBeGreaterThan(100)
  })
})

// 1 lbf = 4.4482216152605 N, 1 psi = 6.894757 kPa, 1 lb = 0.45359237 kg (1959 agreement, NIST SP 811).
describe('sentences about strength', () => {
  it.each([
    ['1000 N at the edge', '225 lbf at the edge'],
    ['bends to 10 MPa, where 9.09 MPa is allowed', 'bends to 1450 psi, where 1318 psi is allowed'],
    ['a screw: 69.8 of 92.9 N', 'a screw: 15.7 of 20.9 lbf'],
    ['weighs about 2.2 kg', 'weighs about 4.85 lb'],
    ['600 N, 60 mm inside the edge, 20 N outwards', '135 lbf, 2 3/8" inside the edge, 4.5 lbf outwards'],
    ['wants to move 1.3 mm, 1.6 mm is borne', 'wants to move 0.051", 0.063" is borne'],
    ['damp takes 1.8 mm of 6.0 mm', 'damp takes 0.071" of 0.236"'],
    ['Feet 11 mm further out', 'Feet 7/16" further out'],
  ])('%s', (metric, inches) => {
    expect(sayStrengthInUnits(metric, 'in')).toBe(inches)
    expect(sayStrengthInUnits(metric, 'mm')).toBe(metric)
  })

  it('leaves numbers of standards, moments and loads by area alone', () => {
    for (const said of ['EN 1728 and ISO 7173', 'EN 1995-1-1 Table 8.2', '30 N m', '1 kN/m2', '4 Nails'])
      expect(sayStrengthInUnits(said, 'in')).toBe(said)
  })
})
