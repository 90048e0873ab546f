// Equivalent of `prisma migrate deploy` on plain `pg`: same folder layout, same
// _prisma_migrations table, checksums and advisory lock, so Prisma's own CLI
// (where it can download its engine) and author-migration.mjs agree with it.
import { createHash, randomUUID } from 'node:crypto'
import fs from 'node:fs/promises'
import path from 'node:path'
import pg from 'pg'

const dir = path.resolve(import.meta.dirname, '../../prisma/migrations')
const LOCK = 72707369 // Prisma's advisory lock id

export async function applyMigrations(url) {
  const files = []
  for (const d of (await fs.readdir(dir, { withFileTypes: true }))
    .filter((d) => d.isDirectory())
    .map((d) => d.name)
    .sort()) {
    const sql = await fs.readFile(path.join(dir, d, 'migration.sql'), 'utf8')
    files.push({ name: d, sql, checksum: createHash('sha256').update(sql).digest('hex') })
  }
  const c = new pg.Client({ connectionString: url })
  await c.connect()
  try {
    await c.query('select pg_advisory_lock($1)', [LOCK])
    await c.query(`create table if not exists _prisma_migrations (
      id varchar(36) primary key not null, checksum varchar(64) not null, finished_at timestamptz,
      migration_name varchar(255) not null, logs text, rolled_back_at timestamptz,
      started_at timestamptz not null default now(), applied_steps_count integer not null default 0)`)
    const { rows } = await c.query(
      'select migration_name, checksum, finished_at, logs from _prisma_migrations where rolled_back_at is null',
    )
    const failed = rows.find((r) => !r.finished_at)
    if (failed)
      throw new Error(
        `migration ${failed.migration_name} failed earlier:\n${failed.logs}\nFix it, then mark it rolled back (prisma migrate resolve) before deploying again.`,
      )
    const applied = new Map(rows.map((r) => [r.migration_name, r.checksum]))
    const done = []
    for (const m of files) {
      if (applied.has(m.name)) {
        if (applied.get(m.name) !== m.checksum)
          console.warn(`warning: migration ${m.name} was edited after it was applied`)
        continue
      }
      const id = randomUUID()
      await c.query('insert into _prisma_migrations (id, checksum, migration_name) values ($1,$2,$3)', [
        id,
        m.checksum,
        m.name,
      ])
      try {
        await c.query(m.sql) // one simple-protocol message: an implicit transaction unless the file says otherwise
      } catch (e) {
        await c.query('rollback').catch(() => {})
        await c.query('update _prisma_migrations set logs=$2 where id=$1', [
          id,
          `${e.code ?? ''} ${e.message}`,
        ])
        throw new Error(`migration ${m.name}: ${e.message}`, { cause: e })
      }
      await c.query('update _prisma_migrations set finished_at=now(), applied_steps_count=1 where id=$1', [
        id,
      ])
      done.push(m.name)
    }
    return done
  } finally {
    await c.end() // releases the advisory lock
  }
}
