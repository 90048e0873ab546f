import type { CutPlanView, PlannedBoardState } from '#lib/data/cut-plans'
import { Tag } from '../../../ui/tag'
import { Tap } from '../../../ui/tap'
import { holdBoards } from './actions'

/** Boards of the plan that are neither cut nor held nor asked for. */
const openBoards = (plan: CutPlanView): PlannedBoardState[] =>
  plan.boards.filter((b) => !b.cut && !b.hold?.isHere)

const count = (n: number) => `${n} board${n === 1 ? '' : 's'}`

/**
 * One tap for all boards: all of them or none. Not for a plan that is out of date; what was answered to a tap that came
 * too late stays in sight all the same.
 */
export function HoldAll({ plan, isOld }: { plan: CutPlanView; isOld: boolean }) {
  const open = openBoards(plan)
  const left = plan.boards.filter((b) => !b.cut)
  if (left.length === 0) return null
  if (open.length === 0) return <HoldCount boards={left} />
  if (!plan.isMaker) return <p className="text-ink-soft">{count(open.length)} not held yet.</p>
  const planned = new Map(plan.input.boards.map((b) => [b.id, b]))
  const asked = [
    ...new Set(
      open.flatMap((b) => (planned.get(b.boardId)?.needsYes ? [planned.get(b.boardId)!.ownerName] : [])),
    ),
  ]
  const boards = open.map((b) => `${b.boardId}@${planned.get(b.boardId)?.version ?? 1}`).join(',')
  return (
    <div className="grid justify-items-start gap-2">
      <Tap action={holdBoards} hidden={{ buildId: plan.buildId, boards }} look="primary" isOver={isOld}>
        {open.length === left.length
          ? `Hold ${open.length === 1 ? 'the board' : `all ${count(open.length)}`}`
          : `Hold the other ${open.length === 1 ? 'board' : count(open.length)}`}
      </Tap>
      {isOld ? null : (
        <p className="max-w-[60ch] text-[0.92rem] text-ink-soft">
          All of them or none. {asked.length > 0 ? `${asked.join(' and ')} will be asked first.` : ''}
        </p>
      )}
    </div>
  )
}

function HoldCount({ boards }: { boards: readonly PlannedBoardState[] }) {
  const waiting = boards.filter((b) => b.hold?.status === 'requested').length
  return waiting === 0 ? (
    <Tag tone="good">
      {boards.length === 1 ? 'The board is held' : `All ${count(boards.length)} are held`}
    </Tag>
  ) : (
    <Tag tone="waiting">{`${count(waiting)} asked for; the owner has not answered`}</Tag>
  )
}

/** How one board stands: a word, and until when. */
export function HoldState({ state, say }: { state: PlannedBoardState; say: (at: Date) => string }) {
  const { hold, cut } = state
  if (cut) return <Tag tone="good">{`Cut ${say(cut.at)}`}</Tag>
  if (!state.isInPool) return <Tag tone="stop">Not in the pool any more</Tag>
  if (!hold) return <Tag>Not held</Tag>
  if (!hold.isHere) return <Tag tone="stop">{`Held by ${hold.memberName} until ${say(hold.expiresAt)}`}</Tag>
  if (hold.status === 'requested')
    return <Tag tone="waiting">{`Asked for, until ${say(hold.expiresAt)}`}</Tag>
  return <Tag tone="held">{`Held until ${say(hold.expiresAt)}`}</Tag>
}
