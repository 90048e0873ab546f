import { defineConfig } from '@playwright/test'
import { BROWSER_FLAGS, browserPath } from './lib/start/browser.mjs'

const port = Number(process.env.E2E_PORT ?? 3200)
/** Runs on ports of their own have data of their own (and FELLOWBENCH_DIST, passed on, a build of their own). */
const data = process.env.E2E_PORT ? `postgres-e2e-${port}` : 'postgres-e2e'
const baseURL = `http://127.0.0.1:${port}`

export default defineConfig({
  testDir: 'e2e',
  workers: 1,
  fullyParallel: false,
  retries: process.env.CI ? 1 : 0,
  timeout: 90_000,
  expect: { timeout: 25_000 },
  reporter: [['list'], ['json', { outputFile: 'test-results/e2e.json' }]],
  use: {
    baseURL,
    actionTimeout: 30_000,
    trace: 'on-first-retry',
    screenshot: 'only-on-failure',
    launchOptions: { executablePath: await browserPath(), args: BROWSER_FLAGS },
  },
  projects: [
    { name: 'desktop', use: { viewport: { width: 1280, height: 900 } } },
    {
      name: 'phone',
      grep: /@phone/,
      use: { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true },
    },
  ],
  webServer: {
    command: 'node lib/start/run.mjs start',
    url: `${baseURL}/api/health`,
    env: {
      PORT: String(port),
      NEXTAUTH_URL: baseURL,
      FELLOWBENCH_DATA: data,
      FELLOWBENCH_FRESH: '1',
    },
    timeout: 240_000,
    reuseExistingServer: false,
    gracefulShutdown: { signal: 'SIGTERM', timeout: 15_000 },
    stdout: 'pipe',
  },
})
