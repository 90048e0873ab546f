import type { Metadata } from 'next'
import { peekInvite } from '#lib/data/invites'
import { refusalSentence } from '#lib/shop/refusal'
import { Door } from '../../sign-in/door'
import { ButtonLink } from '../../ui/button'
import { JoinForm } from './join-form'

// The address is a secret: it is told to no other site.
export const metadata: Metadata = { title: 'Join', referrer: 'no-referrer', robots: { index: false } }

export default async function JoinPage({ params }: { readonly params: Promise<{ token: string }> }) {
  const { token } = await params
  const invite = await peekInvite(null, { token })
  if (!invite.ok)
    return (
      <Door title="This link does not work" lead={refusalSentence(invite.error)}>
        <ButtonLink href="/sign-in">Sign in</ButtonLink>
      </Door>
    )
  const { email, shop, invitedBy } = invite.value
  return (
    <Door title={`Join ${shop}`} lead={`${invitedBy} invites you. The link works once.`}>
      <JoinForm token={token} email={email} />
    </Door>
  )
}
