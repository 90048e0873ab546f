/** A shop of a story's own: started, stopped and killed by the story, beside the one that all stories share. */
import { type ChildProcess, spawn } from 'node:child_process'
import path from 'node:path'
import { databaseProcess, removeDatabase } from '../../lib/start/database.mjs'

const ROOT = path.resolve(import.meta.dirname, '../..')
const SHARED_PORT = Number(process.env.E2E_PORT ?? 3200)
const START_MS = 120_000

export interface ShopOptions {
  /** Added to the port of the shared shop; tells the data folders of the stories apart too. */
  readonly beside: number
  readonly demo: boolean
}

export interface OwnShop {
  readonly url: string
  /** Name of the data folder. */
  readonly data: string
  /** Milliseconds from the command to «is open at». */
  readonly startMs: number
  readonly stop: () => Promise<void>
  /** kill -9: the web server, the queue worker and who started them; with `database` PostgreSQL too. */
  readonly kill: (what?: { database?: boolean }) => Promise<void>
}

const hasEnded = (child: ChildProcess) => child.exitCode !== null || child.signalCode !== null
const end = (child: ChildProcess) =>
  hasEnded(child) ? Promise.resolve() : new Promise<void>((resolve) => child.once('exit', () => resolve()))

/** Waits until the shop says that it is open; fails with what it said otherwise. */
function opened(child: ChildProcess): Promise<void> {
  return new Promise((resolve, reject) => {
    let said = ''
    const tooLate = setTimeout(() => reject(new Error(`the shop did not open in time:\n${said}`)), START_MS)
    const hear = (chunk: Buffer) => {
      said += chunk
      if (!said.includes('Fellowbench is open at')) return
      clearTimeout(tooLate)
      resolve()
    }
    child.stdout?.on('data', hear)
    child.stderr?.on('data', hear)
    child.once('exit', (code) => {
      clearTimeout(tooLate)
      reject(new Error(`the shop ended with ${code}:\n${said}`))
    })
  })
}

/** `npm start` on a port and a data folder of its own. With `again`, on the data that a former run left there. */
export async function openShop({ beside, demo }: ShopOptions, again = false): Promise<OwnShop> {
  const port = SHARED_PORT + beside
  const data = `postgres-e2e-${port}`
  const url = `http://127.0.0.1:${port}`
  const { DATABASE_URL: _, ...inherited } = process.env
  const env = {
    ...inherited,
    PORT: String(port),
    NEXTAUTH_URL: url,
    FELLOWBENCH_DATA: data,
    FELLOWBENCH_DEMO: demo ? '1' : '0',
    FELLOWBENCH_FRESH: again ? '0' : '1',
    // The shared shop has built the pages; a source that was touched since must not be built under it.
    FELLOWBENCH_BUILD: '0',
  }
  const began = performance.now()
  const child = spawn(process.execPath, ['lib/start/run.mjs', 'start'], { cwd: ROOT, env, detached: true })
  await opened(child)
  const startMs = performance.now() - began
  return {
    url,
    data,
    startMs,
    stop: async () => {
      if (!hasEnded(child)) process.kill(child.pid!, 'SIGTERM')
      await end(child)
    },
    kill: async ({ database = false } = {}) => {
      const postmaster = databaseProcess(data)
      process.kill(-child.pid!, 'SIGKILL')
      if (database && postmaster) process.kill(postmaster.pid, 'SIGKILL')
      await end(child)
    },
  }
}

/** Leaves nothing behind: no process, no data. */
export const throwAway = (shop: Pick<OwnShop, 'data'>): Promise<void> => removeDatabase(shop.data)
