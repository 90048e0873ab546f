/** A field to engrave: where it lies, what it takes, when it does not fit, and what the laser is told. */
import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { crate } from '#lib/core/design/designs/crate/crate'
import { partNotes } from '#lib/core/design/drawing/part-notes'
import type { Part } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

const fieldsOf = ({ operations }: Part) => operations.filter((op) => op.kind === 'engravedField')
const engraved = (field: string) => modelOf(crate, { field, species: 'redOak' })

describe('the field of a crate', () => {
  it('lies on the top slat of the front, or of both long sides', () => {
    const on = (field: string) =>
      engraved(field)
        .parts.filter((p) => fieldsOf(p).length > 0)
        .map((p) => p.id)
    expect(on('none')).toEqual([])
    expect(on('front')).toEqual(['slat-front-3'])
    expect(on('both')).toEqual(['slat-front-3', 'slat-back-3'])
  })

  it('takes length × width × depth out of the wood, and its weight off (oak 705.6 kg/m³)', () => {
    const [plain, burnt] = ['none', 'front'].map((field) => partOf(engraved(field), 'slat-front-3'))
    const lost = massProperties(plain).volumeMm3 - massProperties(burnt).volumeMm3
    expect(lost).toBeCloseTo(150 * 40 * 0.8, 6)
    const kg = figureOf(engraved('none'), 'weight') - figureOf(engraved('both'), 'weight')
    expect(kg).toBeCloseTo(2 * 150 * 40 * 0.8 * 705.6e-9, 9)
  })

  it('stands in the notes of the drawing', () => {
    const notes = partNotes(partOf(engraved('front'), 'slat-front-3'), (mm) => `${mm} mm`)
    expect(notes).toContain(
      'Face A: engraved field 150 mm × 40 mm, 0.8 mm deep, its middle 200 mm from end A of the blank, on the middle line of the face.',
    )
  })

  it('is refused where the posts, the edges or the thickness leave no room', () => {
    // Between posts 400 − 2 (14 + 32) = 308 mm, less 5 mm at either end.
    expect(refusedFor(crate, { field: 'front', fieldLength: 299 })).toEqual(['fieldLength'])
    expect(refusedFor(crate, { field: 'front', fieldLength: 298 })).toEqual([])
    expect(refusedFor(crate, { field: 'both', fieldWidth: 100 })).toEqual(['fieldWidth'])
    expect(refusedFor(crate, { field: 'both', fieldDepth: 2, thickness: 9, screwLength: 30 })).toEqual([
      'fieldDepth',
    ])
    expect(refusedFor(crate, { field: 'none', fieldLength: 400 })).toEqual([])
  })
})

describe('the field of a counter seat', () => {
  it('looks away from the counter, in the middle of the backrest; without a back there is none', () => {
    const seat = modelOf(counterSeat, { back: 'low', seatBoards: 3, field: 'backrest', abreast: 1 })
    const backrest = partOf(seat, 'seat1-backrest')
    expect(fieldsOf(backrest)).toMatchObject([{ face: 'faceB', alongMm: backrest.blank.lengthMm / 2 }])
    expect(backrest.frame.z[1]).toBe(1)
    const plain = modelOf(counterSeat, { field: 'backrest', abreast: 1 })
    expect(plain.parts.flatMap(fieldsOf)).toEqual([])
  })

  it('keeps clear of the posts', () => {
    const at = (fieldLength: number) =>
      refusedFor(counterSeat, { back: 'low', seatBoards: 3, field: 'backrest', fieldLength })
    // 400 − 2 (17 + 38 + 19) = 252 mm between the posts.
    expect(at(242)).toEqual([])
    expect(at(243)).toEqual(['fieldLength'])
  })
})
