import type { BoardBrief } from '#lib/data/internal/board-brief'
import { LEAD_WORDS, METAL_WORDS } from '#lib/shop/boards'
import { TERMS_WORDS } from '#lib/shop/sharing'
import { Tag } from '../ui/tag'

type TaggedBoard = Pick<
  BoardBrief,
  'terms' | 'status' | 'hold' | 'metal' | 'lead' | 'finish' | 'treated' | 'defects'
>

/** Whether it can be had: left the pool, held, or on which terms. */
export function BoardStateTag({ board }: { readonly board: TaggedBoard }) {
  if (board.status === 'cut') return <Tag tone="plain">Cut</Tag>
  if (board.status === 'removed') return <Tag tone="plain">Out of the pool</Tag>
  if (board.hold) return <Tag tone="held">{`Held by ${board.hold.memberName}`}</Tag>
  const { label } = TERMS_WORDS[board.terms]
  if (board.terms === 'free') return <Tag tone="good">{label}</Tag>
  return <Tag tone={board.terms === 'ask' ? 'waiting' : 'plain'}>{label}</Tag>
}

/** What its safety gates say, one tag a gate that is not open; nothing where all are. */
export function BoardGateTags({ board }: { readonly board: TaggedBoard }) {
  const isMetal = board.metal === 'found' || board.defects.some((d) => d.kind === 'metal')
  const isUntested = board.lead === 'untested' && board.finish !== 'bare'
  return (
    <>
      {isMetal ? <Tag tone="stop">{METAL_WORDS.found}</Tag> : null}
      {!isMetal && board.metal === 'unchecked' ? <Tag tone="caution">{METAL_WORDS.unchecked}</Tag> : null}
      {board.lead === 'found' ? <Tag tone="stop">{LEAD_WORDS.found}</Tag> : null}
      {isUntested ? <Tag tone="caution">{LEAD_WORDS.untested}</Tag> : null}
      {board.treated ? <Tag tone="caution">Treated wood</Tag> : null}
    </>
  )
}
