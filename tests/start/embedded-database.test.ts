// The embedded PostgreSQL after a fright: its process killed, its starter killed, its process id given to another.
import { spawn } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import pg from 'pg'
import { afterAll, beforeAll, expect, test } from 'vitest'
import { databaseProcess, removeDatabase, root, startDatabase } from '../../lib/start/database.mjs'

const name = `postgres-unit-${process.pid}`
const start = () => startDatabase({ name, port: 54_360 })
const isThere = (pid: number) => databaseProcess(name)?.pid === pid

const hadUrl = process.env.DATABASE_URL
beforeAll(() => {
  delete process.env.DATABASE_URL // these are about the server of our own
})
afterAll(async () => {
  await removeDatabase(name)
  if (hadUrl !== undefined) process.env.DATABASE_URL = hadUrl
})

async function ask(url: string, sql: string) {
  const client = new pg.Client({ connectionString: url })
  client.on('error', () => {})
  await client.connect()
  const { rows } = await client.query(sql)
  await client.end()
  return rows
}

test('killed while someone is connected, it starts again at once with what was committed', async () => {
  const first = await start()
  const { pid } = databaseProcess(name)!
  await ask(first.url, 'create table kept (n int); insert into kept values (41)')
  const busy = new pg.Client({ connectionString: first.url })
  busy.on('error', () => {})
  await busy.connect()
  const working = busy.query('insert into kept values (42); select pg_sleep(60)').catch(() => {})
  process.kill(pid, 'SIGKILL')
  const second = await start()
  expect(databaseProcess(name)!.pid).not.toBe(pid)
  await working
  expect(await ask(second.url, 'select n from kept')).toEqual([{ n: 41 }])
  await second.stop()
  expect(databaseProcess(name)).toBeUndefined()
})

test('left by a starter that was killed, it is adopted, and stopped by who adopted it', async () => {
  await start()
  const { pid } = databaseProcess(name)!
  const gone = spawn(process.execPath, ['-e', '0'])
  await new Promise((resolve) => gone.once('exit', resolve))
  fs.writeFileSync(path.join(root, '.data', `${name}.owner`), String(gone.pid))
  const adopted = await start()
  expect(isThere(pid)).toBe(true)
  await adopted.stop()
  expect(databaseProcess(name)).toBeUndefined()
})

test('what another starter still runs is used and left running', async () => {
  const mine = await start()
  const other = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)'])
  fs.writeFileSync(path.join(root, '.data', `${name}.owner`), String(other.pid))
  const { pid } = databaseProcess(name)!
  const guest = await start()
  await guest.stop()
  expect(isThere(pid)).toBe(true)
  other.kill()
  await mine.stop()
  expect(databaseProcess(name)).toBeUndefined()
})

test('a lock file whose process id now belongs to another program does not keep it from starting', async () => {
  const first = await start()
  const [{ data_directory }] = await ask(first.url, 'show data_directory')
  const lock = path.join(data_directory, 'postmaster.pid')
  const text = fs.readFileSync(lock, 'utf8')
  await first.stop()
  // As after a power cut: the file is there, and the number is somebody else's by now.
  const other = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)'])
  fs.writeFileSync(lock, text.replace(/^\d+/, String(other.pid)))
  const { uid, gid } = fs.statSync(path.dirname(lock))
  if (process.getuid?.() === 0) fs.chownSync(lock, uid, gid)
  expect(databaseProcess(name)).toBeUndefined()
  const second = await start()
  expect(await ask(second.url, 'select n from kept')).toEqual([{ n: 41 }])
  await second.stop()
  other.kill()
})
