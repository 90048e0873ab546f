// Bundles programs of lib/engine as lib/start/bundle.mjs does for the shop, into a folder of the test's own below build/
// (packages are found from there).
import fs from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'
import { afterAll } from 'vitest'

const root = path.resolve(import.meta.dirname, '../..')

const folders: string[] = []
afterAll(() => {
  for (const made of folders) fs.rmSync(made, { recursive: true, force: true })
})

function folder(): string {
  fs.mkdirSync(path.join(root, 'build'), { recursive: true })
  const made = fs.mkdtempSync(path.join(root, 'build/test-'))
  folders.push(made)
  return made
}

export async function threadFile(entry = 'lib/engine/solver-thread.ts'): Promise<string> {
  const dir = folder()
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

/** A thread that misbehaves, from its text. */
export function threadOf(text: string): string {
  const file = path.join(folder(), 'thread.mjs')
  fs.writeFileSync(file, text)
  return file
}
