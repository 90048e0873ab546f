import 'server-only'
import { err, type Result } from '#lib/core/units/result'
import { type Refusal, refusal } from '#lib/shop/refusal'
import { database } from './client'
import { Prisma } from './generated/client'

export type Transaction = Prisma.TransactionClient

const MAX_TRIES = 3

/** SQLSTATE and constraint of a database error, as far as the driver says. */
export function databaseError(error: unknown): { code?: string; constraint?: string } {
  if (!(error instanceof Error)) return {}
  const known = error as Error & {
    code?: string
    meta?: { code?: string; driverAdapterError?: { cause?: Record<string, unknown> } }
    cause?: Record<string, unknown>
  }
  const cause = known.meta?.driverAdapterError?.cause ?? known.cause ?? {}
  const code = (cause.originalCode ?? known.meta?.code) as string | undefined
  const text = `${cause.originalMessage ?? ''} ${known.message}`
  const constraint = /constraint "([^"]+)"|unique constraint[^"]*"([^"]+)"/.exec(text)
  return {
    code: code ?? (known.code === 'P2002' ? '23505' : known.code === 'P2034' ? '40001' : undefined),
    constraint: constraint?.[1] ?? constraint?.[2],
  }
}

/** Thrown inside a transaction to roll it back and be returned as a refusal. */
export class Refused extends Error {
  constructor(readonly refusal: Refusal) {
    super(refusal.code)
  }
}

const wait = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms))

/**
 * One transaction. `Refused` rolls back and becomes a refusal; a clash with a constraint named in `clashes`
 * becomes that refusal; a write conflict or deadlock is tried again, 3 times at most, then `busy`.
 * @param clashes refusal by name of constraint or index
 */
export async function transact<T>(
  work: (tx: Transaction) => Promise<Result<T, Refusal>>,
  clashes: Readonly<Record<string, Refusal>> = {},
): Promise<Result<T, Refusal>> {
  for (let attempt = 1; ; attempt++) {
    try {
      return await database().$transaction(async (tx) => {
        const result = await work(tx)
        if (!result.ok) throw new Refused(result.error)
        return result
      })
    } catch (error) {
      if (error instanceof Refused) return err(error.refusal)
      const { code, constraint } = databaseError(error)
      if (constraint && clashes[constraint]) return err(clashes[constraint])
      const isConflict = code === '40001' || code === '40P01'
      if (isConflict && attempt < MAX_TRIES) {
        await wait(20 * attempt + Math.random() * 40)
        continue
      }
      const isOverloaded = error instanceof Prisma.PrismaClientKnownRequestError && error.code === 'P2028'
      if (isConflict || isOverloaded) return err(refusal('busy'))
      throw error
    }
  }
}

/** Tells every process of the shop that something changed; carried by PostgreSQL, sent when the transaction commits. */
export async function announce(tx: Transaction, topic: string): Promise<void> {
  await tx.$executeRaw`select pg_notify('fellowbench', ${topic})`
}
