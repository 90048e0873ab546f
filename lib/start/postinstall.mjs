// After npm install: the database client is generated and the solvers' WebAssembly is put where pages load it.
import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import { createRequire } from 'node:module'
import path from 'node:path'

const root = path.resolve(import.meta.dirname, '../..')
const require = createRequire(import.meta.url)

const out = path.join(root, 'public/wasm')
fs.mkdirSync(out, { recursive: true })
for (const [from, to] of [
  ['highs/runtime', 'highs.wasm'],
  ['manifold-3d/manifold.wasm', 'manifold.wasm'],
  ['manifold-3d/manifold.js', 'manifold.js'],
])
  fs.copyFileSync(require.resolve(from), path.join(out, to))

const generated = spawnSync(process.execPath, [path.join(import.meta.dirname, 'prisma.mjs'), 'generate'], {
  cwd: root,
  stdio: process.env.npm_config_loglevel === 'silent' ? 'ignore' : ['ignore', 'ignore', 'inherit'],
})
process.exit(generated.status ?? 1)
