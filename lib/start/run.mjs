// node lib/start/run.mjs start|dev|clean: database, migrations, demo shop, web server and queue worker, as one.
//   clean   throws the embedded database away and begins an empty shop; its first sign-up becomes its admin
// Environment: PORT, HOST, DATABASE_URL, NEXTAUTH_URL, NEXTAUTH_SECRET, FELLOWBENCH_DATA (name of the data folder
// under .data), FELLOWBENCH_DEMO=0 (no demo shop), FELLOWBENCH_FRESH=1 (throw that data folder away first).
import { spawn } from 'node:child_process'
import { randomBytes } from 'node:crypto'
import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { buildIfChanged } from './build.mjs'
import { buildDir, bundle, QUEUE_PROGRAMS } from './bundle.mjs'
import { freePort, removeDatabase, root, startDatabase } from './database.mjs'
import { applyMigrations } from './migrations.mjs'
import { installQueue } from './queue.mjs'

const mode = ['start', 'dev', 'clean'].includes(process.argv[2]) ? process.argv[2] : 'start'
const name = process.env.FELLOWBENCH_DATA ?? 'postgres'
const emptyMarker = path.join(root, '.data', `${name}.empty`)
const RESTART_AFTER_MS = 1000
const LEAVE_WITH_PARENT = pathToFileURL(path.join(import.meta.dirname, 'leave-with-parent.mjs')).href
// The database driver warns of how Prisma's adapter sends the parts of a nested read; nothing a shop can act on.
const QUIET = mode === 'dev' ? [] : ['--disable-warning=DeprecationWarning']
const LOOPBACK = new Set(['127.0.0.1', 'localhost', '::1'])

function secret() {
  const file = path.join(root, '.data/session-secret')
  if (!fs.existsSync(file)) {
    fs.mkdirSync(path.dirname(file), { recursive: true })
    fs.writeFileSync(file, randomBytes(32).toString('base64'), { mode: 0o600 })
  }
  return fs.readFileSync(file, 'utf8')
}

async function beginEmpty() {
  if (process.env.DATABASE_URL)
    throw new Error(
      'start:clean only throws the embedded demo away; DATABASE_URL points at a server of your own.',
    )
  await removeDatabase(name)
  fs.mkdirSync(path.dirname(emptyMarker), { recursive: true })
  fs.writeFileSync(emptyMarker, '')
}

/** The demo shop, whose passwords are public, goes only into an embedded database that this machine alone reaches. */
async function seedDemo(env, embedded) {
  const isLocal = !process.env.HOST || LOOPBACK.has(process.env.HOST)
  const wanted =
    process.env.FELLOWBENCH_DEMO ?? (embedded && isLocal && !fs.existsSync(emptyMarker) ? '1' : '0')
  if (wanted === '0') return undefined
  Object.assign(process.env, env)
  const demo = await import(path.join(buildDir, 'demo.mjs'))
  return demo.seedDemo()
}

const children = new Set()
let isStopping = false

function keep(script, args, env, restart) {
  const child = spawn(process.execPath, [...QUIET, '--import', LEAVE_WITH_PARENT, script, ...args], {
    cwd: root,
    env,
    stdio: ['inherit', 'inherit', 'inherit', 'ipc'],
  })
  children.add(child)
  child.on('exit', (code) => {
    children.delete(child)
    if (isStopping) return
    if (restart) setTimeout(() => !isStopping && keep(script, args, env, restart), RESTART_AFTER_MS)
    else stop(code ?? 1)
  })
  return child
}

let database
async function stop(code) {
  if (isStopping) return
  isStopping = true
  const gone = [...children].map((c) => new Promise((resolve) => c.once('exit', resolve)))
  for (const child of children) child.kill('SIGTERM')
  const impatient = setTimeout(() => {
    for (const child of children) child.kill('SIGKILL')
  }, 8000)
  await Promise.all(gone)
  clearTimeout(impatient)
  await database?.stop()
  process.exit(code)
}

function greet(url, demo, ms) {
  const lines = ['', `  Fellowbench is open at ${url}   (${ms} ms)`, '']
  if (demo) {
    lines.push(`  Demo shop: ${demo.shop}. Sign in as`)
    for (const m of demo.members) lines.push(`    ${m.email.padEnd(28)} ${m.password}   ${m.what}`)
    lines.push('', '  npm run start:clean throws the demo away and begins an empty shop.', '')
  } else lines.push('  The first to sign up in an empty shop becomes its admin.', '')
  console.log(lines.join('\n'))
}

async function answers(url) {
  for (let i = 0; i < 600; i++) {
    try {
      const response = await fetch(`${url}/api/health`)
      if (response.ok) return
    } catch {}
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
}

async function main() {
  const t0 = performance.now()
  if (mode === 'clean') await beginEmpty()
  else if (process.env.FELLOWBENCH_FRESH === '1' && !process.env.DATABASE_URL) await removeDatabase(name)
  database = await startDatabase({ name })
  const port = process.env.PORT ?? String(await freePort(3000))
  const host = process.env.HOST ?? '127.0.0.1'
  const url = process.env.NEXTAUTH_URL ?? `http://${host === '127.0.0.1' ? 'localhost' : host}:${port}`
  const env = {
    ...process.env,
    DATABASE_URL: database.url,
    NEXT_TELEMETRY_DISABLED: '1',
    NEXTAUTH_URL: url,
    NEXTAUTH_SECRET: process.env.NEXTAUTH_SECRET ?? secret(),
  }
  if (mode === 'dev') await bundle([...QUEUE_PROGRAMS, 'prisma/demo.ts'])
  else await buildIfChanged()
  await applyMigrations(database.url)
  await installQueue(database.url)
  const demo = await seedDemo(env, database.embedded)
  const next = createRequire(import.meta.url).resolve('next/dist/bin/next')
  keep(next, [mode === 'dev' ? 'dev' : 'start', '-p', port, '-H', host], env, false)
  keep(path.join(buildDir, 'queue-worker.mjs'), [], env, true)
  await answers(`http://127.0.0.1:${port}`)
  greet(url, demo, Math.round(performance.now() - t0))
}

for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP']) process.on(signal, () => stop(0))
try {
  await main()
} catch (e) {
  console.error(e.message)
  await stop(1)
}
