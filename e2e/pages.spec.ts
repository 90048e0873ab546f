import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { emailOf, signIn } from './support/people'
import { askAnew } from './support/work'

/** Addresses that need nothing to be there. */
const OPEN = ['/sign-in']
const INSIDE = [
  '/',
  '/builds',
  '/builds/new',
  '/designs',
  '/pool',
  '/pool?minLength=99999',
  '/hardware',
  '/teardowns',
  '/teardowns/new',
  '/stations',
  '/stations/new',
  '/bookings',
  '/account',
  '/members',
  '/shop',
]
/** A page of a list, found by following the first link that looks so. */
const FOLLOW = [
  {
    from: '/builds',
    link: /^\/builds\/[0-9a-f-]{36}$/,
    paths: [
      '',
      '/design',
      '/variants',
      '/strength',
      '/cutting',
      '/cutting/compare',
      '/cutting/together',
      '/setups',
      '/finish',
      '/drawings',
      '/drawings?sheet=part-1&scale=1',
    ],
  },
  { from: '/pool', link: /^\/boards\/[0-9a-f-]{36}$/, paths: [''] },
  { from: '/teardowns', link: /^\/teardowns\/[0-9a-f-]{36}$/, paths: [''] },
  { from: '/stations', link: /^\/stations\/[0-9a-f-]{36}$/, paths: ['', '/edit'] },
] as const

async function firstLink(page: Page, from: string, wanted: RegExp): Promise<string> {
  await page.goto(from)
  const hrefs = await page
    .locator('main a')
    .evaluateAll((links) => links.map((a) => a.getAttribute('href') ?? ''))
  const found = hrefs.find((h) => wanted.test(h))
  if (!found) throw new Error(`${from} has no link to ${wanted}`)
  return found
}

async function look(page: Page, path: string): Promise<void> {
  const response = await page.goto(path)
  expect(response?.status(), path).toBeLessThan(400)
  await expect(page.locator('h1')).toBeVisible()
  await expectAccessible(page)
  await expectNoSideways(page)
}

for (const colorScheme of ['light', 'dark'] as const)
  test(`every page is readable for all, ${colorScheme} @phone`, async ({ browser, viewport }) => {
    test.setTimeout(240_000)
    const context = await browser.newContext({ colorScheme, viewport: viewport ?? undefined })
    const page = await context.newPage()
    const broken: string[] = []
    page.on('pageerror', (error) => broken.push(`${page.url()}: ${error.message}`))
    page.on('response', (r) => {
      if (r.status() >= 400) broken.push(`${page.url()}: ${r.status()} for ${r.url()}`)
    })
    for (const path of OPEN) await look(page, path)
    await signIn(page, emailOf('signe'))
    for (const path of INSIDE) await look(page, path)
    for (const { from, link, paths } of FOLLOW) {
      const found = await firstLink(page, from, link)
      for (const more of paths) await look(page, `${found}${more}`)
    }
    expect(broken, 'nothing that a page asks for is refused').toEqual([])
    await context.close()
  })

test('a page that is cut off on its way comes back by itself', async ({ page }) => {
  await signIn(page, emailOf('noor'))
  await page.goto('/pool')
  const isPart = /[?&]_rsc=/
  await page.route(isPart, async (route) => {
    const whole = await route.fetch()
    const { 'content-encoding': _, 'content-length': __, ...headers } = whole.headers()
    const body = await whole.body()
    await route.fulfill({ status: 200, headers, body: body.subarray(0, Math.floor(body.length / 2)) })
  })
  await askAnew(page)
  await expect(page.getByRole('heading', { name: 'That did not work' })).toBeVisible()
  await expect(page.getByText('It comes back as soon as the shop answers.')).toBeVisible()
  await expectAccessible(page)
  await page.unroute(isPart)
  await expect(page.getByRole('heading', { name: 'The pool' })).toBeVisible()
})

test('a page that is not there says so and leads on', async ({ page }) => {
  await signIn(page, emailOf('noor'))
  for (const path of ['/boards/not-a-board', '/builds/00000000-0000-4000-8000-000000000000', '/nowhere']) {
    const response = await page.goto(path)
    expect(response?.status(), path).toBe(404)
    await expect(page.getByRole('link', { name: 'Go to Today' })).toBeVisible()
  }
})

test('pages without 3-D load under 170 kB of compressed script', async ({ page }) => {
  await signIn(page, emailOf('noor'))
  const build = await firstLink(page, '/builds', FOLLOW[0].link)
  const board = await firstLink(page, '/pool', FOLLOW[1].link)
  for (const path of [
    '/',
    '/builds',
    '/pool',
    '/teardowns',
    '/stations',
    build,
    `${build}/cutting`,
    `${build}/setups`,
    `${build}/strength`,
    `${build}/drawings`,
    `${build}/variants`,
    board,
  ]) {
    await page.goto(path, { waitUntil: 'load' })
    const bytes = await page.evaluate(() =>
      performance
        .getEntriesByType('resource')
        .filter((e) => /\.js(\?|$)/.test(e.name))
        .reduce((sum, e) => sum + (e as PerformanceResourceTiming).encodedBodySize, 0),
    )
    expect(bytes, path).toBeGreaterThan(50_000)
    expect(bytes, path).toBeLessThan(170_000)
  }
})

test('nobody sees a page or a feed without signing in', async ({ page, request }) => {
  for (const path of ['/', '/pool', '/builds', '/stations', '/account', '/members', '/shop']) {
    await page.goto(path)
    await expect(page).toHaveURL(/\/sign-in/)
  }
  expect((await request.get('/api/live?topics=today', { maxRedirects: 0 })).status()).toBe(401)
  expect((await request.get('/api/calendar/nobodys.ics')).status()).toBe(404)
})
