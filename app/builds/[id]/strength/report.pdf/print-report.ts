import { designById } from '#lib/core/design/designs/registry'
import { readParameters } from '#lib/core/design/parameters'
import { err, ok, type Result } from '#lib/core/units/result'
import type { mySettings } from '#lib/data/account'
import type { header } from '#lib/data/builds'
import type { chosen } from '#lib/data/variants'
import { ownReportDesk } from '#lib/documents/strength/report-desk'
import { dayOf } from '#lib/format/instant'
import { judgedForWords, readAsk, type TypedAsk, woodAsked } from '#lib/shop/strength-ask'

type ValueOf<Q> = Q extends (...asked: never[]) => Promise<Result<infer V, unknown>> ? V : never

export interface Printed {
  readonly my: ValueOf<typeof mySettings>
  readonly build: ValueOf<typeof header>
  readonly variant: ValueOf<typeof chosen>
  readonly typed: TypedAsk
}

interface No {
  readonly status: number
  readonly sentence: string
}

/** Worked out on a thread of its own, and given up when the asker goes away. */
export async function printReport(
  { my, build, variant, typed }: Printed,
  signal: AbortSignal,
): Promise<Result<Uint8Array, No>> {
  const design = designById(variant.designId)
  if (!design) return err({ status: 410, sentence: 'This design is not in the shop any more.' })
  const read = readAsk(typed)
  if (!read.ok) return err({ status: 422, sentence: Object.values(read.error).join(' ') })
  const values = readParameters(design.parameters, variant.parameters)
  const parameters = values.ok ? values.value : variant.parameters
  const now = new Date()
  const run = ownReportDesk().ask({
    designId: design.id,
    parameters,
    options: read.value,
    judgedFor: judgedForWords(woodAsked(design.parameters, parameters).name, typed),
    facts: {
      paper: my.units === 'in' ? 'letter' : 'a4',
      titleBlock: {
        design: design.name,
        build: build.name,
        shop: my.shopName,
        date: dayOf(my.timeZone, now),
      },
      madeAt: now,
    },
  })
  signal.addEventListener('abort', run.cancel)
  const outcome = await run.outcome
  signal.removeEventListener('abort', run.cancel)
  switch (outcome.kind) {
    case 'done':
      return ok(outcome.answer)
    case 'refused':
      return err({ status: 422, sentence: outcome.sentence })
    case 'cancelled':
      return err({ status: 499, sentence: 'Given up.' })
    case 'failed':
      throw new Error(outcome.message)
  }
}
