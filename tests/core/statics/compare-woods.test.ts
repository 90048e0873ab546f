import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import type { Model, ParameterValues } from '#lib/core/design/model'
import { compareWoods, isUnnamed } from '#lib/core/statics/compare-woods'
import { checkStrength } from '#lib/core/statics/strength'
import { SPECIES } from '#lib/core/wood/species'

function seat(values: ParameterValues = {}): Model {
  const built = counterSeat.build(values)
  if (!built.ok) throw new Error(built.error[0].message)
  return built.value
}
const NAMED = SPECIES.filter(({ id }) => !id.startsWith('unknown'))

describe('which woods would do', () => {
  it('judges every wood of the table as if the design had asked for it, the best first', () => {
    const woods = compareWoods(seat())
    expect(new Set(woods.map(({ speciesId }) => speciesId))).toEqual(new Set(NAMED.map(({ id }) => id)))
    for (const wood of [woods[0], woods[woods.length - 1]]) {
      const alone = checkStrength(seat({ species: wood.speciesId }))
      if (!alone.ok) throw new Error(alone.error)
      const { checks, verdict } = alone.value
      const least = Math.min(...checks.filter((c) => c.weight === 'safety').map(({ margin }) => margin))
      expect(wood.margin).toBeCloseTo(least, 9)
      expect(wood.passes).toBe(verdict === 'passes')
    }
    const rank = woods.map(({ passes, margin }) => (passes ? 1000 : 0) + margin)
    expect(rank).toEqual([...rank].sort((a, b) => b - a))
  })

  it('the seat as it is shipped does in oak, beech and maple, and not in soft pine or cedar', () => {
    const good = compareWoods(seat()).filter(({ passes }) => passes)
    const ids = good.map(({ speciesId }) => speciesId)
    expect(ids).toEqual(expect.arrayContaining(['redOak', 'whiteOak', 'beech', 'hardMaple']))
    for (const weak of ['easternWhitePine', 'westernRedcedar']) expect(ids).not.toContain(weak)
  })

  it('keeps to the kind that is asked for, and to nothing where the wood is named', () => {
    const hard = compareWoods(seat({ species: 'hardwood' }))
    expect(hard.length).toBe(NAMED.filter(({ kind }) => kind === 'hardwood').length)
    expect(compareWoods(seat({ species: 'redOak' }))).toEqual([])
  })

  it('leaves a part whose wood is named as it is', () => {
    const open = seat()
    const mixed = {
      ...open,
      parts: open.parts.map((p) => (p.kind === 'rail' ? { ...p, species: 'beech' } : p)),
    }
    const soft = compareWoods(mixed).find(({ speciesId }) => speciesId === 'easternWhitePine')!
    const all = compareWoods(open).find(({ speciesId }) => speciesId === 'easternWhitePine')!
    expect(soft.margin).not.toBe(all.margin)
  })

  it('can be stopped, and refuses what cannot be judged', () => {
    expect(compareWoods(seat(), {}, { maxSteps: 99, shouldStop: () => true })).toEqual([])
    expect(compareWoods({ ...seat(), joints: [] })).toEqual([])
  })

  it.each([
    [undefined, true],
    ['', true],
    ['any', true],
    ['unknownSoftwood', true],
    ['redOak', false],
    ['ipe', false],
  ])('a wish for %s leaves the wood open: %s', (wish, open) => expect(isUnnamed(wish)).toBe(open))
})
