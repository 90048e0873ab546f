// npm test: the whole gate, one step after the other: types, lint, boundaries, unit, data, end-to-end.
// Every step runs even if an earlier one failed; the last line counts all tests.
import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'

const root = path.resolve(import.meta.dirname, '../..')
const bin = (name) => path.join(root, 'node_modules/.bin', name)
const results = path.join(root, 'test-results')
fs.mkdirSync(results, { recursive: true })

const vitest = (project) => [
  bin('vitest'),
  [
    'run',
    '--project',
    project,
    '--reporter=default',
    '--reporter=json',
    `--outputFile.json=${results}/${project}.json`,
  ],
]
const STEPS = [
  ['types', bin('tsc'), ['--noEmit']],
  ['types of the core', bin('tsc'), ['--noEmit', '-p', 'lib/core/tsconfig.json']],
  ['lint', bin('biome'), ['check']],
  ['boundaries', process.execPath, ['lib/start/boundaries.mjs']],
  ['unit', ...vitest('unit')],
  ['data', ...vitest('data')],
  ['e2e', bin('playwright'), ['test']],
]

/** Passed and failed of a report, or one for the step as a whole. */
function counts(step, isGood) {
  const file = path.join(results, `${step}.json`)
  try {
    const report = JSON.parse(fs.readFileSync(file, 'utf8'))
    if (report.stats) return [report.stats.expected + report.stats.flaky, report.stats.unexpected]
    return [report.numPassedTests, report.numFailedTests + (isGood || report.numFailedTests ? 0 : 1)]
  } catch {
    return isGood ? [1, 0] : [0, 1]
  }
}

for (const step of ['unit', 'data', 'e2e']) fs.rmSync(path.join(results, `${step}.json`), { force: true })
spawnSync(process.execPath, [path.join(root, 'node_modules/next/dist/bin/next'), 'typegen'], {
  cwd: root,
  stdio: 'ignore',
})
let passed = 0
let failed = 0
const summary = []
for (const [step, command, args] of STEPS) {
  console.log(`\n── ${step}`)
  const t0 = performance.now()
  const done = spawnSync(command, args, {
    cwd: root,
    stdio: 'inherit',
    env: { ...process.env, FORCE_COLOR: '0' },
  })
  const isGood = done.status === 0
  const [p, f] = counts(step, isGood)
  passed += p
  failed += isGood ? f : Math.max(f, 1)
  summary.push(
    `${isGood ? 'ok    ' : 'FAILED'} ${step.padEnd(20)} ${Math.round((performance.now() - t0) / 1000)} s`,
  )
}
console.log(`\n${summary.join('\n')}\n\n${passed} passed, ${failed} failed`)
process.exit(failed === 0 ? 0 : 1)
