/**
 * What members say about a build, or about a variant of it: a part, a place on a picture. Anyone of the shop may; each
 * takes back their own, keepers and admins any. Tests: tests/data/comments.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok, type Result } from '#lib/core/units/result'
import { isPictureView, PICTURE_VIEWS, type PicturePlace } from '#lib/shop/picture-places'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import { mayRemoveAny } from './internal/may-remove-any'
import { modelParts } from './internal/model-parts'
import { openVariant } from './internal/open-variant'
import { announce, type Transaction, transact } from './transaction'

const MOST_SHOWN = 300
const body = z
  .string()
  .trim()
  .min(1, 'Write something first.')
  .max(4000, 'Keep a comment to 4000 characters.')

const share = z.number('Point at the picture.').min(0).max(1)
/** A drawn picture by its name, a still by its id. */
const view = z.union([z.enum(PICTURE_VIEWS), id], 'There is no such picture.')
const place = z.object({ view, x: share, y: share })

/** What a place is kept as, if its still is one of this variant and not taken back. */
async function placeRow(tx: Transaction, variantId: string, at: z.infer<typeof place> | undefined) {
  if (!at || isPictureView(at.view)) return ok(at ?? {})
  // Locked, so that it is not taken back under the comment.
  const [still] = await tx.$queryRaw<unknown[]>`
    select 1 from "Still" where "id" = ${at.view}::uuid and "variantId" = ${variantId}::uuid and "deletedAt" is null
    for share`
  return still ? ok({ stillId: at.view, x: at.x, y: at.y }) : err(refusal('notFound'))
}

async function write(
  tx: Transaction,
  comment: Parameters<typeof tx.comment.create>[0]['data'] & { buildId: string },
  makerId: string,
): Promise<Result<{ commentId: string }, Refusal>> {
  const { id: commentId } = await tx.comment.create({ data: comment, select: { id: true } })
  for (const topic of [`build:${comment.buildId}`, `member:${makerId}`]) await announce(tx, topic)
  return ok({ commentId })
}

export const add = action({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id, body }),
  run: (actor, { buildId, body }) =>
    transact(async (tx) => {
      const build = await tx.build.findUnique({ where: { id: buildId }, select: { memberId: true } })
      if (!build) return err(refusal('notFound'))
      return write(tx, { buildId, memberId: actor.memberId, body }, build.memberId)
    }),
})

/** About a variant as it was at `version`: all of it, a part, a place on a picture, or both. */
export const addToVariant = action({
  audience: 'member',
  shared: true,
  input: z.object({
    variantId: id,
    version: z.int().min(1),
    body,
    partId: z.string().min(1).max(100).optional(),
    place: place.optional(),
  }),
  run: (actor, { variantId, version, body, partId, place }) =>
    transact(async (tx) => {
      const variant = await openVariant(tx, variantId)
      if (!variant.ok) return variant
      const { buildId, makerId, designId, parameters } = variant.value
      if (variant.value.version < version) return err(refusal('notFound'))
      const parts = (await modelParts(designId, parameters, tx))?.partIds ?? []
      if (partId && !parts.includes(partId))
        return err(refusal('badInput', { fields: { partId: 'This variant has no such part (any more).' } }))
      const where = await placeRow(tx, variantId, place)
      if (!where.ok) return where
      const about = { variantId, variantVersion: version, ...(partId ? { partId } : {}), ...where.value }
      return write(tx, { buildId, memberId: actor.memberId, body, ...about }, makerId)
    }),
})

/** Takes a comment back: its writer, a keeper or an admin. */
export const remove = action({
  audience: 'member',
  input: z.object({ commentId: id }),
  run: (actor, { commentId }) =>
    transact(async (tx) => {
      const own = mayRemoveAny(actor) ? {} : { memberId: actor.memberId }
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

const placeOf = (view: string | null, x: number | null, y: number | null): PicturePlace | null =>
  view !== null && x !== null && y !== null ? { view, x, y } : null

/** The last ones, the oldest of them first; `variantId`: those about one variant alone. */
export const ofBuild = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id, variantId: id.optional() }),
  run: async (actor, { buildId, variantId }) => {
    const rows = await database().comment.findMany({
      where: { buildId, deletedAt: null, ...(variantId ? { variantId } : {}) },
      select: {
        id: true,
        body: true,
        createdAt: true,
        memberId: true,
        partId: true,
        view: true,
        stillId: true,
        x: true,
        y: true,
        variantVersion: true,
        member: { select: { name: true } },
        variant: { select: { id: true, name: true, version: true, deletedAt: true } },
      },
      orderBy: [{ createdAt: 'desc' }, { id: 'desc' }],
      take: MOST_SHOWN,
    })
    return ok(
      rows.reverse().map(({ member, variant, variantVersion, view, stillId, x, y, ...c }) => ({
        ...c,
        memberName: member.name,
        mayRemove: c.memberId === actor.memberId || mayRemoveAny(actor),
        variant: variant && {
          id: variant.id,
          name: variant.name,
          isGone: variant.deletedAt !== null,
          /** Said of numbers that have changed since. */
          isOlder: variantVersion !== variant.version,
        },
        place: placeOf(view ?? stillId, x, y),
      })),
    )
  },
})
