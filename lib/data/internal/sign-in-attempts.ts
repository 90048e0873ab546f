import 'server-only'
import type { Transaction } from '../transaction'

export const TRY_WINDOW_MS = 15 * 60_000

/** What is counted: failures against one e-mail, from one address, or of one member who gives a current password. */
export interface TryKey {
  readonly kind: 'email' | 'address' | 'member'
  readonly of: string
}

const MOST_TRIES: Record<TryKey['kind'], number> = { email: 8, address: 40, member: 8 }
const LOCK_CLASS: Record<TryKey['kind'], number> = { email: 417_002, address: 417_003, member: 417_004 }

const nameOf = (key: TryKey) => `${key.kind}:${key.of}`

/**
 * Counts a try against every key before the password is looked at, or says that there were too many. The count and
 * the row stand under one lock a key, so that many tries at once cannot slip past the limit together. E-mail before
 * address: always one order, so two tries never wait for each other.
 * @returns the rows to take back when the try succeeds, or null when there were too many
 */
export async function countTry(
  tx: Transaction,
  keys: readonly TryKey[],
  now: Date,
): Promise<bigint[] | null> {
  const since = new Date(now.getTime() - TRY_WINDOW_MS)
  for (const key of keys) {
    await tx.$executeRaw`select pg_advisory_xact_lock(${LOCK_CLASS[key.kind]}::int, hashtext(${key.of}))`
    const tries = await tx.signInAttempt.count({ where: { key: nameOf(key), at: { gt: since } } })
    if (tries >= MOST_TRIES[key.kind]) return null
  }
  const rows = await tx.signInAttempt.createManyAndReturn({
    data: keys.map((key) => ({ key: nameOf(key), at: now })),
    select: { id: true },
  })
  return rows.map((row) => row.id)
}

/** A right password takes its own try back and clears what was counted against the e-mail or member, never the address. */
export async function forgiveTries(
  tx: Transaction,
  rows: readonly bigint[],
  key: TryKey & { kind: 'email' | 'member' },
): Promise<void> {
  await tx.signInAttempt.deleteMany({ where: { OR: [{ id: { in: [...rows] } }, { key: nameOf(key) }] } })
}
