import type { Metadata } from 'next'
import { pool, poolChoices } from '#lib/data/pool'
import { load, settings } from '../load'
import { ButtonLink } from '../ui/button'
import { Live } from '../ui/live'
import { Pages } from '../ui/pages'
import { Empty, Page, Section } from '../ui/sheet'
import { FilterForm } from './filter-form'
import { PoolRows } from './pool-rows'
import { Sums, sumCells } from './sums'
import { readWanted, type WantedText, wantedHref, wantedText } from './wanted'

export const metadata: Metadata = { title: 'Pool' }

interface Props {
  readonly searchParams: Promise<Record<string, string | string[] | undefined>>
}

const TITLES = { inPool: 'The pool', cut: 'Boards that were cut', removed: 'Boards out of the pool' } as const
const isFiltered = (typed: WantedText) =>
  Object.keys(typed).some((name) => name !== 'page' && name !== 'state')

export default async function PoolPage({ searchParams }: Props) {
  const [typed, { units, timeZone }] = [wantedText(await searchParams), await settings()]
  const { input, fields } = readWanted(typed, units)
  const [found, choices] = await Promise.all([load(pool, input), load(poolChoices, {})])
  const log = (
    <ButtonLink look="primary" href="/teardowns/new">
      Log a teardown
    </ButtonLink>
  )
  const isBare = found.total === 0 && !isFiltered(typed)
  return (
    <Page
      title={TITLES[input.state]}
      lead="Every board that the members share, by owner."
      actions={
        isBare ? undefined : (
          <>
            <ButtonLink href="/hardware">Hardware</ButtonLink>
            {log}
          </>
        )
      }
      cells={sumCells(found.all, units)}
    >
      <Live topics={['pool']} />
      {isBare && input.state === 'inPool' ? (
        <Empty title="The pool is empty" action={log}>
          Take a worn-out piece apart and log its boards: they stand here for all members, on the terms of
          their owner.
        </Empty>
      ) : (
        <>
          <FilterForm typed={typed} fields={fields} choices={choices} units={units} />
          {isBare ? (
            <Empty
              title={
                input.state === 'cut'
                  ? 'No board has been cut yet'
                  : 'No board has been taken out of the pool'
              }
              action={<ButtonLink href="/pool">Back to the pool</ButtonLink>}
            >
              {input.state === 'cut'
                ? 'Boards stand here once their cutting is recorded; what is left of them is in the pool again.'
                : 'Boards stand here once their owner takes them out: burnt, given away, gone.'}
            </Empty>
          ) : found.total === 0 ? (
            <Empty
              title="No board is like that"
              action={<ButtonLink href="/pool">Show the whole pool</ButtonLink>}
            >
              Ask for a little less: a shorter board, another species, or one that is held just now.
            </Empty>
          ) : (
            <>
              <PoolRows boards={found.boards} units={units} timeZone={timeZone} />
              <Pages
                page={found.page}
                pages={found.pages}
                href={(n) => wantedHref(typed, { page: String(n) })}
              />
              <Section title="How much there is">
                <Sums byOwner={found.byOwner} bySpecies={found.bySpecies} units={units} typed={typed} />
              </Section>
            </>
          )}
        </>
      )}
    </Page>
  )
}
