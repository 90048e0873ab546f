import type { Metadata } from 'next'
import { myCalendarLink } from '#lib/data/account'
import { baseUrl } from '../address'
import { load, settings } from '../load'
import { ROLE_WORDS } from '../members/words'
import { Copy } from '../ui/copy'
import { AskFirst } from '../ui/dialog'
import { ChoiceField, TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { Notice } from '../ui/notice'
import { Page, Section } from '../ui/sheet'
import { SignOut } from '../ui/sign-out'
import { calendarAction, everywhereAction, settingsAction } from './actions'
import { PasswordForm } from './password-form'

export const metadata: Metadata = { title: 'Your account' }

interface Props {
  readonly searchParams: Promise<{ changed?: string }>
}

export default async function AccountPage({ searchParams }: Props) {
  const me = await settings()
  const { token } = await load(myCalendarLink, {})
  const feed = `${await baseUrl()}/api/calendar/${token}.ics`
  const { changed } = await searchParams
  return (
    <Page
      title="Your account"
      cells={[
        { label: 'E-mail', value: me.email },
        { label: 'Role', value: ROLE_WORDS[me.role].word },
        { label: 'Shop', value: me.shopName },
      ]}
    >
      {changed === 'password' ? (
        <Notice level="good" role="status">
          Your password is changed. Everywhere else you are signed out.
        </Notice>
      ) : null}
      <Section title="You">
        <Form action={settingsAction} label="You" done="Saved." className="grid max-w-md gap-4">
          <TextField label="Name" name="name" defaultValue={me.name} autoComplete="name" required />
          <ChoiceField
            label="Lengths are shown in"
            name="units"
            defaultValue={me.ownUnits ?? 'shop'}
            options={[
              { value: 'shop', label: 'As the shop' },
              { value: 'mm', label: 'Millimetres' },
              { value: 'in', label: 'Inches' },
            ]}
            help="You may type either anywhere."
          />
          <div>
            <Submit look="plain">Save</Submit>
          </div>
        </Form>
      </Section>
      <Section
        title="Calendar"
        note="Subscribe to this address in your calendar: your bookings, and what you have to decide as a keeper. Whoever has it can read them, so keep it to yourself."
      >
        <div className="grid max-w-2xl gap-3">
          <Copy label="Address of your calendar" text={feed} />
          <div>
            <AskFirst
              label="Make a new address"
              question="Make a new address for your calendar?"
              consequence="The old one stops working at once; calendars that use it need the new one."
              yes="Make a new one"
              action={calendarAction}
            />
          </div>
        </div>
      </Section>
      <Section title="Password">
        <PasswordForm email={me.email} />
      </Section>
      <Section title="Signing out">
        <div className="flex flex-wrap items-center gap-2">
          <SignOut className="inline-flex min-h-11 items-center rounded-control border border-hairline-strong bg-sheet px-4 font-medium hover:border-ink" />
          <AskFirst
            label="Sign out everywhere"
            question="Sign out everywhere?"
            consequence="Every phone and computer that is signed in as you is signed out, this one too."
            yes="Sign out everywhere"
            action={everywhereAction}
          />
        </div>
      </Section>
    </Page>
  )
}
