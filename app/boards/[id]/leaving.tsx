import { AskFirst } from '../../ui/dialog'
import { TextField } from '../../ui/field'
import { Tap } from '../../ui/tap'
import { backInPool, outOfPool } from '../actions'
import type { BoardView } from './board-view'

interface LeavingProps {
  readonly board: BoardView
}

const seen = (board: BoardView) => ({ boardId: board.id, version: String(board.version) })

/** Out of the pool, with a reason. Not while it is held. */
export function Remove({ board }: LeavingProps) {
  if (board.hold) return null
  return (
    <div>
      <AskFirst
        label="Take it out of the pool"
        look="stop"
        question={`Take board ${board.number} out of the pool?`}
        consequence="Nobody can hold it any more, and requests for it are answered no. You can put it back later."
        yes="Take it out"
        action={outOfPool}
        hidden={seen(board)}
      >
        <TextField
          label="Why"
          name="reason"
          maxLength={300}
          help="Logged twice, thrown away, used elsewhere…"
        />
      </AskFirst>
    </div>
  )
}

export function PutBack({ board }: LeavingProps) {
  return (
    <Tap action={backInPool} hidden={seen(board)} look="primary">
      Put it back into the pool
    </Tap>
  )
}
