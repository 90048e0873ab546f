// Builds the pages (next build) and the programs beside them, only when a source has changed. With FELLOWBENCH_BUILD=0
// what is built is taken as it is: a second server must not rebuild under the first one.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'
import { bundle, QUEUE_PROGRAMS } from './bundle.mjs'

const root = path.resolve(import.meta.dirname, '../..')
const stamp = path.join(root, process.env.FELLOWBENCH_DIST ?? '.next', 'fellowbench-sources')
const SOURCES = [
  'app',
  'lib',
  'prisma',
  'package-lock.json',
  'next.config.ts',
  'postcss.config.mjs',
  'proxy.ts',
]
/** Written by the build itself, where it lacks something. */
const WRITTEN = ['tsconfig.json']

/** Name, size and time of every source: cheap, and enough to see an edit. */
function fingerprint(sources) {
  const hash = createHash('sha256')
  const visit = (file) => {
    const stat = fs.statSync(file, { throwIfNoEntry: false })
    if (!stat) return
    if (stat.isDirectory()) for (const name of fs.readdirSync(file).sort()) visit(path.join(file, name))
    else hash.update(`${path.relative(root, file)} ${stat.size} ${stat.mtimeMs}\n`)
  }
  for (const source of sources) visit(path.join(root, source))
  return hash.digest('hex')
}

/** @throws Error when the build fails */
export async function buildIfChanged() {
  const built = fs.existsSync(stamp) ? fs.readFileSync(stamp, 'utf8') : undefined
  if (built && process.env.FELLOWBENCH_BUILD === '0') return
  await bundle([...QUEUE_PROGRAMS, 'prisma/demo.ts'])
  const sources = fingerprint(SOURCES)
  if (built === sources + fingerprint(WRITTEN)) return
  console.log('Building the pages (the first time takes about half a minute)…')
  const next = createRequire(import.meta.url).resolve('next/dist/bin/next')
  const env = { ...process.env, NEXT_TELEMETRY_DISABLED: '1', NODE_ENV: 'production' }
  const done = spawnSync(process.execPath, [next, 'build'], { cwd: root, env, encoding: 'utf8' })
  if (done.status !== 0) throw new Error(`next build failed:\n${done.stdout}\n${done.stderr}`)
  fs.writeFileSync(stamp, sources + fingerprint(WRITTEN))
}

if (process.argv[1] === import.meta.filename) {
  try {
    await buildIfChanged()
  } catch (e) {
    console.error(e.message)
    process.exit(1)
  }
}
