// Which Chromium the end-to-end tests drive: CHROMIUM_PATH, the system's, Playwright's own, or the one inside the
// npm package @sparticuz/chromium (Linux x64).
import { existsSync } from 'node:fs'
import { chromium } from '@playwright/test'

const SYSTEM = ['/usr/bin/chromium', '/usr/bin/chromium-browser', '/usr/bin/google-chrome']

/** @returns {Promise<string | undefined>} undefined: Playwright finds its own */
export async function browserPath() {
  const system = [process.env.CHROMIUM_PATH, ...SYSTEM].find((p) => p && existsSync(p))
  if (system) return system
  if (existsSync(chromium.executablePath())) return undefined
  if (process.platform !== 'linux' || process.arch !== 'x64') return undefined
  process.env.AWS_LAMBDA_JS_RUNTIME ??= 'nodejs20.x' // makes it unpack its own shared libraries
  const { default: bundled } = await import('@sparticuz/chromium')
  return bundled.executablePath()
}

// Without the background flags, Chromium asks the network for things that a closed one refuses, many at a time.
export const BROWSER_FLAGS = [
  '--no-sandbox',
  '--disable-quic',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
  '--use-gl=angle',
  '--use-angle=swiftshader',
  '--enable-unsafe-swiftshader',
  '--ignore-gpu-blocklist',
]
