import type { Metadata } from 'next'
import { redirect } from 'next/navigation'
import { isStarted } from '#lib/data/shop'
import { Door } from '../sign-in/door'
import { StartForm } from './start-form'

export const metadata: Metadata = { title: 'Start the shop' }

export default async function StartPage() {
  const started = await isStarted(null, {})
  if (!started.ok || started.value) redirect('/sign-in')
  return (
    <Door
      title="Start the shop"
      lead="Nobody is here yet. Whoever comes first becomes the shop’s admin and invites the others."
    >
      <StartForm zones={[...Intl.supportedValuesOf('timeZone'), 'UTC']} />
    </Door>
  )
}
