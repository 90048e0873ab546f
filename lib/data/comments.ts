/** What members say about a build. Anyone of the shop may; each takes back their own, an admin any. Tests: tests/data/comments.test.ts */
import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import { announce, transact } from './transaction'

const MOST_SHOWN = 300
const body = z
  .string()
  .trim()
  .min(1, 'Write something first.')
  .max(4000, 'Keep a comment to 4000 characters.')

export const add = action({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id, body }),
  run: (actor, { buildId, body }) =>
    transact(async (tx) => {
      const build = await tx.build.findUnique({ where: { id: buildId }, select: { memberId: true } })
      if (!build) return err(refusal('notFound'))
      const { id: commentId } = await tx.comment.create({
        data: { buildId, memberId: actor.memberId, body },
        select: { id: true },
      })
      for (const topic of [`build:${buildId}`, `member:${build.memberId}`]) await announce(tx, topic)
      return ok({ commentId })
    }),
})

/** Takes a comment back: its writer, or an admin. */
export const remove = action({
  audience: 'member',
  input: z.object({ commentId: id }),
  run: (actor, { commentId }) =>
    transact(async (tx) => {
      const own = actor.role === 'admin' ? {} : { memberId: actor.memberId }
      const [gone] = await tx.comment.updateManyAndReturn({
        where: { id: commentId, deletedAt: null, ...own },
        data: { deletedAt: new Date() },
        select: { buildId: true },
      })
      if (!gone) return err(refusal('notFound'))
      await announce(tx, `build:${gone.buildId}`)
      return ok(null)
    }),
})

/** The last ones, the oldest of them first. */
export const ofBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }) => {
    const rows = await database().comment.findMany({
      where: { buildId, deletedAt: null },
      select: { id: true, body: true, createdAt: true, memberId: true, member: { select: { name: true } } },
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
      take: MOST_SHOWN,
    })
    return ok(
      rows.reverse().map(({ member, ...c }) => ({
        ...c,
        memberName: member.name,
        mayRemove: c.memberId === actor.memberId || actor.role === 'admin',
      })),
    )
  },
})
