import { beforeAll, describe, expect, test } from 'vitest'
import type { Result } from '#lib/core/units/result'
import {
  board as boardPage,
  changeBoard,
  putBoardBack,
  recordLead,
  recordMetal,
  removeBoard,
  reopenGate,
  setDefects,
} from '#lib/data/boards'
import { database } from '#lib/data/client'
import { hold } from '#lib/data/holds'
import { historyOfBoard } from '#lib/data/ledger'
import type { Refusal } from '#lib/shop/refusal'
import { board, build, member, shop } from './arrange'

beforeAll(() => shop())

const codeOf = <T>(r: Result<T, Refusal>) => (r.ok ? 'ok' : r.error.code)
const fieldsOf = <T>(r: Result<T, Refusal>) => (r.ok ? {} : (r.error.fields ?? {}))

const rowOf = (id: string) =>
  database().board.findUniqueOrThrow({ where: { id }, include: { defects: { orderBy: { xUm: 'asc' } } } })
type Row = Awaited<ReturnType<typeof board>>

const eventsOf = (boardId: string) =>
  database().stockEvent.findMany({ where: { boardId }, orderBy: { id: 'asc' } })

/** What the form of a board sends when nothing has been touched. */
const facts = (row: Row) => ({
  boardId: row.id,
  version: row.version,
  lengthUm: row.lengthUm,
  widthUm: row.widthUm,
  thicknessUm: row.thicknessUm,
  cupUm: row.cupUm,
  bowUm: row.bowUm,
  crookUm: row.crookUm,
  twistUm: row.twistUm,
  species: row.species,
  finish: row.finish,
  terms: row.terms,
  treated: row.treated,
  place: row.place,
  notes: row.notes,
})

const knot = {
  kind: 'knot',
  face: 'A',
  xUm: 100_000,
  yUm: 20_000,
  widthUm: 30_000,
  heightUm: 22_000,
} as const
const nail = {
  kind: 'metal',
  face: 'through',
  xUm: 500_000,
  yUm: 10_000,
  widthUm: 4_000,
  heightUm: 4_000,
} as const

async function liveHold(boardRow: Row, holderName = 'Mira') {
  const maker = await member('member', holderName)
  const { id: buildId } = await build(maker, { name: 'Window bench' })
  const taken = await hold(maker, { buildId, boards: [{ boardId: boardRow.id, version: boardRow.version }] })
  expect(taken.ok).toBe(true)
  return { maker, buildId }
}

describe('changing a board', () => {
  test('before and after of every field that changed are in the ledger; the version goes up', async () => {
    const owner = await member()
    const row = await board(owner)
    const changed = await changeBoard(owner, {
      ...facts(row),
      lengthUm: 880_000,
      cupUm: 2_000,
      place: ' Rack 3 ',
    })
    expect(changed).toEqual({ ok: true, value: { version: 2 } })
    expect(await rowOf(row.id)).toMatchObject({
      lengthUm: 880_000,
      cupUm: 2_000,
      place: 'Rack 3',
      version: 2,
    })
    const [event] = await eventsOf(row.id)
    expect(event).toMatchObject({
      kind: 'changed',
      memberId: owner.memberId,
      detail: {
        fields: {
          lengthUm: { was: 900_000, is: 880_000 },
          cupUm: { was: 0, is: 2_000 },
          place: { was: '', is: 'Rack 3' },
        },
      },
    })
  })

  test('nothing changed: no event, no new version', async () => {
    const owner = await member()
    const row = await board(owner)
    expect(await changeBoard(owner, facts(row))).toEqual({ ok: true, value: { version: 1 } })
    expect(await eventsOf(row.id)).toEqual([])
  })

  test('an admin may, another member may not', async () => {
    const row = await board(await member())
    expect(codeOf(await changeBoard(await member(), { ...facts(row), place: 'X' }))).toBe('notAllowed')
    expect(codeOf(await changeBoard(await member('admin'), { ...facts(row), place: 'X' }))).toBe('ok')
  })

  test('two at once: one wins, the other is told, and the loser can save on the new state', async () => {
    const owner = await member()
    const admin = await member('admin')
    for (let round = 0; round < 5; round++) {
      const row = await board(owner)
      const results = await Promise.all([
        changeBoard(owner, { ...facts(row), place: 'Rack 1' }),
        changeBoard(admin, { ...facts(row), thicknessUm: 19_000 }),
      ])
      expect(results.map(codeOf).sort()).toEqual(['changedMeanwhile', 'ok'])
      expect(await eventsOf(row.id)).toHaveLength(1)
      const now = await rowOf(row.id)
      expect(now.version).toBe(2)
      expect([now.place === 'Rack 1', now.thicknessUm === 19_000].filter(Boolean)).toHaveLength(1)
      const again = await changeBoard(owner, { ...facts(now), place: 'Rack 1', thicknessUm: 19_000 })
      expect(codeOf(again)).toBe('ok')
      expect(await rowOf(row.id)).toMatchObject({ place: 'Rack 1', thicknessUm: 19_000, version: 3 })
    }
  })

  test('20 writers who each read and save: every change that was confirmed is in the ledger, none is lost', async () => {
    const owner = await member()
    const row = await board(owner)
    const writers = Array.from({ length: 20 }, async (_, i) => {
      for (;;) {
        const seen = await rowOf(row.id)
        const result = await changeBoard(owner, { ...facts(seen), notes: `${seen.notes}${i};` })
        if (result.ok) return
        expect(result.error.code).toBe('changedMeanwhile')
      }
    })
    await Promise.all(writers)
    const { notes, version } = await rowOf(row.id)
    const ids = notes.split(';').filter(Boolean).map(Number)
    expect([...ids].sort((a, b) => a - b)).toEqual(Array.from({ length: 20 }, (_, i) => i))
    expect(version).toBe(21)
    expect(await eventsOf(row.id)).toHaveLength(20)
  })

  test('impossible measures: a sentence beside each field, in the units of the person', async () => {
    const owner = await member()
    const row = await board(owner)
    const result = await changeBoard(owner, {
      ...facts(row),
      units: 'in',
      lengthUm: 1_000,
      widthUm: -4,
      cupUm: 80_000,
      species: 'plastic',
    })
    expect(codeOf(result)).toBe('badInput')
    const bad = await changeBoard(owner, { ...facts(row), units: 'in', lengthUm: 1_000, widthUm: -4 })
    expect(Object.keys(fieldsOf(bad)).sort()).toEqual(['length', 'width'])
    expect(fieldsOf(bad).length).toContain('"')
    expect(fieldsOf(result)).toEqual({ species: 'Choose a species, or «Not known».' })
    expect(await rowOf(row.id)).toMatchObject({ version: 1, lengthUm: 900_000 })
  })

  test('a board is not made shorter than where its marks lie', async () => {
    const owner = await member()
    const row = await board(owner, { defects: { create: { ...knot, xUm: 860_000 } } })
    const result = await changeBoard(owner, { ...facts(row), lengthUm: 870_000 })
    expect(fieldsOf(result)).toEqual({ length: 'One mark would lie off the board: move or delete it first.' })
    // The database says the same to whoever goes past the action.
    await expect(
      database().board.update({ where: { id: row.id }, data: { lengthUm: 870_000 } }),
    ).rejects.toThrow(/off its board/)
  })

  test('while it is held its size and species stay, and the sentence says who holds it; the rest may change', async () => {
    const owner = await member()
    const row = await board(owner)
    await liveHold(row)
    const size = await changeBoard(owner, { ...facts(row), widthUm: 80_000 })
    expect(size).toMatchObject({ ok: false, error: { code: 'boardsHeld' } })
    if (!size.ok) expect(size.error.about).toContain('held by Mira for «Window bench» until')
    expect(codeOf(await changeBoard(owner, { ...facts(row), species: 'redOak' }))).toBe('boardsHeld')
    expect(codeOf(await changeBoard(owner, { ...facts(row), place: 'Rack 9', cupUm: 1_000 }))).toBe('ok')
  })

  test('size against a hold at the same moment: never a held board of another size than the hold saw', async () => {
    const owner = await member()
    for (let round = 0; round < 8; round++) {
      const row = await board(owner)
      const maker = await member()
      const { id: buildId } = await build(maker)
      const [changed, held] = await Promise.all([
        changeBoard(owner, { ...facts(row), lengthUm: 700_000 }),
        hold(maker, { buildId, boards: [{ boardId: row.id, version: 1 }] }),
      ])
      expect([codeOf(changed), codeOf(held)].sort()).toEqual(
        held.ok ? ['boardsHeld', 'ok'] : ['boardsChanged', 'ok'],
      )
    }
  })

  test('a hold that has run out locks nothing, and the ledger says that it ran out first', async () => {
    const owner = await member()
    const row = await board(owner)
    await liveHold(row)
    await database().hold.updateMany({
      where: { boardId: row.id },
      data: { createdAt: new Date(Date.now() - 2e6), expiresAt: new Date(Date.now() - 1e6) },
    })
    expect(codeOf(await changeBoard(owner, { ...facts(row), lengthUm: 700_000 }))).toBe('ok')
    expect((await eventsOf(row.id)).map((e) => e.kind)).toEqual(['held', 'lapsed', 'changed'])
  })

  test('a new coat of unknown age needs a lead test; the result of a test stands', async () => {
    const owner = await member()
    const bare = await board(owner)
    await changeBoard(owner, { ...facts(bare), finish: 'paint' })
    expect(await rowOf(bare.id)).toMatchObject({ finish: 'paint', lead: 'untested' })
    const found = await board(owner, { finish: 'paint', lead: 'found' })
    await changeBoard(owner, { ...facts(found), finish: 'bare' })
    expect(await rowOf(found.id)).toMatchObject({ finish: 'bare', lead: 'found' })
  })
})

describe('marks on the faces', () => {
  const set = (actor: Parameters<typeof setDefects>[0], row: Row, defects: unknown[]) =>
    setDefects(actor, { boardId: row.id, version: row.version, defects })

  test('all of them at once; what came and went is in the ledger', async () => {
    const owner = await member()
    const row = await board(owner, { defects: { create: knot } })
    const hole = { ...knot, kind: 'hole', face: 'through', xUm: 10_000 }
    expect(await set(owner, row, [hole])).toMatchObject({ ok: true, value: { version: 2 } })
    expect((await rowOf(row.id)).defects).toMatchObject([hole])
    const [event] = await eventsOf(row.id)
    expect(event).toMatchObject({ kind: 'changed', detail: { marks: { gone: [knot], come: [hole] } } })
  })

  test('saving the same marks again changes nothing', async () => {
    const owner = await member()
    const row = await board(owner, { defects: { create: knot } })
    expect(await set(owner, row, [knot])).toMatchObject({ ok: true, value: { version: 1 } })
    expect(await eventsOf(row.id)).toEqual([])
  })

  test.each([
    ['past the end', { xUm: 880_000 }, 'defects.1.width'],
    ['past the edge', { yUm: 95_000 }, 'defects.1.y'],
    ['before the corner', { xUm: -1 }, 'defects.1.x'],
    ['of no size', { heightUm: 0 }, 'defects.1.height'],
  ])('a mark %s: its sentence, and the old marks stay', async (_, over, field) => {
    const owner = await member()
    const row = await board(owner, { defects: { create: knot } })
    const result = await set(owner, row, [knot, { ...knot, ...over }])
    expect(Object.keys(fieldsOf(result))).toEqual([field])
    expect((await rowOf(row.id)).defects).toMatchObject([knot])
    expect(await eventsOf(row.id)).toEqual([])
  })

  test('two at once: one set of marks is kept whole, the other is told', async () => {
    const owner = await member()
    const row = await board(owner)
    const many = (x: number) => Array.from({ length: 40 }, (_, i) => ({ ...knot, xUm: x + i * 1_000 }))
    const results = await Promise.all([set(owner, row, many(0)), set(owner, row, many(400_000))])
    expect(results.map(codeOf).sort()).toEqual(['changedMeanwhile', 'ok'])
    const { defects } = await rowOf(row.id)
    expect(defects).toHaveLength(40)
    const isFirst = results[0].ok
    expect(defects.every((d) => (isFirst ? d.xUm < 400_000 : d.xUm >= 400_000))).toBe(true)
  })

  test('a new mark of metal shuts the metal gate, and the ledger says why', async () => {
    const owner = await member()
    const row = await board(owner)
    expect(await set(owner, row, [nail])).toMatchObject({ ok: true, value: { metal: 'found' } })
    expect((await rowOf(row.id)).metal).toBe('found')
    expect((await eventsOf(row.id)).map((e) => e.kind)).toEqual(['changed', 'gate'])
  })

  test('more marks than a board can have, and not the owner', async () => {
    const owner = await member()
    const row = await board(owner)
    expect(codeOf(await set(owner, row, Array(201).fill(knot)))).toBe('badInput')
    expect(codeOf(await set(await member(), row, [knot]))).toBe('notAllowed')
  })
})

describe('safety gates', () => {
  const metal = (row: Row, was: string, is: string, more: object = {}) => ({
    boardId: row.id,
    was,
    is,
    ...more,
  })

  test('any member records a check of any board; the ledger says who and when', async () => {
    const row = await board(await member(), { metal: 'unchecked' })
    const checker = await member('member', 'Tove')
    expect(codeOf(await recordMetal(checker, metal(row, 'unchecked', 'cleared', { note: 'wand' })))).toBe(
      'ok',
    )
    expect(await rowOf(row.id)).toMatchObject({ metal: 'cleared', version: 2 })
    const [event] = await eventsOf(row.id)
    expect(event).toMatchObject({
      kind: 'gate',
      memberId: checker.memberId,
      detail: { gate: 'metal', was: 'unchecked', is: 'cleared', note: 'wand' },
    })
  })

  test('only owner or admin takes a check back', async () => {
    const owner = await member()
    const row = await board(owner)
    const back = { boardId: row.id, version: 1, gate: 'metal' }
    expect(codeOf(await recordMetal(owner, metal(row, 'cleared', 'unchecked')))).toBe('alreadyDecided')
    expect(codeOf(await reopenGate(await member(), back))).toBe('notAllowed')
    expect(codeOf(await reopenGate(owner, back))).toBe('ok')
    expect((await rowOf(row.id)).metal).toBe('unchecked')
    expect(codeOf(await reopenGate(owner, { ...back, version: 2 }))).toBe('alreadyDecided')
  })

  test('ten members record at once what they saw: one does, nine are told', async () => {
    const row = await board(await member(), { metal: 'unchecked' })
    const checkers = await Promise.all(Array.from({ length: 10 }, () => member()))
    const results = await Promise.all(
      checkers.map((c, i) => recordMetal(c, metal(row, 'unchecked', i % 2 ? 'cleared' : 'found'))),
    )
    expect(results.map(codeOf).filter((c) => c === 'ok')).toHaveLength(1)
    expect(results.map(codeOf).filter((c) => c === 'changedMeanwhile')).toHaveLength(9)
    expect(await eventsOf(row.id)).toHaveLength(1)
  })

  test('not cleared while metal is marked; once it is out, the marks become nail holes', async () => {
    const owner = await member()
    const row = await board(owner, { metal: 'found', defects: { create: [nail, knot] } })
    const refused = await recordMetal(owner, metal(row, 'found', 'cleared'))
    expect(refused).toMatchObject({ ok: false, error: { code: 'boardGated' } })
    if (!refused.ok) expect(refused.error.about).toContain('in one place')
    expect(
      codeOf(await recordMetal(owner, metal(row, 'found', 'cleared', { metalMarksAre: 'nailHole' }))),
    ).toBe('ok')
    const after = await rowOf(row.id)
    expect(after.metal).toBe('cleared')
    expect(after.defects.map((d) => d.kind).sort()).toEqual(['knot', 'nailHole'])
    expect((await eventsOf(row.id)).map((e) => e.kind)).toEqual(['gate', 'changed'])
  })

  test('lead: tested free, found; «needs no test» only for bare wood', async () => {
    const painted = await board(await member(), { finish: 'paint', lead: 'untested' })
    const by = await member()
    const lead = (was: string, is: string) => recordLead(by, { boardId: painted.id, was, is })
    expect(codeOf(await lead('untested', 'notNeeded'))).toBe('alreadyDecided')
    expect(codeOf(await lead('untested', 'found'))).toBe('ok')
    expect(codeOf(await lead('found', 'free'))).toBe('ok')
    expect(codeOf(await lead('found', 'free'))).toBe('changedMeanwhile')
    const stripped = await board(await member(), { finish: 'bare', lead: 'untested' })
    expect(codeOf(await recordLead(by, { boardId: stripped.id, was: 'untested', is: 'notNeeded' }))).toBe(
      'ok',
    )
  })
})

describe('leaving the pool', () => {
  const out = (row: Row, reason = 'logged twice') => ({ boardId: row.id, version: row.version, reason })

  test('with a reason, in the ledger; and back', async () => {
    const owner = await member()
    const row = await board(owner)
    expect(fieldsOf(await removeBoard(owner, out(row, '  ')))).toHaveProperty('reason')
    expect(codeOf(await removeBoard(owner, out(row)))).toBe('ok')
    expect(codeOf(await changeBoard(owner, { ...facts(row), version: 2, place: 'X' }))).toBe('boardNotInPool')
    expect(codeOf(await removeBoard(owner, { ...out(row), version: 2 }))).toBe('boardNotInPool')
    expect(codeOf(await putBoardBack(owner, { boardId: row.id, version: 2 }))).toBe('ok')
    expect(await rowOf(row.id)).toMatchObject({ status: 'inPool', version: 3 })
    expect((await eventsOf(row.id)).map((e) => [e.kind, e.detail])).toEqual([
      ['removed', { reason: 'logged twice' }],
      ['putBack', {}],
    ])
  })

  test('not while it is held; the sentence says by whom', async () => {
    const owner = await member()
    const row = await board(owner)
    await liveHold(row, 'Ada')
    const result = await removeBoard(owner, out(row))
    expect(result).toMatchObject({ ok: false, error: { code: 'boardsHeld' } })
    if (!result.ok) expect(result.error.about).toContain('held by Ada')
  })

  test('removed and held at the same moment: one of the two, never both', async () => {
    const owner = await member()
    for (let round = 0; round < 8; round++) {
      const row = await board(owner)
      const maker = await member()
      const { id: buildId } = await build(maker)
      const holding = () => hold(maker, { buildId, boards: [{ boardId: row.id, version: 1 }] })
      const removing = () => removeBoard(owner, out(row))
      const results = await Promise.all(round % 2 ? [holding(), removing()] : [removing(), holding()])
      const codes = results.map((r) => codeOf<unknown>(r)).sort()
      expect(codes.filter((c) => c === 'ok')).toHaveLength(1)
      const { status } = await rowOf(row.id)
      const live = await database().hold.count({ where: { boardId: row.id, status: 'live' } })
      expect(status === 'inPool' ? live : live + 1).toBe(1)
    }
  })

  test('requests for it are answered no, and the ledger says so', async () => {
    const owner = await member()
    const row = await board(owner, { terms: 'ask' })
    await liveHold(row)
    expect(codeOf(await removeBoard(owner, out(row)))).toBe('ok')
    expect((await eventsOf(row.id)).map((e) => e.kind)).toEqual(['holdAsked', 'declined', 'removed'])
    expect(await database().hold.count({ where: { boardId: row.id, status: 'requested' } })).toBe(0)
  })

  test('a board that was cut is not put back', async () => {
    const owner = await member()
    const row = await board(owner, { status: 'cut' })
    expect(codeOf(await putBoardBack(owner, { boardId: row.id, version: 1 }))).toBe('alreadyCut')
  })
})

describe('the page of a board', () => {
  test('facts, marks, hold, parentage', async () => {
    const owner = await member('member', 'Olga')
    const first = await board(owner, { status: 'cut' })
    const second = await board(owner, { parentId: first.id, status: 'cut' })
    const row = await board(owner, { parentId: second.id, defects: { create: knot } })
    const offcut = await board(owner, { parentId: row.id })
    await liveHold(row)
    const page = await boardPage(await member(), { boardId: row.id })
    if (!page.ok) throw new Error(page.error.code)
    expect(page.value).toMatchObject({
      number: row.number,
      ownerName: 'Olga',
      isOffcut: true,
      mayChange: false,
      hold: { memberName: 'Mira', buildName: 'Window bench' },
      defects: [knot],
    })
    expect(page.value.parents.map((p) => p.number)).toEqual([first.number, second.number])
    expect(page.value.offcuts.map((o) => o.number)).toEqual([offcut.number])
    expect(JSON.stringify(page.value)).not.toMatch(/passwordHash|calendarToken|@example/)
  })

  test('history in pages, the latest first, to its end', async () => {
    const owner = await member('member', 'Olga')
    const row = await board(owner)
    await database().stockEvent.createMany({
      data: Array.from({ length: 120 }, (_, i) => ({
        boardId: row.id,
        memberId: owner.memberId,
        kind: 'gate',
        detail: { i },
      })),
    })
    const seen: unknown[] = []
    let before: string | null | undefined
    for (let page = 0; page < 5 && before !== null; page++) {
      const result = await historyOfBoard(owner, { boardId: row.id, ...(before ? { before } : {}) })
      if (!result.ok) throw new Error(result.error.code)
      seen.push(...result.value.events.map((e) => (e.detail as { i: number }).i))
      before = result.value.before
    }
    expect(seen).toEqual(Array.from({ length: 120 }, (_, i) => 119 - i))
  })
})
