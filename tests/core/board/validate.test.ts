import { describe, expect, it } from 'vitest'
import { BOARD_LIMITS, type BoardDraft, validateBoard } from '#lib/core/board/validate'
import { defect, FLAT, soundBoard } from './boards'

const fields = (changes: Partial<BoardDraft>) =>
  validateBoard({ ...soundBoard(), ...changes }).map((complaint) => complaint.field)

describe('validateBoard', () => {
  it('has nothing to say about a sound board, however wide for its length', () => {
    expect(validateBoard(soundBoard())).toEqual([])
    expect(fields({ lengthUm: 100_000, widthUm: 300_000 })).toEqual([])
    expect(fields({ defects: [defect({ xUm: 0, yUm: 0, widthUm: 2_000_000, heightUm: 200_000 })] })).toEqual(
      [],
    )
  })

  it('takes sizes at the limits and refuses those beyond', () => {
    for (const name of ['length', 'width', 'thickness'] as const) {
      const { min, max } = BOARD_LIMITS[`${name}Um`]
      for (const valueUm of [min, max]) expect(fields({ [`${name}Um`]: valueUm })).toEqual([])
      for (const valueUm of [min - 1, max + 1, 0, -1, Number.NaN, 0.5])
        expect(fields({ [`${name}Um`]: valueUm })).toContain(name)
    }
  })

  it('says the size and the limit in the unit of the person', () => {
    const draft = soundBoard({ lengthUm: 13_000_000 })
    expect(validateBoard(draft)[0].message).toBe('The length is 13000 mm; the most is 12000 mm.')
    expect(validateBoard(draft, { unit: 'in' })[0].message).toBe(
      'The length is 511 13/16"; the most is 472 7/16".',
    )
  })

  it('refuses a warp that no board has', () => {
    expect(fields({ warp: { cupUm: 50_000, bowUm: 200_000, crookUm: 100_000, twistUm: 100_000 } })).toEqual(
      [],
    )
    expect(fields({ warp: { cupUm: 50_001, bowUm: 200_001, crookUm: 100_001, twistUm: 100_001 } })).toEqual([
      'cup',
      'bow',
      'crook',
      'twist',
    ])
    expect(fields({ warp: { ...FLAT, cupUm: -1, twistUm: Number.NaN } })).toEqual(['cup', 'twist'])
  })

  it('complains about the size alone where the size is what is wrong', () => {
    expect(fields({ widthUm: 0, warp: { ...FLAT, cupUm: 3_000 } })).toEqual(['width'])
  })

  it('refuses a defect off the board at the field to change', () => {
    expect(fields({ defects: [defect({ xUm: 2_000_000 })] })).toEqual(['defects.0.x'])
    expect(fields({ defects: [defect({ xUm: 1_999_000 })] })).toEqual(['defects.0.width'])
    expect(fields({ defects: [defect(), defect({ yUm: 196_001 })] })).toEqual(['defects.1.height'])
    expect(fields({ defects: [defect({ yUm: -1 })] })).toEqual(['defects.0.y'])
    expect(fields({ defects: [defect({ widthUm: 0, heightUm: -5 })] })).toEqual([
      'defects.0.width',
      'defects.0.height',
    ])
    expect(fields({ defects: [defect({ kind: 'woodworm' as never, face: 'C' as never })] })).toEqual([
      'defects.0.kind',
      'defects.0.face',
    ])
  })

  it('refuses more defects than anyone logs', () => {
    const many = Array.from({ length: BOARD_LIMITS.defects + 1 }, () => defect())
    expect(fields({ defects: many })).toEqual(['defects'])
  })
})
