// The programs that run beside Next, from TypeScript to plain Node: build/*.mjs.
import fs from 'node:fs'
import path from 'node:path'
import { build } from 'esbuild'

const root = path.resolve(import.meta.dirname, '../..')
export const buildDir = path.join(root, 'build')

/** `server-only` guards pages; a plain Node process is a server already. */
const serverOnly = {
  name: 'server-only',
  setup(b) {
    b.onResolve({ filter: /^server-only$/ }, () => ({ path: 'server-only', namespace: 'empty' }))
    b.onLoad({ filter: /.*/, namespace: 'empty' }, () => ({ contents: '' }))
  },
}

/**
 * @param {readonly string[]} entries TypeScript files from the project's root
 * @param {string} [folder] below build/
 * @returns {Promise<string[]>} the bundled files
 */
export async function bundle(entries, folder = '') {
  const outdir = path.join(buildDir, folder)
  fs.mkdirSync(outdir, { recursive: true })
  await build({
    entryPoints: entries.map((e) => path.join(root, e)),
    outdir,
    outbase: undefined,
    entryNames: '[name]',
    outExtension: { '.js': '.mjs' },
    bundle: true,
    platform: 'node',
    target: 'node20',
    format: 'esm',
    packages: 'external',
    sourcemap: 'inline',
    plugins: [serverOnly],
    logLevel: 'warning',
    absWorkingDir: root,
  })
  return entries.map((e) => path.join(outdir, `${path.basename(e).replace(/\.ts$/, '')}.mjs`))
}

export const QUEUE_PROGRAMS = [
  'lib/engine/queue-worker.ts',
  'lib/engine/solver-thread.ts',
  'lib/documents/document-thread.ts',
]
