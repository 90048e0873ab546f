import pg from 'pg'
import { afterAll, inject } from 'vitest'

// One database a test file, copied from the migrated template and dropped afterwards.
const template = new URL(inject('templateUrl'))
const templateName = template.pathname.slice(1)
const name = `fellowbench_test_${process.pid}_${Date.now().toString(36)}_${Math.floor(Math.random() * 1e9).toString(36)}`

async function asAdmin(sql: string): Promise<void> {
  const url = new URL(template)
  url.pathname = '/postgres'
  const client = new pg.Client({ connectionString: url.href })
  await client.connect()
  try {
    // Two files may copy the template at once; PostgreSQL lets one at a time.
    await client.query('select pg_advisory_lock(417001)')
    await client.query(sql)
  } finally {
    await client.end()
  }
}

await asAdmin(`create database "${name}" template "${templateName}"`)
const own = new URL(template)
own.pathname = `/${name}`
process.env.DATABASE_URL = own.href

afterAll(async () => {
  const { database } = await import('#lib/data/client')
  await database().$disconnect()
  await asAdmin(`drop database if exists "${name}" with (force)`)
})
