/**
 * What to take care of with a finish plan, in sentences. The tin, its data sheet and local rules go first, always.
 * Sources as named; the rest is common practice. Tests: tests/core/finish/cautions.test.ts
 */
import type { Model, Notice } from '#lib/core/design/model'
import type { FinishPlan } from './finish-plan'
import type { CoatKind } from './products'

const PRACTICE = 'Common practice'

interface Caution {
  readonly kinds: readonly CoatKind[]
  readonly level: Notice['level']
  readonly message: string
}

const BY_KIND: readonly Caution[] = [
  {
    kinds: ['oil', 'stain', 'varnish'],
    level: 'stop',
    message:
      'Rags with drying oil heat up by themselves and catch fire. Spread them flat outdoors to dry, or keep them under water in a closed metal can; never in a heap or a bin.',
  },
  {
    kinds: ['oil', 'stain', 'varnish', 'shellac', 'paint'],
    level: 'caution',
    message:
      'Air the room while it is put on and while it dries; no flame or spark near solvents and spirit.',
  },
  {
    kinds: ['shellac'],
    level: 'note',
    message:
      'Shellac is marked by spirits, hot cups and alkaline cleaners: not for a table top that is used.',
  },
  {
    kinds: ['wax'],
    level: 'note',
    message: 'Wax comes last: nothing holds on it.',
  },
]

/**
 * Sorted: stops before cautions before notes.
 * @example finishCautions(model, plan)[0].level //=> 'stop'
 */
export function finishCautions(model: Model, plan: FinishPlan): Notice[] {
  const kinds = new Set(plan.regions.map((region) => region.coating.kind))
  const own = BY_KIND.filter((caution) => caution.kinds.some((kind) => kinds.has(kind))).map(
    ({ level, message }): Notice => ({ level, message, source: PRACTICE }),
  )
  const always: Notice[] = [
    {
      level: 'note',
      message:
        'The tin, its data sheet and local rules go first. The numbers here are typical ones until yours stand in their place.',
    },
    {
      level: 'caution',
      message:
        'An old finish of unknown age may hold lead: it is not sanded, scraped or heated before it is tested.',
      source: 'In the US, finishes from before 1978 (EPA); other places have other years',
    },
  ]
  const touched: Notice[] =
    model.use?.kind === 'table' || model.use?.kind === 'shelf'
      ? [
          {
            level: 'caution',
            message:
              'Where food lies on it, use only what its maker allows for food, and let it cure in full.',
            source: PRACTICE,
          },
        ]
      : []
  const glue: Notice[] =
    plan.when === 'apart' && model.joints.some((joint) => joint.glued)
      ? [
          {
            level: 'stop',
            message: 'Glue faces stay bare: glue does not hold on finish. Mask them.',
            source: PRACTICE,
          },
        ]
      : []
  const rank = { stop: 0, caution: 1, note: 2 } as const
  return [...glue, ...own, ...touched, ...always].sort((a, b) => rank[a.level] - rank[b.level])
}
