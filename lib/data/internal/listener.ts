/**
 * One LISTEN connection a process, shared by all who follow something: PostgreSQL tells every process of the shop
 * what changed (`announce` in transaction.ts). A connection that is lost is made anew; what was missed meanwhile is
 * made up for by telling everyone to look again. What was told lately is remembered, so that a page that begins to
 * follow can be told what changed since it was made. Tests: tests/data/live.test.ts
 */
import 'server-only'
import pg from 'pg'

export type Follower = (topic: string) => void

/** Said to a follower when something may have been missed. */
export const ANYTHING = '*'

const RETRY_MS = 1_000
/** The connection outlives its last follower: whoever goes on to the next page misses nothing. */
const LINGER_MS = 60_000
const MOST_REMEMBERED = 2_000

export class Listener {
  readonly #followers = new Map<string, Set<Follower>>()
  #client: pg.Client | null = null
  #connecting: Promise<void> | null = null
  #retry: NodeJS.Timeout | null = null
  #closing: NodeJS.Timeout | null = null
  /** When each topic was told last, the latest at the end; complete from `#knownFromMs` on. */
  readonly #told = new Map<string, number>()
  #knownFromMs = Number.POSITIVE_INFINITY

  constructor(readonly lingerMs = LINGER_MS) {}

  get followers(): number {
    return new Set([...this.#followers.values()].flatMap((s) => [...s])).size
  }

  /** Whether one of the topics was told since; yes where that is not known. Ask after `follow`: nothing is between. */
  mayHaveChanged(topics: readonly string[], sinceMs: number): boolean {
    return sinceMs < this.#knownFromMs || topics.some((t) => (this.#told.get(t) ?? -1) >= sinceMs)
  }

  /** @returns stops following; the connection is closed a while after the last follower has gone */
  async follow(topics: readonly string[], follower: Follower): Promise<() => void> {
    if (this.#closing) clearTimeout(this.#closing)
    this.#closing = null
    for (const topic of topics) {
      const set = this.#followers.get(topic) ?? new Set()
      this.#followers.set(topic, set.add(follower))
    }
    await this.#connect()
    return () => this.#leave(topics, follower)
  }

  #leave(topics: readonly string[], follower: Follower): void {
    for (const topic of topics) {
      const set = this.#followers.get(topic)
      set?.delete(follower)
      if (set?.size === 0) this.#followers.delete(topic)
    }
    if (this.#followers.size > 0) return
    if (this.#retry) clearTimeout(this.#retry)
    this.#retry = null
    if (this.#closing) clearTimeout(this.#closing)
    this.#closing = setTimeout(() => this.#close(), this.lingerMs).unref()
  }

  #close(): void {
    this.#closing = null
    this.#knownFromMs = Number.POSITIVE_INFINITY
    const client = this.#client
    this.#client = null
    client?.end().catch(() => {})
  }

  #connect(): Promise<void> {
    if (this.#client) return Promise.resolve()
    this.#connecting ??= this.#open().finally(() => {
      this.#connecting = null
    })
    return this.#connecting
  }

  async #open(): Promise<void> {
    const client = new pg.Client({ connectionString: process.env.DATABASE_URL, keepAlive: true })
    client.on('error', () => this.#lost(client))
    client.on('end', () => this.#lost(client))
    client.on('notification', ({ payload }) => payload && this.#tell(payload))
    await client.connect()
    await client.query('listen fellowbench')
    this.#told.clear()
    this.#knownFromMs = Date.now()
    this.#client = client
    if (this.#followers.size === 0) this.#leave([], () => {})
  }

  #lost(client: pg.Client): void {
    if (this.#client !== client) return
    this.#client = null
    this.#knownFromMs = Number.POSITIVE_INFINITY
    client.end().catch(() => {})
    this.#again()
  }

  #again(): void {
    if (this.#followers.size === 0 || this.#retry) return
    this.#retry = setTimeout(async () => {
      this.#retry = null
      try {
        await this.#connect()
        for (const follower of new Set([...this.#followers.values()].flatMap((s) => [...s])))
          follower(ANYTHING)
      } catch {
        this.#again()
      }
    }, RETRY_MS)
  }

  #remember(topic: string): void {
    this.#told.delete(topic)
    this.#told.set(topic, Date.now())
    if (this.#told.size <= MOST_REMEMBERED) return
    const [oldest, atMs] = this.#told.entries().next().value!
    this.#told.delete(oldest)
    this.#knownFromMs = Math.max(this.#knownFromMs, atMs + 1)
  }

  #tell(topic: string): void {
    this.#remember(topic)
    for (const follower of this.#followers.get(topic) ?? []) follower(topic)
  }
}

const kept = globalThis as unknown as { fellowbenchListener?: Listener }

export function listener(): Listener {
  kept.fellowbenchListener ??= new Listener()
  return kept.fellowbenchListener
}
