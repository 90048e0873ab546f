import { notFound } from 'next/navigation'
import { cache } from 'react'
import { requireActor } from '#lib/auth/session'
import { header } from '#lib/data/builds'

/** Once a request. */
const ask = cache(async (buildId: string) => header(await requireActor(), { buildId }))

/** What stands over every page of a build. */
export async function buildHeader(buildId: string) {
  const build = await ask(buildId)
  return build.ok ? build.value : notFound()
}

/** For the page's title, which must stand over a page not found too. */
export async function buildName(buildId: string): Promise<string | null> {
  const build = await ask(buildId)
  return build.ok ? build.value.name : null
}
