import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { listStations } from '#lib/data/stations'
import { nearInstantIn } from '#lib/format/instant'
import { load, settings } from '../load'
import { ButtonLink } from '../ui/button'
import { Live } from '../ui/live'
import { Empty, Page, Row, Rows } from '../ui/sheet'
import { Tag } from '../ui/tag'
import { KIND_WORDS } from './words'

export const metadata: Metadata = { title: 'Stations' }

interface StandingProps {
  readonly isMine: boolean
  readonly isInducted: boolean
  readonly needsInduction: boolean
  readonly mayKeep: boolean
  readonly toDecide: number
}

function Standing({ isMine, isInducted, needsInduction, mayKeep, toDecide }: StandingProps) {
  if (mayKeep && toDecide > 0) return <Tag tone="waiting">{`${toDecide} to decide`}</Tag>
  if (isMine) return <Tag tone="good">You keep it</Tag>
  if (!needsInduction) return <Tag>No induction needed</Tag>
  return isInducted ? <Tag tone="good">Inducted</Tag> : <Tag tone="caution">Induction needed</Tag>
}

export default async function StationsPage() {
  const [stations, me] = await Promise.all([load(listStations, {}), settings()])
  const near = nearInstantIn(me.timeZone, new Date())
  const add = me.role === 'admin' ? <ButtonLink href="/stations/new">Add a station</ButtonLink> : null
  return (
    <Page
      title="Stations"
      lead="Machines and benches that members reserve for each other."
      actions={
        <>
          <ButtonLink href="/bookings">Your bookings</ButtonLink>
          {add}
        </>
      }
    >
      <Live topics={['stations']} />
      {stations.length === 0 ? (
        <Empty title="No stations yet" action={add}>
          {add
            ? 'Add the saw, the planer, the benches: each with its keeper, its hours and its limits.'
            : 'An admin adds them; then you can book them here.'}
        </Empty>
      ) : (
        <Rows label="Stations">
          {stations.map((s) => (
            <Row key={s.id} aside={<Standing {...s} />}>
              <Link href={`/stations/${s.id}`} className="group block py-1">
                <span className="link text-[1.1rem] font-semibold">{s.name}</span>
                <span className="block text-[0.92rem] text-ink-soft">
                  {[
                    s.name === KIND_WORDS[s.kind].word ? null : KIND_WORDS[s.kind].word,
                    s.place,
                    s.keeper.name,
                  ]
                    .filter(Boolean)
                    .join(' · ')}
                </span>
                <span className="block">
                  {s.nextFreeAt ? (
                    <>
                      Free for an hour <strong className="font-semibold">{near(s.nextFreeAt)}</strong>
                    </>
                  ) : (
                    'Not free for an hour within two weeks'
                  )}
                </span>
              </Link>
            </Row>
          ))}
        </Rows>
      )}
    </Page>
  )
}
