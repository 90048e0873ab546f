// Bundles the solver thread once a test file, as lib/start/bundle.mjs does for the shop.
import fs from 'node:fs'
import os from 'node:os'
import path from 'node:path'
import { build } from 'esbuild'

const root = path.resolve(import.meta.dirname, '../..')

/** @param source a program of lib/engine, or text of a thread that misbehaves */
export async function threadFile(entry = 'lib/engine/solver-thread.ts'): Promise<string> {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'fellowbench-thread-'))
  const outfile = path.join(dir, 'thread.mjs')
  await build({
    entryPoints: [path.join(root, entry)],
    outfile,
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    logLevel: 'error',
    absWorkingDir: root,
  })
  return outfile
}

export function threadOf(text: string): string {
  const dir = fs.mkdtempSync(path.join(os.tmpdir(), 'fellowbench-thread-'))
  const file = path.join(dir, 'thread.mjs')
  fs.writeFileSync(file, text)
  return file
}
