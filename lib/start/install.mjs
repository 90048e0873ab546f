// Runs before start and test: installs what package-lock.json names when it is missing or has changed.
// Needs nothing that an install would bring.
import { spawnSync } from 'node:child_process'
import { createHash } from 'node:crypto'
import fs from 'node:fs'
import path from 'node:path'

const root = path.resolve(import.meta.dirname, '../..')
const stamp = path.join(root, 'node_modules/.fellowbench-lock')
const hash = createHash('sha256')
  .update(fs.readFileSync(path.join(root, 'package-lock.json')))
  .digest('hex')
const isCurrent = fs.existsSync(stamp) && fs.readFileSync(stamp, 'utf8') === hash

const [major, minor] = process.versions.node.split('.').map(Number)
if (major < 20 || (major === 20 && minor < 19)) {
  console.error(`Fellowbench needs Node 20.19 or later; this is ${process.versions.node}.`)
  process.exit(1)
}
if (!isCurrent) {
  console.log('Installing dependencies…')
  const npm = process.env.npm_execpath
  const [command, first] = npm ? [process.execPath, [npm]] : ['npm', []]
  const options = ['ci', '--no-audit', '--no-fund', '--loglevel=error']
  const installed = spawnSync(command, [...first, ...options], { cwd: root, stdio: 'inherit' })
  if (installed.status !== 0) process.exit(installed.status ?? 1)
  fs.writeFileSync(stamp, hash)
}
