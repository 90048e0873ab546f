// npm run boundaries: who may import whom (.dependency-cruiser.cjs), a core without chance and clock, and a data layer
// that no page of the browser can reach. Each fault is told as file:line; any fault ends with code 1.
// The checks are functions, so that tests/boundaries.test.ts can show that each of them rejects a bad file.
import fs from 'node:fs'
import path from 'node:path'
import { pathToFileURL } from 'node:url'
import { cruise } from 'dependency-cruiser'
import extractConfig from 'dependency-cruiser/config-utl/extract-depcruise-config'
import extractTsConfig from 'dependency-cruiser/config-utl/extract-ts-config'
import ts from 'typescript'

const home = path.resolve(import.meta.dirname, '../..')
const ENTRIES = ['lib', 'app', 'proxy.ts']
/** Rooms whose files must never reach a browser, and what is made by a generator in them. */
const SERVER_ROOMS = ['lib/data', 'lib/auth']
const GENERATED = 'lib/data/generated'

/** @typedef {{ file: string, line: number, message: string }} Fault */

/** @returns {Fault['line']} where `file` imports what was resolved to `name`; 1 if it cannot be told */
function importLine(file, name) {
  const lines = fs.readFileSync(file, 'utf8').split('\n')
  const at = lines.findIndex((line) => /\b(from|import|export)\b/.test(line) && line.includes(name))
  return at < 0 ? 1 : at + 1
}

/**
 * Imports that the rules forbid.
 * @param {string} root folder with lib, app, package.json and tsconfig.json
 * @returns {Promise<Fault[]>}
 */
export async function importFaults(root, entries = ENTRIES) {
  const config = await extractConfig(path.join(home, '.dependency-cruiser.cjs'))
  const { forbidden, options } = config
  const present = entries.filter((entry) => fs.existsSync(path.join(root, entry)))
  const result = await cruise(
    present,
    { ...options, ruleSet: { forbidden }, validate: true, baseDir: root },
    undefined,
    { tsConfig: extractTsConfig(path.join(root, 'tsconfig.json')) },
  )
  const { modules, summary } = result.output
  const named = (from, to) => {
    const found = modules.find((m) => m.source === from)?.dependencies.find((d) => d.resolved === to)
    return found?.module ?? to
  }
  return summary.violations.map(({ from, to, rule }) => ({
    file: from,
    line: importLine(path.join(root, from), named(from, to)),
    message: `${rule.name}: may not import ${to}`,
  }))
}

const isNamed = (node, object, name) =>
  ts.isPropertyAccessExpression(node) && node.expression.getText() === object && node.name.text === name

/** What a piece of core code asks of chance or of the clock, or undefined. */
function impurity(node) {
  if (isNamed(node, 'Math', 'random')) return 'Math.random: take a seeded rng as an argument'
  if (isNamed(node, 'Date', 'now')) return 'Date.now: take the time as an argument'
  if (isNamed(node, 'performance', 'now')) return 'performance.now: take a budget as an argument'
  const isDate =
    (ts.isNewExpression(node) || ts.isCallExpression(node)) && node.expression.getText() === 'Date'
  return isDate ? 'Date: take the day or the instant as an argument' : undefined
}

/**
 * Uses of chance and of the clock in one file of the core.
 * @returns {Fault[]}
 */
export function impureCalls(file, text) {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, true)
  const faults = []
  const visit = (node) => {
    const message = impurity(node)
    if (message) {
      faults.push({ file, line: source.getLineAndCharacterOfPosition(node.getStart()).line + 1, message })
    }
    ts.forEachChild(node, visit)
  }
  visit(source)
  return faults
}

/**
 * One fault unless the first import of a server-side file is `server-only`.
 * @returns {Fault[]}
 */
export function serverOnlyFaults(file, text) {
  const source = ts.createSourceFile(file, text, ts.ScriptTarget.ES2023, true)
  const first = source.statements.find(ts.isImportDeclaration)
  if (first && ts.isStringLiteral(first.moduleSpecifier) && first.moduleSpecifier.text === 'server-only')
    return []
  const at = first?.getStart() ?? 0
  const line = source.getLineAndCharacterOfPosition(at).line + 1
  return [{ file, line, message: "the first import must be 'server-only'" }]
}

/** Files of a room below `root`, as paths from it. */
function filesOf(root, room) {
  const folder = path.join(root, room)
  if (!fs.existsSync(folder)) return []
  return fs
    .readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.tsx?$/.test(entry.name) && !entry.name.endsWith('.d.ts'))
    .map((entry) => path.relative(root, path.join(entry.parentPath ?? entry.path, entry.name)))
    .filter((file) => !file.startsWith(GENERATED))
}

const read = (root, file) => fs.readFileSync(path.join(root, file), 'utf8')

/**
 * All faults of a project.
 * @returns {Promise<Fault[]>}
 */
export async function boundaryFaults(root = home) {
  return [
    ...(await importFaults(root)),
    ...filesOf(root, 'lib/core').flatMap((file) => impureCalls(file, read(root, file))),
    ...SERVER_ROOMS.flatMap((room) => filesOf(root, room)).flatMap((file) =>
      serverOnlyFaults(file, read(root, file)),
    ),
  ]
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const faults = await boundaryFaults()
  for (const { file, line, message } of faults) console.error(`${file}:${line}: ${message}`)
  if (faults.length > 0) process.exit(1)
  console.log('boundaries: every import, the core and the data layer are as they should be')
}
