import path from 'node:path'
import { defineConfig } from 'vitest/config'

const root = import.meta.dirname
// `server-only` throws outside a React server build; tests are servers too.
const alias = { 'server-only': path.join(root, 'tests/server-only-stub.ts') }

export default defineConfig({
  test: {
    projects: [
      {
        resolve: { alias },
        test: {
          name: 'unit',
          include: ['tests/**/*.test.ts'],
          exclude: ['tests/data/**', 'tests/bench/**'],
          pool: 'threads',
          testTimeout: 30_000,
        },
      },
      {
        resolve: { alias },
        test: {
          name: 'data',
          include: ['tests/data/**/*.test.ts'],
          globalSetup: ['tests/data/global-setup.ts'],
          setupFiles: ['tests/data/setup.ts'],
          pool: 'forks',
          maxWorkers: 2,
          testTimeout: 60_000,
          hookTimeout: 60_000,
        },
      },
    ],
  },
})
