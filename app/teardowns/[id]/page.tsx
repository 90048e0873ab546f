import type { Metadata } from 'next'
import Link from 'next/link'
import { speciesById } from '#lib/core/wood/species'
import type { BoardBrief } from '#lib/data/internal/board-brief'
import { teardown } from '#lib/data/teardowns'
import { dayOf } from '#lib/format/instant'
import { saySize } from '#lib/format/length'
import { BoardGateTag, BoardStateTag } from '../../boards/board-tags'
import { load, settings } from '../../load'
import { BoardStrip } from '../../ui/board-face'
import { Form, Submit } from '../../ui/form'
import { Live } from '../../ui/live'
import { Empty, Page, Row, Rows, Section } from '../../ui/sheet'
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
  const [donor, { units, timeZone }] = await Promise.all([load(teardown, { teardownId: id }), settings()])
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
      <Live topics={[`teardown:${id}`]} />
      {donor.mayChange ? (
        <Section
          title="Log its boards"
          note="Length, width, thickness, Enter. What stays the same is kept for the next one."
        >
          <LogForm teardownId={id} units={units} />
        </Section>
      ) : null}
      <Section title={donor.count === 1 ? 'One board' : `${donor.count} boards`}>
        <LoggedBoards boards={donor.boards} units={units} mayChange={donor.mayChange} />
        {donor.count > donor.boards.length ? (
          <p className="mt-3 text-ink-soft">The {donor.boards.length} logged last are shown.</p>
        ) : null}
      </Section>
      {donor.mayChange || donor.notes ? (
        <Section title="The piece">
          {donor.notes ? <p className="mb-4 max-w-[68ch] whitespace-pre-wrap">{donor.notes}</p> : null}
          {donor.mayChange ? (
            <details className="max-w-xl">
              <summary className="min-h-11 py-2 font-medium">Change what is said of it</summary>
              <Form action={describeTeardown} done="Changed." className="mt-2 grid gap-5">
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
  readonly mayChange: boolean
}

function LoggedBoards({ boards, units, mayChange }: LoggedProps) {
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
    <Rows label="Boards of this piece, the last logged first">
      {boards.map((b) => (
        <Row
          key={b.id}
          aside={
            <>
              <BoardStateTag board={b} />
              <BoardGateTag board={b} />
            </>
          }
        >
          <Link href={`/boards/${b.id}`} className="flex min-h-11 items-center gap-4">
            <span className="min-w-14 text-right text-[1.6rem] leading-none font-semibold text-accent underline decoration-1 underline-offset-4">
              <span className="sr-only">Board </span>
              {b.number}
            </span>
            <span className="min-w-0">
              <span className="block font-medium">
                {saySize([b.lengthUm, b.widthUm, b.thicknessUm], units)}
              </span>
              <span className="block text-[0.92rem] text-ink-soft">{speciesById(b.species).name}</span>
            </span>
          </Link>
          <div className="mt-1 max-w-md">
            <BoardStrip board={b} longestUm={longestUm} />
          </div>
        </Row>
      ))}
    </Rows>
  )
}
