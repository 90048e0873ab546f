/**
 * How a variant of a build is finished, region by region. Kept by the build's maker or an admin while the build is
 * open, by the version that the writer saw; seen by all. A variant without a plan has the usual one of its design.
 * Tests: tests/data/finish-plans.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { FINISH_TIMES, type FinishPlan } from '#lib/core/finish/finish-plan'
import { COAT_KINDS } from '#lib/core/finish/products'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import { changeableOpenBuild } from './internal/changeable-build'
import { announce, transact } from './transaction'

export const MOST_REGIONS = 40
const FACES = ['endA', 'endB', 'edgeA', 'edgeB', 'faceA', 'faceB'] as const
const ROLES = ['show', 'paint', 'hidden'] as const

const coating = z.object({
  kind: z.enum(COAT_KINDS, 'Choose a finish.'),
  colour: z
    .string()
    .regex(/^#[0-9a-f]{6}$/i, 'Choose a colour.')
    .optional(),
  coats: z.int('Enter whole coats.').min(0, 'No fewer than none.').max(20, 'No more than 20 coats.'),
  spreadM2PerL: z
    .number('Enter a number.')
    .min(0.5, 'At least 0.5 m² a litre.')
    .max(100, 'At most 100 m² a litre.'),
  recoatHours: z
    .number('Enter a number.')
    .min(0, 'No less than none.')
    .max(24 * 30, 'At most 720 hours.'),
})

const region = z.object({
  id: z.string().min(1).max(40),
  name: z.string().trim().min(1, 'Give the region a name.').max(80, 'Keep the name to 80 characters.'),
  kinds: z.array(z.string().max(80)).max(200),
  faces: z.array(z.enum(FACES)).max(6),
  roles: z.array(z.enum(ROLES)).max(3),
  coating,
})

const plan = z.object({
  when: z.enum(FINISH_TIMES, 'Say when it is finished.'),
  regions: z
    .array(region)
    .max(MOST_REGIONS, `Keep to ${MOST_REGIONS} regions.`)
    .refine((all) => new Set(all.map((r) => r.id)).size === all.length, 'Two regions are the same one.'),
})

const MEANWHILE = refusal('changedMeanwhile')

/** @param version of the plan that the writer saw; 0 if there was none */
export const save = action({
  audience: 'member',
  input: z.object({ variantId: id, version: z.int().min(0), plan }),
  run: (actor, input) =>
    transact(
      async (tx) => {
        const { variantId, version } = input
        const variant = await tx.variant.findFirst({
          where: { id: variantId, deletedAt: null },
          select: { buildId: true },
        })
        if (!variant) return err(refusal('notFound'))
        const build = await changeableOpenBuild(tx, actor, variant.buildId)
        if (!build.ok) return build
        if (version === 0) await tx.finishPlan.create({ data: { variantId, plan: input.plan } })
        else {
          const saved = await tx.finishPlan.updateMany({
            where: { variantId, version },
            data: { plan: input.plan, version: { increment: 1 } },
          })
          if (saved.count === 0) return err(MEANWHILE)
        }
        await announce(tx, `build:${variant.buildId}`)
        return ok({ version: version + 1 })
      },
      { FinishPlan_variantId_key: MEANWHILE },
    ),
})

/** The plan of a variant as it was kept; version 0 and null where none was. */
export const ofVariant = query({
  audience: 'member',
  shared: true,
  input: z.object({ variantId: id }),
  run: async (_actor, { variantId }) => {
    const kept = await database().finishPlan.findUnique({
      where: { variantId },
      select: { plan: true, version: true },
    })
    return ok({ version: kept?.version ?? 0, plan: (kept?.plan ?? null) as FinishPlan | null })
  },
})
