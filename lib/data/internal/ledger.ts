import 'server-only'
import type { Prisma } from '../generated/client'
import type { Transaction } from '../transaction'

export const STOCK_EVENT_KINDS = [
  'takenIn',
  'changed',
  'gate',
  'holdAsked',
  'held',
  'extended',
  'declined',
  'released',
  'lapsed',
  'cut',
  'offcut',
  'removed',
  'putBack',
] as const
export type StockEventKind = (typeof STOCK_EVENT_KINDS)[number]

export interface StockEntry {
  readonly boardId: string
  /** Who did it; absent: the shop itself, as when a hold lapses. */
  readonly memberId?: string
  readonly buildId?: string
  readonly kind: StockEventKind
  readonly detail: Prisma.InputJsonObject
}

/** Writes to the append-only ledger, in the transaction of the change that it tells of. */
export async function writeLedger(tx: Transaction, entries: readonly StockEntry[]): Promise<void> {
  if (entries.length > 0) await tx.stockEvent.createMany({ data: [...entries] })
}
