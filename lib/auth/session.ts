import 'server-only'
import { headers } from 'next/headers'
import { redirect } from 'next/navigation'
import { getServerSession } from 'next-auth/next'
import { cache } from 'react'
import { liveMember } from '#lib/data/internal/live-member'
import type { Actor } from '#lib/shop/actor'
import { authOptions } from './options'

/** Who asks, or null for nobody. One look-up a request. */
export const currentActor = cache(async (): Promise<Actor | null> => {
  const session = await getServerSession(authOptions)
  if (!session?.memberId) return null
  return liveMember(session.memberId, session.sessionVersion)
})

/** Who asks; nobody is sent to sign in, and comes back to this page afterwards. */
export async function requireActor(): Promise<Actor> {
  const actor = await currentActor()
  if (actor) return actor
  const path = (await headers()).get('x-fellowbench-path')
  redirect(path && path !== '/' ? `/sign-in?next=${encodeURIComponent(path)}` : '/sign-in')
}
