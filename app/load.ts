import { notFound } from 'next/navigation'
import { cache } from 'react'
import { requireActor } from '#lib/auth/session'
import { mySettings } from '#lib/data/account'
import type { Action } from '#lib/data/action'

/** What a page shows, asked for as the member who is signed in. What is not there or not theirs is a page not found. */
export async function load<In, Out>(query: Action<In, Out>, input: In): Promise<Out> {
  const result = await query(await requireActor(), input)
  if (result.ok) return result.value
  if (['notFound', 'notAllowed', 'badInput'].includes(result.error.code)) notFound()
  throw new Error(`${result.error.code} while loading a page`)
}

/** My units, the shop's clock and currency: what every page formats with. Once a request. */
export const settings = cache(() => load(mySettings, {}))
