import Link from '#app/ui/link'
import { saySize } from '#lib/format/length'
import { Tag } from '../../ui/tag'
import type { BoardView } from './board-view'

const STATUS_WORDS = { inPool: 'in the pool', cut: 'cut', removed: 'out of the pool' } as const

interface OriginProps {
  readonly board: BoardView
  readonly units: 'mm' | 'in'
}

const BoardLink = ({ id, number }: { readonly id: string; readonly number: number }) => (
  <Link className="link inline-flex min-h-11 items-center" href={`/boards/${id}`}>
    Board {number}
  </Link>
)

/** Teardown, the boards it was cut from, itself, its offcuts. */
export function Origin({ board, units }: OriginProps) {
  const { teardown, parents, offcuts } = board
  return (
    <div className="grid grid-cols-1 gap-2 wrap-anywhere">
      <ol className="flex flex-wrap items-center gap-x-3">
        {teardown ? (
          <li>
            <Link className="link inline-flex min-h-11 items-center" href={`/teardowns/${teardown.id}`}>
              {teardown.name}
            </Link>
          </li>
        ) : null}
        {parents.map((p) => (
          <li key={p.id} className="flex items-center gap-3">
            <span aria-hidden="true">→</span> <BoardLink {...p} />
          </li>
        ))}
        <li className="flex min-h-11 items-center gap-3 font-semibold">
          {teardown || parents.length > 0 ? <span aria-hidden="true">→</span> : null} Board {board.number}
        </li>
      </ol>
      {!teardown && parents.length === 0 ? (
        <p className="text-ink-soft">It was taken in without a teardown.</p>
      ) : null}
      {offcuts.length > 0 ? (
        <>
          <h3 className="font-semibold">Its offcuts</h3>
          <ul className="grid gap-x-6 sm:grid-cols-2">
            {offcuts.map((o) => (
              <li key={o.id} className="flex flex-wrap items-center gap-x-4 border-b border-hairline">
                <BoardLink {...o} />
                <span>{saySize([o.lengthUm, o.widthUm, o.thicknessUm], units)}</span>
                <Tag>{STATUS_WORDS[o.status]}</Tag>
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </div>
  )
}
