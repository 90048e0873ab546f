import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import Link from '#app/ui/link'
import { latest } from '#lib/data/cut-plans'
import { saySize } from '#lib/format/length'
import { boardSheet } from '#lib/shop/board-sheet'
import { plannedCutting } from '#lib/shop/cutting'
import { load, settings } from '../../../../load'
import { ButtonLink } from '../../../../ui/button'
import { Notice } from '../../../../ui/notice'
import { Empty, Page } from '../../../../ui/sheet'
import { BoardSheetView } from '../board-part'
import { partNames } from '../part-names'
import { RecordForm } from './record-form'

export const metadata: Metadata = { title: 'Record the cutting' }

interface Props {
  readonly params: Promise<{ id: string; boardId: string }>
}

export default async function RecordPage({ params }: Props) {
  const { id: buildId, boardId } = await params
  const [plans, { units }] = await Promise.all([load(latest, { buildId }), settings()])
  const plan = plans?.newest.result ? plans.newest : plans?.former
  if (!plan?.result || !plan.isMaker) notFound()
  const planned = plannedCutting(plan.input, plan.result, boardId)
  const index = plan.result.plan.layouts.findIndex((l) => plan.input.pool.boardIds[l.board] === boardId)
  const state = plan.boards.find((b) => b.boardId === boardId)
  if (!planned || !state) notFound()
  const sheet = boardSheet(plan.input, plan.result, index, await partNames(plan.input))
  const { board } = sheet
  const back = `/builds/${buildId}/cutting`
  return (
    <Page
      title={`Record the cutting of board ${board.number}`}
      above={
        <Link href={back} className="link">
          Back to the cutting
        </Link>
      }
      lead={`${saySize([board.lengthUm, board.widthUm, board.thicknessUm], units)}, ${board.ownerName}’s. Say what came out.`}
    >
      {state.cut ? (
        <Empty
          title="This board has been cut already"
          action={<ButtonLink href={back}>Back to the cutting</ButtonLink>}
        >
          It stands in the books since {state.cut.memberName} recorded it.
        </Empty>
      ) : (
        <>
          <Blocked
            isHeld={state.hold?.isHere === true && state.hold.status === 'live'}
            isMetalCleared={state.isMetalCleared}
          />
          <div className="grid min-w-0 gap-2">
            <BoardSheetView sheet={sheet} units={units} kerfUm={plan.input.shop.kerfUm} />
          </div>
          <RecordForm
            buildId={buildId}
            planId={plan.id}
            boardId={boardId}
            units={units}
            place={board.place}
            ownerName={board.ownerName}
            parts={sheet.parts}
            offcuts={planned.offcuts}
          />
        </>
      )}
    </Page>
  )
}

function Blocked({ isHeld, isMetalCleared }: { isHeld: boolean; isMetalCleared: boolean }) {
  if (!isHeld)
    return (
      <Notice level="stop" title="Not held for this build">
        Hold the board first: only then is it yours to cut.
      </Notice>
    )
  if (isMetalCleared) return null
  return (
    <Notice level="stop" title="Not cleared of metal">
      Check it for nails and staples and clear it before it goes near a blade.
    </Notice>
  )
}
