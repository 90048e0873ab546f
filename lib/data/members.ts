import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import { action, id, nothing, query } from './action'
import { database } from './client'
import { settleAffairs } from './internal/farewell'
import { role } from './internal/fields'
import { lockAdmins } from './internal/member-lock'
import { announce, type Transaction, transact } from './transaction'

/** Everyone in the shop by name, for choosing a keeper or an owner. */
export const people = query({
  audience: 'member',
  shared: true,
  input: nothing,
  run: async () =>
    ok(
      await database().member.findMany({
        where: { removedAt: null },
        orderBy: [{ name: 'asc' }, { id: 'asc' }],
        select: { id: true, name: true, role: true },
      }),
    ),
})

/** Members with what an admin needs to know before changing or removing one. */
export const listMembers = query({
  audience: 'admin',
  input: nothing,
  run: async () => {
    const rows = await database().member.findMany({
      where: { removedAt: null },
      orderBy: [{ name: 'asc' }, { id: 'asc' }],
      select: {
        id: true,
        name: true,
        email: true,
        role: true,
        createdAt: true,
        stations: { where: { retiredAt: null }, select: { id: true, name: true } },
        _count: {
          select: {
            holds: { where: { status: { in: ['live', 'requested'] } } },
            bookings: { where: { status: { in: ['requested', 'approved'] }, endAt: { gt: new Date() } } },
            boards: true,
          },
        },
      },
    })
    return ok(
      rows.map(({ _count, ...member }) => ({
        ...member,
        ..._count,
      })),
    )
  },
})

const namesOf = (stations: readonly { name: string }[]) => stations.map((s) => s.name).join(', ')

const stationsOf = (tx: Transaction, keeperId: string) =>
  tx.station.findMany({
    where: { keeperId, retiredAt: null },
    orderBy: { name: 'asc' },
    select: { name: true },
  })

/** Keeps at least one admin, and a keeper for each station. */
export const changeRole = action({
  audience: 'admin',
  input: z.object({ memberId: id, role }),
  run: (actor, { memberId, role }) =>
    transact(async (tx) => {
      const locked = await lockAdmins(tx, actor, memberId)
      if (!locked.ok) return locked
      const { admins } = locked.value
      if (role !== 'admin' && admins.has(memberId) && admins.size === 1) return err(refusal('lastAdmin'))
      const kept = role === 'member' ? await stationsOf(tx, memberId) : []
      if (kept.length > 0) return err(refusal('keepsStations', { about: `It is ${namesOf(kept)}.` }))
      await tx.member.update({ where: { id: memberId }, data: { role } })
      await announce(tx, 'members')
      return ok(null)
    }),
})

/**
 * Ends a membership: sessions end at once, holds are released, bookings to come are cancelled, stations pass to the
 * admin who does it. Boards stay theirs, so that the pool's history stays true. Never the last admin.
 */
export const removeMember = action({
  audience: 'admin',
  input: z.object({ memberId: id }),
  run: (actor, { memberId }) =>
    transact(async (tx) => {
      const locked = await lockAdmins(tx, actor, memberId)
      if (!locked.ok) return locked
      const { admins } = locked.value
      if (admins.has(memberId) && admins.size === 1) return err(refusal('lastAdmin'))
      const kept = await stationsOf(tx, memberId)
      if (kept.length > 0 && memberId === actor.memberId)
        return err(refusal('keepsStations', { about: `It is ${namesOf(kept)}.` }))
      await tx.member.update({
        where: { id: memberId },
        data: { removedAt: new Date(), sessionVersion: { increment: 1 } },
      })
      await tx.station.updateMany({ where: { keeperId: memberId }, data: { keeperId: actor.memberId } })
      const settled = await settleAffairs(tx, memberId, actor.memberId)
      await announce(tx, 'members')
      return ok({ ...settled, stations: kept.map((s) => s.name) })
    }),
})
