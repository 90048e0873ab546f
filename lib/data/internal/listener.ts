/**
 * One LISTEN connection a process, shared by all who follow something: PostgreSQL tells every process of the shop
 * what changed (`announce` in transaction.ts). A connection that is lost is made anew; what was missed meanwhile is
 * made up for by telling everyone to look again. Tests: tests/data/live.test.ts
 */
import 'server-only'
import pg from 'pg'

export type Follower = (topic: string) => void

/** Said to every follower after a reconnection: something may have been missed. */
export const ANYTHING = '*'

const RETRY_MS = 1_000

class Listener {
  readonly #followers = new Map<string, Set<Follower>>()
  #client: pg.Client | null = null
  #connecting: Promise<void> | null = null
  #retry: NodeJS.Timeout | null = null

  get followers(): number {
    return new Set([...this.#followers.values()].flatMap((s) => [...s])).size
  }

  /** @returns stops following; the connection is closed with the last follower */
  async follow(topics: readonly string[], follower: Follower): Promise<() => void> {
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
    this.#client = client
    if (this.#followers.size === 0) this.#leave([], () => {})
  }

  #lost(client: pg.Client): void {
    if (this.#client !== client) return
    this.#client = null
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

  #tell(topic: string): void {
    for (const follower of this.#followers.get(topic) ?? []) follower(topic)
  }
}

const kept = globalThis as unknown as { fellowbenchListener?: Listener }

export function listener(): Listener {
  kept.fellowbenchListener ??= new Listener()
  return kept.fellowbenchListener
}
