import Link from 'next/link'
import { speciesById } from '#lib/core/wood/species'
import type { BoardBrief } from '#lib/data/internal/board-brief'
import { instantIn } from '#lib/format/instant'
import { saySize } from '#lib/format/length'
import { BoardGateTag, BoardStateTag } from '../boards/board-tags'
import { BoardStrip } from '../ui/board-face'
import { Section } from '../ui/sheet'

interface RowsProps {
  readonly boards: readonly BoardBrief[]
  readonly units: 'mm' | 'in'
  readonly timeZone: string
}

/** Owner by owner; every board of the page is drawn to one scale. */
export function PoolRows({ boards, units, timeZone }: RowsProps) {
  const longestUm = Math.max(1, ...boards.map((b) => b.lengthUm))
  const owners = [...new Map(boards.map((b) => [b.ownerId, b.ownerName]))]
  return owners.map(([ownerId, ownerName]) => (
    <Section key={ownerId} title={ownerName}>
      <ul aria-label={`Boards of ${ownerName}`} className="divide-y divide-hairline border-b border-hairline">
        {boards
          .filter((b) => b.ownerId === ownerId)
          .map((b) => (
            <PoolRow key={b.id} board={b} longestUm={longestUm} units={units} say={instantIn(timeZone)} />
          ))}
      </ul>
    </Section>
  ))
}

interface RowProps {
  readonly board: BoardBrief
  readonly longestUm: number
  readonly units: 'mm' | 'in'
  readonly say: (at: Date) => string
}

function PoolRow({ board: b, longestUm, units, say }: RowProps) {
  const marks = b.defects.length
  return (
    <li className="grid items-center gap-x-6 gap-y-1 py-2.5 sm:grid-cols-[minmax(0,19rem)_minmax(0,1fr)_12rem]">
      <Link href={`/boards/${b.id}`} className="flex min-h-11 items-center gap-4">
        <span className="min-w-12 text-right text-[1.35rem] leading-none font-semibold text-accent underline decoration-1 underline-offset-4">
          <span className="sr-only">Board </span>
          {b.number}
        </span>
        <span className="min-w-0">
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
        <BoardGateTag board={b} />
      </div>
    </li>
  )
}

const marksWords = (count: number): string => (count === 0 ? '' : count === 1 ? 'one mark' : `${count} marks`)
