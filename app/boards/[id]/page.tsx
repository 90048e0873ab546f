import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { speciesById } from '#lib/core/wood/species'
import { board as boardQuery } from '#lib/data/boards'
import { historyOfBoard } from '#lib/data/ledger'
import { instantIn } from '#lib/format/instant'
import { sayLength, saySize } from '#lib/format/length'
import { FINISH_WORDS } from '#lib/shop/boards'
import { TERMS_WORDS } from '#lib/shop/sharing'
import { load, settings } from '../../load'
import { BoardFaceEditor } from '../../ui/board-face-editor'
import { Live } from '../../ui/live'
import { Notice } from '../../ui/notice'
import { Facts, Page, Section } from '../../ui/sheet'
import { marksSaved } from '../actions'
import { BoardStateTag } from '../board-tags'
import type { BoardView } from './board-view'
import { ChangeBoard } from './change-board'
import { Checks } from './checks'
import { History } from './history'
import { PutBack, Remove } from './leaving'
import { Origin } from './origin'

interface Props {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<{ before?: string }>
}

const look = async (params: Props['params']) => load(boardQuery, { boardId: (await params).id })

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Board ${(await look(params)).number}` }
}

export default async function BoardPage({ params, searchParams }: Props) {
  const [board, { units, timeZone }] = await Promise.all([look(params), settings()])
  const before = (await searchParams).before?.match(/^\d{1,18}$/)?.[0]
  const history = await load(historyOfBoard, { boardId: board.id, before })
  const isInPool = board.status === 'inPool'
  const mayChange = board.mayChange && isInPool
  return (
    <Page
      title={`Board ${board.number}`}
      lead={`${speciesById(board.species).name}, ${saySize([board.lengthUm, board.widthUm, board.thicknessUm], units)}`}
      above={
        <Link className="link inline-flex min-h-11 items-center" href="/pool">
          Pool
        </Link>
      }
      cells={[
        { label: 'Owner', value: board.ownerName },
        { label: 'Terms', value: TERMS_WORDS[board.terms].label },
        { label: 'Old finish', value: FINISH_WORDS[board.finish] },
        { label: 'Place', value: board.place || 'not said' },
        { label: 'State', value: isInPool && !board.hold ? 'In the pool' : <BoardStateTag board={board} /> },
      ]}
    >
      <Live topics={[`board:${board.id}`]} />
      <Standing board={board} say={instantIn(timeZone)} />
      <Section
        title="Faces and damage"
        note="Grain runs from left to right. Face B is drawn as seen through the board."
      >
        <BoardFaceEditor board={board} units={units} save={mayChange ? marksSaved : undefined} />
      </Section>
      <Section title="Safety checks" id="checks">
        <Checks board={board} />
      </Section>
      <Section title="Measures">
        <Facts
          items={[
            { label: 'Length', value: sayLength(board.lengthUm, units) },
            { label: 'Width', value: sayLength(board.widthUm, units) },
            { label: 'Thickness', value: sayLength(board.thicknessUm, units) },
            { label: 'Cup', value: sayLength(board.warp.cupUm, units) },
            { label: 'Bow', value: sayLength(board.warp.bowUm, units) },
            { label: 'Crook', value: sayLength(board.warp.crookUm, units) },
            { label: 'Twist', value: sayLength(board.warp.twistUm, units) },
            { label: 'Preservative', value: board.treated ? 'Treated' : 'Not treated' },
          ]}
        />
        {board.notes ? <p className="mt-4 max-w-[68ch] whitespace-pre-wrap">{board.notes}</p> : null}
        {mayChange ? <ChangeBoard board={board} units={units} /> : null}
      </Section>
      <Section title="Where it comes from">
        <Origin board={board} units={units} />
      </Section>
      <Section title="History">
        <History
          boardId={board.id}
          {...history}
          isLatest={before === undefined}
          units={units}
          timeZone={timeZone}
        />
      </Section>
      {mayChange ? <Remove board={board} /> : null}
    </Page>
  )
}

/** What stands in the way of using it: held, asked for, cut, out of the pool. */
function Standing({ board, say }: { readonly board: BoardView; readonly say: (at: Date) => string }) {
  if (board.cut)
    return (
      <Notice>
        Cut by {board.cut.memberName} for{' '}
        <Link className="link" href={`/builds/${board.cut.buildId}`}>
          {board.cut.buildName}
        </Link>
        , {say(board.cut.at)}.
      </Notice>
    )
  if (board.status === 'removed')
    return (
      <div className="grid justify-items-start gap-3">
        <Notice>It is out of the pool; its history says why.</Notice>
        {board.mayChange ? <PutBack board={board} /> : null}
      </div>
    )
  if (!board.hold && board.requests === 0) return null
  return (
    <Notice title={board.hold ? 'Held' : 'Asked for'}>
      {board.hold ? (
        <>
          by {board.hold.memberName} for{' '}
          <Link className="link" href={`/builds/${board.hold.buildId}`}>
            {board.hold.buildName}
          </Link>{' '}
          until {say(board.hold.expiresAt)}. Its size and species stay as they are until then.{' '}
        </>
      ) : null}
      {board.requests > 0
        ? `${board.requests === 1 ? 'One request waits' : `${board.requests} requests wait`} for ${board.ownerName}’s answer.`
        : null}
    </Notice>
  )
}
