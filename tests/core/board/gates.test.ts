import { describe, expect, it } from 'vitest'
import type { Board } from '#lib/core/board/board'
import {
  BOARD_WORKS,
  type BoardWork,
  GATE_REFUSALS,
  gateCautions,
  gateRefusals,
  gateSentence,
  mayWork,
  partRefusals,
} from '#lib/core/board/gates'
import { defect, soundBoard } from './boards'

const FINISHES = ['bare', 'clear', 'paint', 'unknown'] as const
const METALS = ['unchecked', 'cleared', 'found'] as const
const LEADS = ['notNeeded', 'untested', 'free', 'found'] as const

const everyBoard = (): Board[] =>
  FINISHES.flatMap((finish) =>
    METALS.flatMap((metal) =>
      LEADS.flatMap((lead) =>
        [true, false].flatMap((treated) =>
          [[], [defect({ kind: 'metal' })]].map((defects) =>
            soundBoard({ finish, metal, lead, treated, defects }),
          ),
        ),
      ),
    ),
  )

const faces = (role: 'show' | 'paint' | 'hidden') => ({
  endA: role,
  endB: role,
  edgeA: role,
  edgeB: role,
  faceA: role,
  faceB: role,
})

describe('gates', () => {
  it('lets a bare, cleared, untreated board go anywhere', () => {
    for (const work of BOARD_WORKS) expect(mayWork(soundBoard(), work)).toEqual({ ok: true, value: work })
  })

  it('keeps the three rules for every board there can be', () => {
    let judged = 0
    for (const board of everyBoard()) {
      for (const work of BOARD_WORKS) {
        const isShut = !mayWork(board, work).ok
        if (board.metal !== 'cleared' || board.defects.length > 0) expect(isShut).toBe(true)
        const dusty: readonly BoardWork[] = ['plane', 'route', 'sand', 'engrave']
        if (board.lead === 'untested' && board.finish !== 'bare' && dusty.includes(work))
          expect(isShut).toBe(true)
        if (board.lead === 'found') expect(isShut).toBe(true)
        if (board.treated && work === 'engrave') expect(isShut).toBe(true)
        for (const refusal of gateRefusals(board, work)) expect(GATE_REFUSALS).toContain(refusal)
        judged++
      }
    }
    expect(judged).toBe(4 * 3 * 4 * 2 * 2 * 6)
  })

  it.each<[Partial<Board>, BoardWork, string[]]>([
    [{ metal: 'unchecked' }, 'cut', ['metalUnchecked']],
    [{ metal: 'found' }, 'plane', ['metalFound']],
    [{ defects: [defect({ kind: 'metal' })] }, 'cut', ['metalFound']],
    [{ finish: 'paint', lead: 'untested' }, 'cut', []],
    [{ finish: 'paint', lead: 'untested' }, 'sand', ['leadUntested']],
    [
      { finish: 'unknown', lead: 'untested', metal: 'unchecked' },
      'plane',
      ['metalUnchecked', 'leadUntested'],
    ],
    [{ finish: 'bare', lead: 'untested' }, 'plane', []],
    [{ finish: 'paint', lead: 'notNeeded' }, 'plane', []],
    [{ finish: 'paint', lead: 'free' }, 'plane', []],
    [{ finish: 'paint', lead: 'free' }, 'engrave', ['coatingEngraved']],
    [{ finish: 'clear', lead: 'free' }, 'engrave', []],
    [{ finish: 'clear', lead: 'found' }, 'cut', ['leadFound']],
    [{ treated: true }, 'engrave', ['treatedEngraved']],
    [{ treated: true }, 'cut', []],
  ])('%j: %s is refused by %j', (changes, work, expected) => {
    expect(gateRefusals(soundBoard(changes), work)).toEqual(expected)
  })

  it('keeps treated wood out of parts that people touch', () => {
    const board = soundBoard({ treated: true })
    expect(partRefusals(board, faces('show'))).toEqual(['treatedTouched'])
    expect(partRefusals(board, faces('paint'))).toEqual(['treatedTouched'])
    expect(partRefusals(board, faces('hidden'))).toEqual([])
  })

  it('asks for the lead test before a part is planned, since a part is planed', () => {
    expect(partRefusals(soundBoard({ finish: 'paint', lead: 'untested' }), faces('paint'))).toEqual([
      'leadUntested',
    ])
  })

  it('has one sentence a code, and cautions where a gate is open', () => {
    expect(new Set(GATE_REFUSALS.map(gateSentence)).size).toBe(GATE_REFUSALS.length)
    expect(gateCautions(soundBoard({ treated: true }), 'cut')[0]).toContain('never burn')
    expect(gateCautions(soundBoard({ finish: 'paint', lead: 'untested' }), 'cut')).toHaveLength(2)
  })
})
