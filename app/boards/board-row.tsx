import clsx from 'clsx'
import Link from '#app/ui/link'
import { speciesById } from '#lib/core/wood/species'
import type { BoardBrief } from '#lib/data/internal/board-brief'
import { saySize } from '#lib/format/length'
import { BoardStrip } from '../ui/board-face'
import { BoardGateTags, BoardStateTag } from './board-tags'

interface BoardRowProps {
  readonly board: BoardBrief
  /** The longest board of the list: all are drawn to one scale. */
  readonly longestUm: number
  readonly units: 'mm' | 'in'
  /** An instant as the shop's clock shows it. */
  readonly say: (at: Date) => string
  /** Its number is large: it is being chalked on. */
  readonly isNew?: boolean
}

/** A board in a list: number, size, what it is, its face to scale, whether it can be had. */
export function BoardRow({ board: b, longestUm, units, say, isNew }: BoardRowProps) {
  const marks = b.defects.length
  return (
    <li className="grid grid-cols-1 items-center gap-x-6 gap-y-1 py-2.5 sm:grid-cols-[minmax(0,19rem)_minmax(0,1fr)_12rem]">
      <Link href={`/boards/${b.id}`} className="flex min-h-11 items-center gap-4">
        <span
          className={clsx(
            'min-w-11 leading-none sm:min-w-12 sm:text-right font-semibold text-accent underline decoration-1 underline-offset-4',
            isNew ? 'text-[1.9rem]' : 'text-[1.35rem]',
          )}
        >
          <span className="sr-only">Board </span>
          {b.number}
        </span>
        <span className="min-w-0 wrap-anywhere">
          <span className="block font-medium">{saySize([b.lengthUm, b.widthUm, b.thicknessUm], units)}</span>
          <span className="block text-[0.92rem] text-ink-soft">
            {[speciesById(b.species).name, b.isOffcut && 'offcut', marksWords(marks), b.place]
              .filter(Boolean)
              .join(' · ')}
          </span>
        </span>
      </Link>
      <BoardStrip board={b} longestUm={longestUm} />
      <div className="flex flex-wrap items-center gap-x-4 gap-y-0.5 sm:grid">
        <BoardStateTag board={b} />
        {b.hold ? (
          <span className="caption">
            for {b.hold.buildName} until {say(b.hold.expiresAt)}
          </span>
        ) : null}
        <BoardGateTags board={b} />
      </div>
    </li>
  )
}

const marksWords = (count: number): string => (count === 0 ? '' : count === 1 ? 'one mark' : `${count} marks`)
