import type { BoardBrief } from '#lib/data/internal/board-brief'
import { instantIn } from '#lib/format/instant'
import { BoardRow } from '../boards/board-row'
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
            <BoardRow key={b.id} board={b} longestUm={longestUm} units={units} say={instantIn(timeZone)} />
          ))}
      </ul>
    </Section>
  ))
}
