import { describe, expect, test } from 'vitest'
import { ok } from '#lib/core/units/result'
import { database } from '#lib/data/client'
import { databaseError, transact } from '#lib/data/transaction'
import { refusal } from '#lib/shop/refusal'

const member = (email: string) => ({ email, name: 'A', passwordHash: 'x', calendarToken: email })

async function caught(work: Promise<unknown>): Promise<unknown> {
  try {
    await work
  } catch (e) {
    return e
  }
  throw new Error('nothing was thrown')
}

describe('what the database refuses', () => {
  test('a unique clash names its constraint', async () => {
    await database().member.create({ data: member('one@example.org') })
    const error = await caught(database().member.create({ data: member('one@example.org') }))
    expect(databaseError(error)).toEqual({ code: '23505', constraint: 'Member_email_key' })
  })

  test('overlapping live bookings are refused by the exclusion constraint, touching ones are not', async () => {
    const keeper = await database().member.create({ data: member('keeper@example.org') })
    const station = await database().station.create({
      data: { name: 'Saw', kind: 'tableSaw', keeperId: keeper.id },
    })
    const at = (h: number) => new Date(Date.UTC(2030, 0, 1, h))
    const book = (from: number, to: number) =>
      database().booking.create({
        data: { stationId: station.id, memberId: keeper.id, startAt: at(from), endAt: at(to) },
      })
    await book(9, 11)
    await book(11, 12)
    const error = await caught(book(10, 12))
    expect(databaseError(error)).toEqual({ code: '23P01', constraint: 'booking_no_overlap' })
    const result = await transact(
      async (tx) => {
        await tx.booking.create({
          data: { stationId: station.id, memberId: keeper.id, startAt: at(8), endAt: at(10) },
        })
        return ok(1)
      },
      { booking_no_overlap: refusal('slotTaken') },
    )
    expect(result).toEqual({ ok: false, error: { code: 'slotTaken' } })
  })

  test('the ledger cannot be rewritten', async () => {
    const owner = await database().member.create({ data: member('owner@example.org') })
    const board = await database().board.create({
      data: {
        ownerId: owner.id,
        lengthUm: 900_000,
        widthUm: 90_000,
        thicknessUm: 20_000,
        species: 'whiteOak',
      },
    })
    const event = await database().stockEvent.create({
      data: { boardId: board.id, kind: 'takenIn', detail: {} },
    })
    await caught(database().stockEvent.update({ where: { id: event.id }, data: { kind: 'other' } }))
    await caught(database().stockEvent.delete({ where: { id: event.id } }))
    await caught(database().$executeRaw`truncate "StockEvent"`)
    await caught(database().board.delete({ where: { id: board.id } }))
    expect(await database().stockEvent.count()).toBe(1)
  })

  test('a defect off its board and a live hold on a cut board are refused at commit', async () => {
    const owner = await database().member.create({ data: member('holder@example.org') })
    const board = await database().board.create({
      data: {
        ownerId: owner.id,
        lengthUm: 900_000,
        widthUm: 90_000,
        thicknessUm: 20_000,
        species: 'whiteOak',
        metal: 'cleared',
      },
    })
    const off = {
      boardId: board.id,
      kind: 'knot',
      face: 'A',
      xUm: 880_000,
      yUm: 0,
      widthUm: 30_000,
      heightUm: 10_000,
    } as const
    expect(databaseError(await caught(database().defect.create({ data: off })))).toMatchObject({
      code: '23514',
    })
    const build = await database().build.create({ data: { name: 'Bench', memberId: owner.id } })
    const hold = {
      boardId: board.id,
      buildId: build.id,
      memberId: owner.id,
      status: 'live',
      expiresAt: new Date(Date.now() + 1e7),
    } as const
    await database().hold.create({ data: hold })
    const cut = caught(database().board.update({ where: { id: board.id }, data: { status: 'cut' } }))
    expect(databaseError(await cut)).toMatchObject({ code: '23514' })
    const second = caught(database().hold.create({ data: hold }))
    expect(databaseError(await second)).toMatchObject({ code: '23505' })
  })
})
