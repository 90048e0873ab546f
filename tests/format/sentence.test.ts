import { describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { sayInUnits } from '#lib/format/sentence'

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
