'use client'
import { Tap } from '../../../ui/tap'
import { castVote, takeBackVote } from './actions'

interface VoteProps {
  readonly buildId: string
  readonly variant: {
    readonly id: string
    readonly name: string
    readonly version: number
    readonly votes: readonly { readonly isMine: boolean; readonly isOlder: boolean }[]
  }
}

/** One voice a member and build: voting here takes it from where it was. */
export function VoteButton({ buildId, variant: { id, name, version, votes } }: VoteProps) {
  const mine = votes.find((v) => v.isMine)
  const cast = { action: castVote, hidden: { variantId: id, version: String(version) } }
  if (!mine)
    return (
      <Tap {...cast}>
        I would make this<span className="sr-only">: {name}</span>
      </Tap>
    )
  return (
    <div className="grid">
      {mine.isOlder ? <Tap {...cast}>Still my vote</Tap> : null}
      <Tap action={takeBackVote} hidden={{ buildId }} look="quiet">
        Take my vote back
      </Tap>
    </div>
  )
}
