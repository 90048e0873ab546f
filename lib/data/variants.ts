/**
 * Variants: the parameters that a build is made to. Saved by the build's maker or an admin, built anew here with the
 * same core as the page's, and by the version that the writer saw.
 * Tests: tests/data/variants.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { designById } from '#lib/core/design/designs/registry'
import type { ParameterValues } from '#lib/core/design/model'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import { action, id, query } from './action'
import { database } from './client'
import { changeableOpenBuild, mayChange } from './internal/changeable-build'
import { announce, transact } from './transaction'

const MOST_PARAMETERS = 200
const value = z.union([z.number('Enter a number.'), z.string().max(200)])
const parameters = z
  .record(z.string().max(80), value)
  .refine((all) => Object.keys(all).length <= MOST_PARAMETERS, 'These are too many parameters.')

/** The parameters as all of them, or a sentence by parameter. */
function readAgain(designId: string, values: ParameterValues) {
  const design = designById(designId)
  if (!design) return err(refusal('designRefused', { about: 'The design is not in this shop any more.' }))
  const model = design.build(values)
  if (model.ok) return ok({ ...model.value.parameters })
  const fields: Record<string, string> = {}
  for (const { parameter, message } of model.error) fields[parameter] ??= message
  return err(refusal('designRefused', { fields }))
}

export const save = action({
  audience: 'member',
  input: z.object({ variantId: id, version: z.int().min(1), parameters }),
  run: (actor, input) =>
    transact(async (tx) => {
      const { variantId, version } = input
      const variant = await tx.variant.findUnique({
        where: { id: variantId },
        select: { buildId: true, designId: true },
      })
      if (!variant) return err(refusal('notFound'))
      const build = await changeableOpenBuild(tx, actor, variant.buildId)
      if (!build.ok) return build
      const read = readAgain(variant.designId, input.parameters)
      if (!read.ok) return read
      const saved = await tx.variant.updateMany({
        where: { id: variantId, version },
        data: { parameters: read.value, version: { increment: 1 } },
      })
      if (saved.count === 0) return err(refusal('changedMeanwhile'))
      await tx.build.update({ where: { id: variant.buildId }, data: { updatedAt: new Date() } })
      for (const topic of ['builds', `build:${variant.buildId}`]) await announce(tx, topic)
      return ok({ version: version + 1 })
    }),
})

/** The variant that a build is made to, and how far it is tied down already. */
export const chosen = query({
  audience: 'member',
  shared: true,
  input: z.object({ buildId: id }),
  run: async (actor, { buildId }) => {
    const build = await database().build.findUnique({
      where: { id: buildId },
      select: {
        memberId: true,
        finishedAt: true,
        abandonedAt: true,
        variants: {
          where: { chosen: true },
          select: { id: true, name: true, designId: true, parameters: true, version: true, updatedAt: true },
        },
        _count: { select: { partsMade: true } },
      },
    })
    const variant = build?.variants[0]
    if (!variant) return err(refusal('notFound'))
    const isOpen = !build.finishedAt && !build.abandonedAt
    return ok({
      ...variant,
      parameters: variant.parameters as ParameterValues,
      partsMade: build._count.partsMade,
      mayChange: isOpen && mayChange(actor, build.memberId),
    })
  },
})
