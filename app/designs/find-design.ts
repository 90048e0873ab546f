import { designById } from '#lib/core/design/designs/registry'
import type { Design } from '#lib/core/design/model'
import { recipe } from '#lib/data/own-designs'
import { ownDesign } from '#lib/engine/own-design'
import { ownVersionOf } from '#lib/shop/own-design'
import { load } from '../load'

/** A shipped design, or the version of a member's own that a build is made to; undefined if it is not here any more. */
export async function findDesign(designId: string): Promise<Design | undefined> {
  if (!ownVersionOf(designId)) return designById(designId)
  return ownDesign(designId, await load(recipe, { designId }))
}
