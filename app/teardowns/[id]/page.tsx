import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { ofTeardown } from '#lib/data/hardware'
import type { BoardBrief } from '#lib/data/internal/board-brief'
import { teardown } from '#lib/data/teardowns'
import { dayOf, instantIn } from '#lib/format/instant'
import { BoardRow } from '../../boards/board-row'
import { LogHardwareForm } from '../../hardware/log-form'
import { HARDWARE_TERMS_OPTIONS, Lots } from '../../hardware/lots'
import { load, settings } from '../../load'
import { Form, Submit } from '../../ui/form'
import { Live } from '../../ui/live'
import { Empty, Page, Section } from '../../ui/sheet'
import { describeTeardown } from '../actions'
import { DonorFields } from '../donor-fields'
import { LogForm } from './log-form'

interface Props {
  readonly params: Promise<{ id: string }>
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: (await load(teardown, { teardownId: (await params).id })).name }
}

export default async function TeardownPage({ params }: Props) {
  const { id } = await params
  const [donor, lots, { units, timeZone }] = await Promise.all([
    load(teardown, { teardownId: id }),
    load(ofTeardown, { teardownId: id }),
    settings(),
  ])
  return (
    <Page
      title={donor.name}
      above={
        <Link className="link inline-flex min-h-11 items-center" href="/teardowns">
          Teardowns
        </Link>
      }
      cells={[
        { label: 'Taken apart by', value: donor.memberName },
        { label: 'Found', value: donor.foundAt || 'not said' },
        { label: 'Logged', value: dayOf(timeZone, donor.createdAt) },
        { label: 'Boards', value: donor.count },
      ]}
    >
      <Live topics={[`teardown:${id}`, 'hardware']} />
      {donor.mayChange ? (
        <Section
          title="Log its boards"
          note="Length, width, thickness, Enter. What stays the same is kept for the next one."
        >
          <LogForm teardownId={id} units={units} />
        </Section>
      ) : null}
      <Section title={donor.count === 1 ? 'One board' : `${donor.count} boards`}>
        <LoggedBoards
          boards={donor.boards}
          units={units}
          say={instantIn(timeZone)}
          mayChange={donor.mayChange}
        />
        {donor.count > donor.boards.length ? (
          <p className="mt-3 text-ink-soft">The {donor.boards.length} logged last are shown.</p>
        ) : null}
      </Section>
      {donor.mayChange || lots.length > 0 ? (
        <Section
          title="Its hardware"
          note={
            donor.mayChange
              ? 'Screws that are straight and sharp, hinges, handles: one line a size.'
              : undefined
          }
        >
          {donor.mayChange ? <LogHardwareForm teardownId={id} terms={HARDWARE_TERMS_OPTIONS} /> : null}
          {lots.length > 0 ? (
            <div className="mt-4">
              <Lots lots={lots} label="Hardware of this piece, the last logged first" />
            </div>
          ) : null}
        </Section>
      ) : null}
      {donor.mayChange || donor.notes ? (
        <Section title="The piece">
          {donor.notes ? <p className="mb-4 max-w-[68ch] whitespace-pre-wrap">{donor.notes}</p> : null}
          {donor.mayChange ? (
            <details className="max-w-xl">
              <summary className="min-h-11 py-2 font-medium">Change what is said of it</summary>
              <Form
                action={describeTeardown}
                label="Change the piece"
                done="Changed."
                className="mt-2 grid gap-5"
              >
                <input type="hidden" name="teardownId" value={id} />
                <DonorFields name={donor.name} foundAt={donor.foundAt} notes={donor.notes} />
                <div>
                  <Submit>Save</Submit>
                </div>
              </Form>
            </details>
          ) : null}
        </Section>
      ) : null}
    </Page>
  )
}

interface LoggedProps {
  readonly boards: readonly BoardBrief[]
  readonly units: 'mm' | 'in'
  readonly say: (at: Date) => string
  readonly mayChange: boolean
}

function LoggedBoards({ boards, units, say, mayChange }: LoggedProps) {
  if (boards.length === 0)
    return (
      <Empty title="No boards yet">
        {mayChange
          ? 'Measure the first one and type its length above. Each board gets a number: chalk it on.'
          : 'They stand here once they are logged.'}
      </Empty>
    )
  const longestUm = Math.max(...boards.map((b) => b.lengthUm))
  return (
    <ul
      aria-label="Boards of this piece, the last logged first"
      className="divide-y divide-hairline border-b border-hairline"
    >
      {boards.map((b) => (
        <BoardRow key={b.id} board={b} longestUm={longestUm} units={units} say={say} isNew />
      ))}
    </ul>
  )
}
