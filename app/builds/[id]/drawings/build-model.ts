import type { DesignRefusal, Model } from '#lib/core/design/model'
import { chosen } from '#lib/data/variants'
import type { TitleBlock } from '#lib/documents/sheet/plate'
import { dayOf } from '#lib/format/instant'
import { findDesign } from '../../../designs/find-design'
import { load, settings } from '../../../load'
import { buildHeader } from '../header'

export type BuildModel =
  | { readonly status: 'made'; readonly model: Model; readonly titleBlock: TitleBlock }
  | { readonly status: 'refused'; readonly refusals: readonly DesignRefusal[] }
  | { readonly status: 'gone' }

/** The model that a build is made to, and what stands in the title block of its sheets. */
export async function buildModel(buildId: string, now: Date): Promise<BuildModel> {
  const [{ shopName, timeZone }, build, variant] = await Promise.all([
    settings(),
    buildHeader(buildId),
    load(chosen, { buildId }),
  ])
  const design = await findDesign(variant.designId)
  if (!design) return { status: 'gone' }
  const built = design.build(variant.parameters)
  if (!built.ok) return { status: 'refused', refusals: built.error }
  const titleBlock = { design: design.name, build: build.name, shop: shopName, date: dayOf(timeZone, now) }
  return { status: 'made', model: built.value, titleBlock }
}
