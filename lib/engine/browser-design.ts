/**
 * A design by its name, in a page or a worker of it: shipped ones from the registry, versions of members' own from the
 * shop, once each. The registry and the reader of formulas are loaded when they are needed.
 */
import type { Design } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { ownVersionOf } from '#lib/shop/own-design'

const fetched = new Map<string, Promise<Design | undefined>>()

async function fetchOwn(name: string): Promise<Design | undefined> {
  const [answer, { ownDesign }] = await Promise.all([
    fetch(`/api/recipes/${encodeURIComponent(name)}`),
    import('./own-design'),
  ])
  if (answer.status === 404) return undefined
  if (!answer.ok) throw new Error(`no recipe: ${answer.status}`)
  return ownDesign(name, (await answer.json()) as Recipe)
}

/** @returns undefined for what is not in this shop; rejects where the shop does not answer */
export async function browserDesign(designId: string): Promise<Design | undefined> {
  if (!ownVersionOf(designId)) return (await import('#lib/core/design/designs/registry')).designById(designId)
  let own = fetched.get(designId)
  if (!own) {
    own = fetchOwn(designId)
    fetched.set(designId, own)
    own.catch(() => fetched.delete(designId))
  }
  return own
}
