import 'server-only'
import type { StockEventKind } from '#lib/shop/ledger-words'
import type { Prisma } from '../generated/client'
import type { Transaction } from '../transaction'

export type { StockEventKind }

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
