import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { currentActor } from '#lib/auth/session'
import { isStarted } from '#lib/data/shop'
import { Door } from './door'
import { safeNext } from './enter'
import { SignInForm } from './sign-in-form'

export const metadata: Metadata = { title: 'Sign in' }

interface Props {
  readonly searchParams: Promise<{ next?: string }>
}

export default async function SignInPage({ searchParams }: Props) {
  const next = safeNext((await searchParams).next)
  if (await currentActor()) redirect(next)
  const started = await isStarted(null, {})
  if (started.ok && !started.value) redirect('/start')
  return (
    <Door title="Sign in">
      <SignInForm next={next} />
      <p className="text-[0.92rem] text-ink-soft">
        No account, or no password any more? An admin of your shop gives you a link to join.
      </p>
    </Door>
  )
}
