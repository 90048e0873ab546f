// npm run bench [name…]: prints figures, never fails on time. A benchmark is tests/bench/NAME.bench.ts and exports
// `name` and `run(print)`.
import fs from 'node:fs'
import path from 'node:path'
import { bundle } from './bundle.mjs'
import { root } from './database.mjs'

const folder = 'tests/bench'
const wanted = process.argv.slice(2)
const entries = fs
  .readdirSync(path.join(root, folder))
  .filter((f) => f.endsWith('.bench.ts') && (wanted.length === 0 || wanted.some((w) => f.startsWith(w))))
  .map((f) => `${folder}/${f}`)
if (entries.length === 0) console.log(`No benchmark of that name in ${folder}.`)
const files = await bundle([...entries, 'lib/engine/solver-thread.ts'], 'bench')
for (const file of files.slice(0, entries.length)) {
  const bench = await import(file)
  console.log(`\n${bench.name}`)
  await bench.run((line) => console.log(`  ${line}`))
}
process.exit(0)
