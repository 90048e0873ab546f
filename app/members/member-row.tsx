import { ChevronDown } from 'lucide-react'
import type { Role } from '#lib/shop/actor'
import { AskFirst } from '../ui/dialog'
import { SelectField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { changeRoleAction, passwordLinkAction, removeMemberAction } from './actions'
import { LinkForm } from './link-form'
import { ROLE_HELP, ROLE_OPTIONS, ROLE_WORDS } from './words'

interface MemberRowProps {
  readonly member: {
    readonly id: string
    readonly name: string
    readonly email: string
    readonly role: Role
    readonly stations: readonly { readonly name: string }[]
    readonly holds: number
    readonly bookings: number
    readonly boards: number
  }
  readonly isMe: boolean
  readonly isLastAdmin: boolean
  readonly since: string
}

const many = (n: number, one: string, more: string) => (n === 0 ? null : `${n} ${n === 1 ? one : more}`)

/** What ends with a membership, as sentences. */
function consequence({ name, stations, holds, bookings, boards }: MemberRowProps['member']): string {
  const parts = [
    `${name} is signed out everywhere at once.`,
    holds > 0 && `${many(holds, 'hold is', 'holds are')} released.`,
    bookings > 0 && `${many(bookings, 'booking is', 'bookings are')} cancelled.`,
    stations.length > 0 && `You become the keeper of ${stations.map((s) => s.name).join(', ')}.`,
    boards > 0 && `Their ${many(boards, 'board stays', 'boards stay')} in the pool as theirs.`,
  ]
  return parts.filter(Boolean).join(' ')
}

/** A member; tapped open, what an admin can do. */
export function MemberRow({ member, isMe, isLastAdmin, since }: MemberRowProps) {
  const has = [
    member.stations.length > 0 && `keeps ${member.stations.map((s) => s.name).join(', ')}`,
    many(member.boards, 'board', 'boards'),
    many(member.holds, 'hold', 'holds'),
    many(member.bookings, 'booking to come', 'bookings to come'),
  ].filter(Boolean)
  return (
    <li>
      <details className="group">
        <summary className="flex min-h-14 flex-wrap items-center justify-between gap-x-5 gap-y-1 py-3">
          <span className="min-w-0 flex-1 basis-64">
            <span className="font-medium">
              {member.name}
              {isMe ? ' (you)' : ''}
            </span>
            <span className="block text-[0.92rem] text-ink-soft">
              {[`since ${since}`, ...has].join(' · ')}
            </span>
          </span>
          <span className="flex items-center gap-2 font-medium">
            {ROLE_WORDS[member.role].word}
            <ChevronDown aria-hidden="true" className="size-5 text-ink-soft group-open:rotate-180" />
          </span>
        </summary>
        <div className="grid gap-5 pt-1 pb-6 sm:pl-6">
          <p>
            <a href={`mailto:${member.email}`}>{member.email}</a>
          </p>
          {isLastAdmin ? (
            <p className="max-w-[60ch] text-ink-soft">
              The only admin can be neither removed nor given another role. Make someone else an admin first.
            </p>
          ) : (
            <Form
              action={changeRoleAction}
              label={`Role of ${member.name}`}
              done="Saved."
              className="grid max-w-md gap-3"
            >
              <input type="hidden" name="memberId" value={member.id} />
              <SelectField
                label="Role"
                name="role"
                options={ROLE_OPTIONS}
                defaultValue={member.role}
                help={ROLE_HELP}
              />
              <div>
                <Submit look="plain">Save the role</Submit>
              </div>
            </Form>
          )}
          {isMe ? null : (
            <LinkForm
              action={passwordLinkAction}
              label={`Forgotten password of ${member.name}`}
              submit="Make a link for a new password"
              className="grid gap-3"
            >
              <input type="hidden" name="memberId" value={member.id} />
            </LinkForm>
          )}
          {isLastAdmin ? null : (
            <div>
              <AskFirst
                label={isMe ? 'Leave the shop' : 'Remove from the shop'}
                look="stop"
                question={isMe ? 'Leave the shop?' : `Remove ${member.name}?`}
                consequence={consequence(member)}
                yes={isMe ? 'Leave' : 'Remove'}
                action={removeMemberAction}
                hidden={{ memberId: member.id }}
              />
            </div>
          )}
        </div>
      </details>
    </li>
  )
}
