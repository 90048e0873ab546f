import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { compareJoints } from '#lib/core/statics/compare-joints'

describe('let in against on the face', () => {
  const { ways, sentence } = compareJoints(counterSeat, { species: 'redOak' })
  const way = (joint: string, supportFace: string) =>
    ways.find(({ choices }) => choices.joint === joint && choices.supportFace === supportFace)!.outcome

  it('judges every way that the design offers', () => {
    expect(ways).toHaveLength(4)
    expect(ways.every(({ outcome }) => outcome.ok)).toBe(true)
  })

  it('looks at the joints that the choice changes: supports to legs', () => {
    for (const { outcome } of ways) if (outcome.ok) expect(outcome.jointId).toMatch(/lap/)
  })

  // Common practice: a notch carries on its shoulders what screws would carry across their axes.
  it('let in holds more, much more without glue, and the shoulders carry', () => {
    const [letIn, onFace] = [way('letIn', 'inner'), way('onFace', 'inner')]
    if (!letIn.ok || !onFace.ok) throw new Error('refused')
    expect(letIn.margin).toBeGreaterThan(onFace.margin)
    expect(letIn.marginWithoutGlue).toBeGreaterThan(2 * onFace.marginWithoutGlue)
    expect(letIn.carriers.map(({ kind }) => kind)).toContain('shoulders')
    expect(onFace.carriers.map(({ kind }) => kind)).not.toContain('shoulders')
    // The glue alone governs both, so its numbers are the reason; the shoulders are what is left without it.
    expect(sentence).toMatch(/glue .+ has \d+(\.\d+)? MPa to bear, the other's .+ MPa, of .+ MPa allowed\./)
    expect(sentence).toMatch(/let go it is .+ times, since the shoulders of the notch carry/)
  })

  it('a way that cannot be built says why, with no number', () => {
    const tight = compareJoints(counterSeat, { species: 'redOak', screwLength: 50, supportThickness: 16 })
    const refused = tight.ways.filter(({ outcome }) => !outcome.ok)
    expect(refused.length).toBeGreaterThan(0)
    for (const { outcome } of refused) if (!outcome.ok) expect(outcome.sentence).toMatch(/screw/)
  })
})
