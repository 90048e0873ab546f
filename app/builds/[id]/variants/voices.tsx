import { nameList } from '#lib/shop/build-stage'
import type { ShownVariant } from './shown-variant'

/** Who would make it. */
export function Voices({ variant: { votes } }: { variant: Pick<ShownVariant, 'votes'> }) {
  if (votes.length === 0) return <p className="text-[0.92rem] text-ink-soft">No vote yet</p>
  const older = votes.filter((v) => v.isOlder).length
  const names = votes.map((v) => (v.isMine ? 'you' : v.memberName))
  return (
    <p className="text-[0.92rem]">
      <span className="font-semibold">{votes.length === 1 ? '1 vote' : `${votes.length} votes`}</span>
      <span className="text-ink-soft"> by {nameList(names)}</span>
      {older > 0 ? (
        <span className="block text-ink-soft">
          {older === votes.length ? 'Given' : `${older} of them given`} before its numbers changed
        </span>
      ) : null}
    </p>
  )
}
