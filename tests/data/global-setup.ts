import type { TestProject } from 'vitest/node'

/** A real PostgreSQL with one migrated template; each test worker copies it (setup.ts). */
export default async function globalSetup(project: TestProject) {
  const { startDatabase } = await import('../../lib/start/database.mjs')
  const { applyMigrations } = await import('../../lib/start/migrations.mjs')
  const { installQueue } = await import('../../lib/start/queue.mjs')
  const db = await startDatabase({ name: 'postgres-test', port: 54331, database: 'fellowbench_template' })
  await applyMigrations(db.url)
  await installQueue(db.url)
  project.provide('templateUrl', db.url)
  return db.stop
}

declare module 'vitest' {
  export interface ProvidedContext {
    templateUrl: string
  }
}
