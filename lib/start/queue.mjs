// The job queue's own tables (graphile-worker keeps them in a schema of its own).
import { runMigrations } from 'graphile-worker'
import pg from 'pg'

/** @param {string} url */
export async function installQueue(url) {
  const pool = new pg.Pool({ connectionString: url, max: 1, allowExitOnIdle: true })
  // A lost idle connection is not ours to report.
  pool.on('error', () => {})
  pool.on('connect', (client) => client.on('error', () => {}))
  try {
    await runMigrations({ pgPool: pool })
  } finally {
    await pool.end()
  }
}
