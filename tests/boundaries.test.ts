/** Every guard of lib/start/boundaries.mjs, and the core's own compiler settings, shown to reject a bad file. */
import { execFileSync, spawnSync } from 'node:child_process'
import fs from 'node:fs'
import { createRequire } from 'node:module'
import os from 'node:os'
import path from 'node:path'
import ts from 'typescript'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'

const home = path.resolve(import.meta.dirname, '..')
const command = path.join(home, 'lib/start/boundaries.mjs')
const { forbidden } = createRequire(import.meta.url)(path.join(home, '.dependency-cruiser.cjs')) as {
  forbidden: readonly { name: string }[]
}

/** A small project of good files: one in every room, each importing what it may. */
const GOOD: Readonly<Record<string, string>> = {
  'lib/core/units/length.ts': 'export const mm = 1',
  'lib/core/geometry/plane.ts': "import { mm } from '../units/length'\nexport const plane = mm",
  'lib/core/board/board.ts': "import { plane } from '#lib/core/geometry/plane'\nexport const board = plane",
  'lib/core/cutting/plan.ts': "import { board } from '#lib/core/board/board'\nexport const plan = board",
  'lib/core/statics/frame.ts': 'export const frame = 1',
  'lib/core/setups/setups.ts': "import { plan } from '#lib/core/cutting/plan'\nexport const setups = plan",
  'lib/core/schedule/tasks.ts': "import { mm } from '#lib/core/units/length'\nexport const tasks = mm",
  'lib/shop/holds.ts': "import { board } from '#lib/core/board/board'\nexport const holds = board",
  'lib/format/inches.ts': "import { mm } from '#lib/core/units/length'\nexport const inches = mm",
  'lib/data/boards.ts': "import 'server-only'\nimport { Pool } from 'pg'\nexport const boards = Pool",
  'lib/data/generated/client.ts': 'export const client = 1',
  'lib/auth/session.ts': "import 'server-only'\nexport const session = 1",
  'lib/documents/packet.ts': 'export const packet = 1',
  'lib/engine/pool.ts': "import { plan } from '#lib/core/cutting/plan'\nexport const pool = plan",
  'app/page.tsx': "import { boards } from '#lib/data/boards'\nexport default boards",
  'proxy.ts': "import { session } from '#lib/auth/session'\nexport const proxy = session",
  'node_modules/pg/index.js': 'exports.Pool = 1',
  'node_modules/pg/package.json': '{ "name": "pg", "version": "1.0.0", "main": "index.js" }',
}

/** The rule, a file that breaks it, and the line on which it does. */
const BAD: readonly (readonly [rule: string, file: string, text: string, line: number])[] = [
  ['core-imports-only-core', 'lib/core/board/a.ts', "import { Pool } from 'pg'\nexport const a = Pool", 1],
  ['core-imports-only-core', 'lib/core/board/b.ts', "import fs from 'node:fs'\nexport const b = fs", 1],
  [
    'core-imports-only-core',
    'lib/core/board/c.ts',
    "\n\nimport { holds } from '#lib/shop/holds'\nexport const c = holds",
    3,
  ],
  [
    'units-need-nothing',
    'lib/core/units/a.ts',
    "import { plane } from '../geometry/plane'\nexport const a = plane",
    1,
  ],
  [
    'geometry-needs-units',
    'lib/core/geometry/a.ts',
    "import { board } from '#lib/core/board/board'\nexport const a = board",
    1,
  ],
  [
    'middle-of-core-looks-down',
    'lib/core/wood/a.ts',
    "import type { plan } from '#lib/core/cutting/plan'\nexport type A = typeof plan",
    1,
  ],
  [
    'top-of-core-stays-apart',
    'lib/core/cutting/a.ts',
    "import { frame } from '#lib/core/statics/frame'\nexport const a = frame",
    1,
  ],
  [
    'setups-reads-cutting',
    'lib/core/setups/a.ts',
    "import { frame } from '#lib/core/statics/frame'\nexport const a = frame",
    1,
  ],
  [
    'schedule-needs-units',
    'lib/core/schedule/a.ts',
    "import { board } from '#lib/core/board/board'\nexport const a = board",
    1,
  ],
  [
    'shop-needs-core',
    'lib/shop/a.ts',
    "import { boards } from '#lib/data/boards'\nexport const a = boards",
    1,
  ],
  [
    'format-needs-core',
    'lib/format/a.ts',
    "import { holds } from '#lib/shop/holds'\nexport const a = holds",
    1,
  ],
  [
    'data-looks-down',
    'lib/data/a.ts',
    "import 'server-only'\nimport page from '../../app/page'\nexport const a = page",
    2,
  ],
  [
    'engine-knows-no-page-and-no-auth',
    'lib/engine/a.ts',
    "import { session } from '#lib/auth/session'\nexport const a = session",
    1,
  ],
  ['lib-never-imports-app', 'lib/start/a.ts', "import page from '../../app/page'\nexport const a = page", 1],
  ['app-never-touches-the-database', 'app/a.tsx', "import { Pool } from 'pg'\nexport const a = Pool", 1],
  [
    'app-never-touches-the-database',
    'app/b.tsx',
    "import { client } from '#lib/data/generated/client'\nexport const b = client",
    1,
  ],
  ['no-cycles', 'lib/shop/ring-a.ts', "import { b } from './ring-b'\nexport const a = () => b", 1],
]
const OTHER_HALF = { 'lib/shop/ring-b.ts': "import { a } from './ring-a'\nexport const b = () => a" }

let root: string

function write(folder: string, files: Readonly<Record<string, string>>): void {
  for (const [file, text] of Object.entries(files)) {
    fs.mkdirSync(path.dirname(path.join(folder, file)), { recursive: true })
    fs.writeFileSync(path.join(folder, file), text)
  }
}

function newProject(name: string): string {
  const folder = path.join(root, name)
  const { imports } = JSON.parse(fs.readFileSync(path.join(home, 'package.json'), 'utf8'))
  write(folder, { ...GOOD, 'package.json': JSON.stringify({ name, type: 'module', imports }) })
  fs.copyFileSync(path.join(home, 'tsconfig.json'), path.join(folder, 'tsconfig.json'))
  return folder
}

type Fault = { file: string; line: number; message: string }
type Boundaries = {
  boundaryFaults: (root: string) => Promise<readonly Fault[]>
  impureCalls: (file: string, text: string) => readonly Fault[]
  serverOnlyFaults: (file: string, text: string) => readonly Fault[]
}
let boundaries: Boundaries

beforeAll(async () => {
  root = fs.mkdtempSync(path.join(os.tmpdir(), 'boundaries-'))
  boundaries = (await import(command)) as Boundaries
})
afterAll(() => fs.rmSync(root, { recursive: true, force: true }))

test('a good project has no fault', async () => {
  expect(await boundaries.boundaryFaults(newProject('good'))).toEqual([])
})

describe('imports', () => {
  let faults: readonly Fault[]
  beforeAll(async () => {
    const folder = newProject('bad')
    write(folder, { ...Object.fromEntries(BAD.map(([, file, text]) => [file, text])), ...OTHER_HALF })
    faults = await boundaries.boundaryFaults(folder)
  })

  test.each(BAD)('%s rejects %s', (rule, file, _text, line) => {
    expect(faults).toContainEqual({ file, line, message: expect.stringMatching(new RegExp(`^${rule}:`)) })
  })

  test('good files beside the bad ones stay good', () => {
    expect(faults.filter((fault) => fault.file in GOOD)).toEqual([])
  })

  test('no rule goes without a bad file', () => {
    expect(new Set(BAD.map(([rule]) => rule))).toEqual(new Set(forbidden.map((rule) => rule.name)))
  })
})

describe('chance and the clock in the core', () => {
  test.each([
    ['const x = Math.random()', 1],
    ['const f = Math.random', 1],
    ['\nconst t = Date.now()', 2],
    ['const d = new Date()', 1],
    ['const d = new Date(0)', 1],
    ['const s = Date()', 1],
    ['const t = performance.now()', 1],
  ])('%j is rejected', (text, line) => {
    expect(boundaries.impureCalls('lib/core/a.ts', text)).toEqual([
      { file: 'lib/core/a.ts', line, message: expect.any(String) },
    ])
  })

  test('words in comments and strings, other dates and a seeded rng are not', () => {
    const text =
      "// Math.random() and new Date()\nconst s = 'Date.now()'\nrng.random(); x.Date.now; type D = Date"
    expect(boundaries.impureCalls('lib/core/a.ts', text)).toEqual([])
  })
})

describe('server-only', () => {
  test.each([
    ["import { x } from './x'\nimport 'server-only'", 1],
    ['export const x = 1', 1],
    ["// a comment\nimport pg from 'pg'", 2],
  ])('%j is rejected', (text, line) => {
    expect(boundaries.serverOnlyFaults('lib/data/x.ts', text)).toEqual([
      { file: 'lib/data/x.ts', line, message: expect.stringContaining('server-only') },
    ])
  })

  test('a file that begins with it is good', () => {
    expect(
      boundaries.serverOnlyFaults('lib/data/x.ts', "/** x */\nimport 'server-only'\nimport pg from 'pg'"),
    ).toEqual([])
  })

  test('every file of the data and auth rooms is looked at, those that are generated are not', async () => {
    const folder = newProject('rooms')
    write(folder, { 'lib/data/deep/x.ts': 'export const x = 1', 'lib/auth/y.ts': 'export const y = 1' })
    const faults = await boundaries.boundaryFaults(folder)
    expect(faults.map((fault) => fault.file).toSorted()).toEqual(['lib/auth/y.ts', 'lib/data/deep/x.ts'])
  })
})

describe('the command', () => {
  test('tells each fault as file:line and ends with code 1', () => {
    const folder = newProject('command')
    write(folder, { 'lib/core/units/a.ts': 'export const now = Date.now()' })
    // The command checks the project that it stands in, so it stands in this one.
    write(folder, { 'lib/start/boundaries.mjs': fs.readFileSync(command, 'utf8') })
    fs.copyFileSync(path.join(home, '.dependency-cruiser.cjs'), path.join(folder, '.dependency-cruiser.cjs'))
    for (const name of ['dependency-cruiser', 'typescript']) {
      fs.symlinkSync(path.join(home, 'node_modules', name), path.join(folder, 'node_modules', name))
    }
    const run = spawnSync(process.execPath, ['lib/start/boundaries.mjs'], { cwd: folder, encoding: 'utf8' })
    expect(run.status).toBe(1)
    expect(run.stderr).toMatch(/^lib\/core\/units\/a\.ts:1: Date\.now/m)
    fs.rmSync(path.join(folder, 'lib/core/units/a.ts'))
    expect(
      execFileSync(process.execPath, ['lib/start/boundaries.mjs'], { cwd: folder, encoding: 'utf8' }),
    ).toMatch(/boundaries/)
  })
})

describe("the core's compiler settings", () => {
  const config = path.join(home, 'lib/core/tsconfig.json')
  const parsed = ts.getParsedCommandLineOfConfigFile(
    config,
    {},
    { ...ts.sys, onUnRecoverableConfigFileDiagnostic: () => {} },
  )!

  /** Messages of the compiler for one file that stands in the core, but only in memory. */
  function complaints(text: string): readonly string[] {
    const file = path.join(home, 'lib/core/units/in-memory.ts')
    const host = ts.createCompilerHost({ ...parsed.options, incremental: false, tsBuildInfoFile: undefined })
    const { getSourceFile, fileExists } = host
    host.getSourceFile = (name, ...rest) =>
      name === file
        ? ts.createSourceFile(name, text, ts.ScriptTarget.ES2023, true)
        : getSourceFile.call(host, name, ...rest)
    host.fileExists = (name) => name === file || fileExists.call(host, name)
    const options = { ...parsed.options, incremental: false, tsBuildInfoFile: undefined, noEmit: true }
    const program = ts.createProgram([file], options, host)
    return ts.getPreEmitDiagnostics(program).map((d) => ts.flattenDiagnosticMessageText(d.messageText, ' '))
  }

  test.each([
    'window',
    'document',
    'process',
    'fetch',
    'setTimeout',
    'console',
    'performance',
    'crypto',
    'Buffer',
    'require',
  ])('%s does not compile', (name) => {
    expect(complaints(`export const x = ${name}`).join(' ')).toMatch(/Cannot find name/)
  })

  test('a module of Node does not compile', () => {
    expect(complaints("import fs from 'node:fs'\nexport const x = fs").join(' ')).toMatch(/node:fs/)
  })

  test('plain ES2023 does', () => {
    expect(complaints('export const x: readonly number[] = [3, 1].toSorted((a, b) => a - b)')).toEqual([])
  })
})
