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
  const { email, shop, invitedBy, isMember } = invite.value
  const title = isMember ? 'Choose a new password' : `Join ${shop}`
  const lead = isMember
    ? `${invitedBy} made this link for you. It works once, and ends your other sessions.`
    : `${invitedBy} invites you. The link works once.`
  return (
    <Door title={title} lead={lead}>
      <JoinForm token={token} email={email} isMember={isMember} />
    </Door>
  )
}
