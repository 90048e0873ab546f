import type { Metadata } from 'next'
import { listInvites } from '#lib/data/invites'
import { listMembers } from '#lib/data/members'
import { sayDay } from '#lib/format/day'
import { dayOf } from '#lib/format/instant'
import { load, settings } from '../load'
import { SelectField, TextField } from '../ui/field'
import { Live } from '../ui/live'
import { Empty, Page, Row, Rows, Section } from '../ui/sheet'
import { Tap } from '../ui/tap'
import { inviteAction, revokeInviteAction } from './actions'
import { LinkForm } from './link-form'
import { MemberRow } from './member-row'
import { ROLE_HELP, ROLE_OPTIONS, ROLE_WORDS } from './words'

export const metadata: Metadata = { title: 'Members' }

export default async function MembersPage() {
  const [members, invites, me] = await Promise.all([load(listMembers, {}), load(listInvites, {}), settings()])
  const day = (at: Date) => sayDay(dayOf(me.timeZone, at), dayOf(me.timeZone, new Date()))
  const admins = members.filter((m) => m.role === 'admin').length
  return (
    <Page
      title="Members"
      cells={[
        { label: 'Members', value: members.length },
        { label: 'Admins', value: admins },
        { label: 'Open links', value: invites.length },
      ]}
    >
      <Live topics={['members']} />
      <Section title="Invite someone" note="You get a link that works once. Send it to them yourself.">
        <LinkForm
          action={inviteAction}
          label="Invite someone"
          submit="Make the link"
          look="primary"
          className="grid max-w-md gap-4"
        >
          <TextField label="Their e-mail" name="email" type="email" required />
          <SelectField
            label="Role"
            name="role"
            options={ROLE_OPTIONS}
            defaultValue="member"
            help={ROLE_HELP}
          />
        </LinkForm>
      </Section>
      <Section title="Open links">
        {invites.length === 0 ? (
          <p className="text-ink-soft">
            None. A link that is used, withdrawn or seven days old is not listed.
          </p>
        ) : (
          <Rows label="Open links">
            {invites.map((i) => (
              <Row
                key={i.id}
                aside={
                  <Tap action={revokeInviteAction} hidden={{ inviteId: i.id }}>
                    Withdraw
                  </Tap>
                }
              >
                <p className="font-medium">{i.email}</p>
                <p className="text-[0.92rem] text-ink-soft">
                  {ROLE_WORDS[i.role].word}, link by {i.invitedBy.name}, works until {day(i.expiresAt)}
                </p>
              </Row>
            ))}
          </Rows>
        )}
      </Section>
      <Section title="Everyone">
        {members.length === 1 ? (
          <Empty title="You are alone here">Invite the others above: a shop is its members.</Empty>
        ) : null}
        <Rows label="Members">
          {members.map((m) => (
            <MemberRow
              key={m.id}
              member={m}
              isMe={m.id === me.memberId}
              since={day(m.createdAt)}
              isLastAdmin={m.role === 'admin' && admins === 1}
            />
          ))}
        </Rows>
      </Section>
    </Page>
  )
}
