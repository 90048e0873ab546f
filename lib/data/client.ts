import 'server-only'
import { PrismaPg } from '@prisma/adapter-pg'
import { PrismaClient } from './generated/client'

const MAX_CONNECTIONS = 20

/**
 * The database, one pool a process. Sessions run in UTC: the driver adapter reads instants wrong otherwise.
 * @throws Error when DATABASE_URL is not set
 */
function connect(): PrismaClient {
  const connectionString = process.env.DATABASE_URL
  if (!connectionString) throw new Error('DATABASE_URL is not set')
  return new PrismaClient({
    adapter: new PrismaPg({
      connectionString,
      options: '-c TimeZone=UTC',
      max: MAX_CONNECTIONS,
      allowExitOnIdle: true,
    }),
    transactionOptions: { maxWait: 15_000, timeout: 20_000 },
  })
}

// Next's development server reloads modules; the pool must outlive that.
const kept = globalThis as unknown as { fellowbenchDatabase?: PrismaClient }

export function database(): PrismaClient {
  kept.fellowbenchDatabase ??= connect()
  return kept.fellowbenchDatabase
}
