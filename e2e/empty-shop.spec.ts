/**
 * A shop with nothing in it: whoever comes first becomes its admin, nobody else does, and every empty list says what
 * to do next. On a phone, since that is where a shop is shown around. With a server and data of its own.
 */
import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { type OwnShop, openShop, throwAway } from './support/server'
import { startBuild } from './support/work'

const PHONE = { viewport: { width: 390, height: 844 }, hasTouch: true, isMobile: true }
const ADMIN = { name: 'Vera Lund', email: 'vera@empty.example', password: 'a bench under the stairs' }

let shop: OwnShop
test.beforeAll(async () => {
  test.setTimeout(200_000)
  shop = await openShop({ beside: 5, demo: false })
})
test.afterAll(async () => {
  await shop?.stop()
  if (shop) await throwAway(shop)
})

async function look(page: Page, path: string): Promise<void> {
  const response = await page.goto(shop.url + path)
  expect(response?.status(), path).toBe(200)
  await expect(page.locator('h1')).toBeVisible()
  await expectAccessible(page)
  await expectNoSideways(page)
}

async function fillStart(page: Page, shopName: string, who = ADMIN): Promise<void> {
  await page.getByLabel('Name of the shop').fill(shopName)
  await page.getByLabel('Your name').fill(who.name)
  await page.getByLabel('Your e-mail').fill(who.email)
  await page.getByLabel('A password').fill(who.password)
}

/** A place, what it says while it is empty, and where its first step leads; null where there is no step of one's own. */
const EMPTY = [
  ['/', 'Where to begin', '/teardowns/new'],
  ['/builds', 'Nothing is being made just now', '/builds/new'],
  ['/builds?show=closed', 'Nothing has ended yet', null],
  ['/pool', 'The pool is empty', '/teardowns/new'],
  ['/pool?state=cut', 'No board has been cut yet', '/pool'],
  ['/pool?state=removed', 'No board has been taken out of the pool', '/pool'],
  ['/pool?species=redOak', 'No board is like that', '/pool'],
  ['/teardowns', 'Nothing has been taken apart yet', '/teardowns/new'],
  ['/stations', 'No stations yet', '/stations/new'],
  ['/bookings', 'Nothing booked', '/stations'],
  ['/members', 'You are alone here', null],
] as const

test('from nothing to a shop that says what comes first', async ({ browser }) => {
  test.setTimeout(240_000)
  const page = await (await browser.newContext(PHONE)).newPage()
  const slow = await (await browser.newContext(PHONE)).newPage()

  await test.step('every way in leads to the first sign-up', async () => {
    for (const path of ['/', '/pool', '/sign-in']) {
      await page.goto(shop.url + path)
      await expect(page).toHaveURL(`${shop.url}/start`)
    }
    await look(page, '/start')
  })

  await test.step('what is wrong with it is said beside its field; nothing is begun', async () => {
    await fillStart(page, '', { name: '', email: 'vera at empty', password: 'short' })
    await page.getByRole('button', { name: 'Start the shop' }).click()
    for (const label of ['Name of the shop', 'Your name', 'Your e-mail', 'A password']) {
      await expect(page.getByLabel(label)).toHaveAttribute('aria-invalid', 'true')
      await expect(page.getByLabel(label)).toHaveAccessibleDescription(/\w/)
    }
    await expect(page.getByLabel('Name of the shop')).toBeFocused()
    await expect(page.getByLabel('Your e-mail')).toHaveValue('vera at empty')
    await expectAccessible(page)
    await slow.goto(`${shop.url}/sign-in`)
    await expect(slow).toHaveURL(`${shop.url}/start`)
  })

  await test.step('the first becomes the admin; a second, who was slower, is told', async () => {
    await fillStart(slow, 'Another Shop', { ...ADMIN, name: 'Slow Sam', email: 'sam@empty.example' })
    await fillStart(page, 'Under the Stairs')
    await page.getByLabel('Time zone').selectOption('Europe/Copenhagen')
    await page.getByRole('button', { name: 'Start the shop' }).click()
    await expect(page).toHaveURL(`${shop.url}/`)
    await expect(page.getByText('Under the Stairs')).toBeVisible()
    await slow.getByRole('button', { name: 'Start the shop' }).click()
    await expect(slow.getByText('This shop has been started already. Sign in.')).toBeVisible()
    await expect(slow.getByLabel('Your name')).toHaveValue('Slow Sam')
    await slow.goto(`${shop.url}/start`)
    await expect(slow).toHaveURL(`${shop.url}/sign-in`)
    await page.goto(`${shop.url}/start`)
    await expect(page).toHaveURL(`${shop.url}/`)
    await look(page, '/shop')
    await expect(page.getByLabel('Name')).toHaveValue('Under the Stairs')
    await page.goto(`${shop.url}/account`)
    await expect(page.getByText('Admin', { exact: true })).toBeVisible()
  })

  await test.step('every empty list says what to do next', async () => {
    for (const [path, says, next] of EMPTY) {
      await look(page, path)
      await expect(page.getByText(says), path).toBeVisible()
      if (next) await expect(page.locator(`main a[href="${next}"]`).first(), path).toBeVisible()
    }
  })

  await test.step('so do the pages of a first teardown and a first build', async () => {
    await page.goto(`${shop.url}/teardowns/new`)
    await page.getByLabel('What it was').fill('A door')
    await page.getByRole('button', { name: 'Go on to its boards' }).click()
    await expect(page.getByText('No boards yet')).toBeVisible()
    await expect(page.getByText(/Measure the first one and type its length/)).toBeVisible()
    await expectAccessible(page)
    await expectNoSideways(page)
    const build = await startBuild(page, 'First seat', shop.url)
    await look(page, build)
    await expect(page.getByText('Nobody has said anything yet')).toBeVisible()
    await expect(page.getByText('Nothing is drying.')).toBeVisible()
    await look(page, `${build}/setups`)
    await expect(page.getByText('No set-ups yet')).toBeVisible()
    await expect(page.locator(`main a[href="${build}/cutting"]`).first()).toBeVisible()
    await look(page, `${build}/cutting`)
    await page.getByText('5 s', { exact: true }).click()
    await page.getByRole('button', { name: 'Plan the cutting' }).click()
    await expect(page.getByRole('heading', { name: 'Short' })).toBeVisible({ timeout: 30_000 })
    await expect(page.getByRole('progressbar')).toBeHidden()
    await expect(page.getByText(/no board|pool/i).first()).toBeVisible()
    await expect(page.getByRole('link', { name: 'Log a teardown' })).toBeVisible()
    await expectAccessible(page)
    await expectNoSideways(page)
  })

  await test.step('a station is added and has its own empty lists', async () => {
    await page.goto(`${shop.url}/stations/new`)
    await page.getByLabel('Name').fill('Old saw')
    await page.getByRole('button', { name: 'Add the station' }).click()
    await expect(page.getByRole('heading', { level: 1, name: 'Old saw' })).toBeVisible()
    await expect(page.getByText('Nobody yet.')).toBeVisible()
    await expectAccessible(page)
    await expectNoSideways(page)
  })
  await page.context().close()
  await slow.context().close()
})
