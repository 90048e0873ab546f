import { describe, expect, test } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import type { Model, Part } from '#lib/core/design/model'
import { fitsStill, type MadePart, partOfTick, standingOf } from '#lib/shop/parts-made'

function seat(over: Record<string, number | string> = {}): Model {
  const built = designById('counterSeat')!.build({ abreast: 1, ...over })
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}
const leg = (model: Model): Part => model.parts.find((part) => part.kind.startsWith('leg'))!
const longer = (part: Part): Part => ({
  ...part,
  blank: { ...part.blank, lengthMm: part.blank.lengthMm + 1 },
})
const withoutCuts = (part: Part): Part => ({ ...part, operations: [] })

describe('whether a piece that was cut still fits', () => {
  const one = leg(seat())

  test('the same part does, whatever its cuts are listed in', () => {
    expect(fitsStill(one, { ...one, operations: [...one.operations].reverse() }, true)).toBe(true)
  })

  test('another size does not; less than a micrometre is the same size', () => {
    expect(fitsStill(one, longer(one), false)).toBe(false)
    const hair = { ...one, blank: { ...one.blank, lengthMm: one.blank.lengthMm + 0.0002 } }
    expect(fitsStill(one, hair, false)).toBe(true)
  })

  test('other notches and holes fit a bare blank, not one that has been worked on', () => {
    expect(one.operations.length).toBeGreaterThan(0)
    expect(fitsStill(one, withoutCuts(one), false)).toBe(true)
    expect(fitsStill(one, withoutCuts(one), true)).toBe(false)
  })

  test('a named wood wants that wood; any wood takes what there is', () => {
    const [oak, any] = [
      { ...one, species: 'redOak' },
      { ...one, species: undefined },
    ]
    expect(fitsStill(oak, any, false)).toBe(true)
    expect(fitsStill(any, oak, false)).toBe(false)
    expect(fitsStill(oak, { ...one, species: 'beech' }, false)).toBe(false)
  })

  test('a face that was to be painted may be hidden, and may not show', () => {
    const face = (role: 'show' | 'paint' | 'hidden') => ({ ...one, faces: { ...one.faces, faceA: role } })
    expect(fitsStill(face('paint'), face('hidden'), false)).toBe(true)
    expect(fitsStill(face('paint'), face('show'), false)).toBe(false)
  })
})

describe('what changes in the books', () => {
  const model = seat()
  const part = leg(model)
  const piece = (id: string, over: Partial<MadePart> = {}): MadePart => ({
    id,
    partId: part.id,
    isSetAside: false,
    isWorked: false,
    was: part,
    ...over,
  })

  test('nothing, where all fits', () => {
    expect(standingOf([piece('a')], model)).toEqual({ aside: [], again: [] })
  })

  test('set aside: another size, a part that is gone, a plan that nobody can read', () => {
    const made = [
      piece('size', { was: longer(part) }),
      piece('gone', { partId: 'no-such-part' }),
      piece('unread', { partId: model.parts[1].id, was: null }),
    ]
    expect(standingOf(made, model)).toEqual({ aside: ['size', 'gone', 'unread'], again: [] })
  })

  test('taken up again, but never two for one part, and what counts already goes first', () => {
    const old = piece('old', { isSetAside: true })
    expect(standingOf([old], model)).toEqual({ aside: [], again: ['old'] })
    expect(standingOf([old, piece('new')], model)).toEqual({ aside: [], again: [] })
    expect(standingOf([old, piece('new', { was: longer(part) })], model)).toEqual({
      aside: ['new'],
      again: ['old'],
    })
    expect(standingOf([old, piece('older', { isSetAside: true })], model).again).toEqual(['old'])
  })

  test('a design that is another one keeps no piece of the first', () => {
    const built = designById('plantStand')!.build({})
    if (!built.ok) throw new Error('the plant stand cannot be built')
    const made = model.parts.map((p) => piece(p.id, { partId: p.id, was: p }))
    expect(standingOf(made, built.value).aside).toHaveLength(model.parts.length)
  })
})

test.each([
  ['op:leg-1:cut-endA', 'leg-1'],
  ['width:seat-2', 'seat-2'],
  ['cut:b1/12', 'b1'],
  ['nothing', ''],
])('the tick %s speaks of «%s»', (key, part) => expect(partOfTick(key)).toBe(part))
