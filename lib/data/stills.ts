/**
 * Stills: pictures of a variant's 3-D view that members show to each other, of the numbers as they were then. Anyone
 * of the shop shows one and looks at all; each takes back their own, keepers and admins any. A build has room for so
 * many (slots, a unique index). Files are judged by lib/shop/png-file.ts. Tests: tests/data/stills.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok, type Result } from '#lib/core/units/result'
import { readPng } from '#lib/shop/png-file'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import { mayRemoveAny } from './internal/may-remove-any'
import { openVariant } from './internal/open-variant'
import { announce, type Transaction, transact } from './transaction'

/** Of one build; the database has the same number. */
const MOST_STILLS = 24

const caption = z.string().trim().min(1, 'Say what it shows.').max(120, 'At most 120 characters.')

async function freeSlot(tx: Transaction, buildId: string): Promise<Result<number, Refusal>> {
  const kept = await tx.still.findMany({ where: { buildId, deletedAt: null }, select: { slot: true } })
  const taken = new Set(kept.map((s) => s.slot))
  for (let slot = 1; slot <= MOST_STILLS; slot++) if (!taken.has(slot)) return ok(slot)
  return err(
    refusal('tooMany', { about: `A build has room for ${MOST_STILLS} pictures: take one back first.` }),
  )
}

/** Shows a picture of a variant as it was at `version` to all of the shop. */
export const show = action({
  audience: 'member',
  shared: true,
  input: z.object({
    variantId: id,
    version: z.int().min(1),
    caption,
    png: z.instanceof(Uint8Array, { error: 'Send a picture.' }),
  }),
  run: async (actor, { variantId, version, caption, png }) => {
    const file = readPng(png)
    if (!file.ok) return err(refusal('badInput', { fields: { png: file.error } }))
    const { bytes, widthPx, heightPx } = file.value
    return transact(async (tx) => {
      const variant = await openVariant(tx, variantId, 'update')
      if (!variant.ok) return variant
      const { buildId } = variant.value
      if (variant.value.version < version) return err(refusal('notFound'))
      const slot = await freeSlot(tx, buildId)
      if (!slot.ok) return slot
      const about = { buildId, variantId, variantVersion: version, memberId: actor.memberId, caption }
      const made = await tx.still.create({
        data: { ...about, slot: slot.value, png: bytes, widthPx, heightPx },
        select: { id: true },
      })
      await announce(tx, `build:${buildId}`)
      return ok({ stillId: made.id })
    })
  },
})

/** Takes a still back: who shows it, a keeper or an admin. What was said about it stays. */
export const remove = action({
  audience: 'member',
  input: z.object({ stillId: id }),
  run: (actor, { stillId }) =>
    transact(async (tx) => {
      const own = mayRemoveAny(actor) ? {} : { memberId: actor.memberId }
      const [gone] = await tx.still.updateManyAndReturn({
        where: { id: stillId, deletedAt: null, ...own },
        data: { deletedAt: new Date(), png: null },
        select: { buildId: true },
      })
      if (!gone) return err(refusal('notFound'))
      await announce(tx, `build:${gone.buildId}`)
      return ok(null)
    }),
})

/** All that are shown of a build's variants, the oldest first; the files are asked for one by one. */
export const ofBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }) => {
    const rows = await database().still.findMany({
      where: { buildId, deletedAt: null },
      select: {
        id: true,
        variantId: true,
        variantVersion: true,
        caption: true,
        widthPx: true,
        heightPx: true,
        createdAt: true,
        memberId: true,
        member: { select: { name: true } },
        variant: { select: { version: true } },
      },
      orderBy: [{ createdAt: 'asc' }, { id: 'asc' }],
    })
    return ok(
      rows.map(({ member, variant, variantVersion, ...still }) => ({
        ...still,
        memberName: member.name,
        mayRemove: still.memberId === actor.memberId || mayRemoveAny(actor),
        /** Made of numbers that have changed since. */
        isOlder: variantVersion !== variant.version,
      })),
    )
  },
})

/** The picture itself: a PNG that was written here. */
export const file = query({
  audience: 'member',
  shared: true,
  input: z.object({ stillId: id }),
  run: async (_, { stillId }) => {
    const row = await database().still.findFirst({
      where: { id: stillId, deletedAt: null },
      select: { png: true },
    })
    return row?.png ? ok(row.png) : err(refusal('notFound'))
  },
})
