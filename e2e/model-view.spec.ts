// The piece in 3-D before it is built: turned, taken apart, cut open, measured, kept as a picture; and without 3-D.
import { readFile } from 'node:fs/promises'
import { chromium, expect, type Locator, type Page, test } from '@playwright/test'
import { BROWSER_FLAGS, browserPath } from '../lib/start/browser.mjs'
import { expectAccessible, expectNoSideways } from './support/looks'
import { emailOf, signIn } from './support/people'
import { startBuild } from './support/work'

const view = (page: Page): Locator => page.getByRole('region', { name: /^3-D view/ })

async function openView(page: Page, build: string): Promise<void> {
  await page.goto(`${build}/design`)
  await page.getByText('3-D', { exact: true }).click()
  await expect(view(page).locator('canvas')).toBeVisible()
  await drawn(page)
}

/** Two frames later: what was asked for has been drawn. */
const drawn = (page: Page): Promise<unknown> =>
  page.evaluate(
    () =>
      new Promise((done) => {
        requestAnimationFrame(() => requestAnimationFrame(() => setTimeout(done, 150)))
      }),
  )

/** What is seen now, to be told apart from another look. */
async function sight(page: Page): Promise<string> {
  await drawn(page)
  return (await view(page).locator('canvas').screenshot()).toString('base64')
}

async function changes(page: Page, act: () => Promise<unknown>): Promise<void> {
  const before = await sight(page)
  await act()
  await expect.poll(() => sight(page)).not.toBe(before)
}

test('a seat is looked at from all sides before it is built @phone', async ({ page, isMobile }) => {
  test.setTimeout(240_000)
  await signIn(page, emailOf('noor'))
  const build = await startBuild(page, 'A seat to look at')
  await openView(page, build)

  await test.step('by keys, with the view in sight of who uses them', async () => {
    await view(page).focus()
    await expect(view(page)).toBeFocused()
    for (const key of ['ArrowLeft', 'ArrowUp', '+', '0']) await changes(page, () => page.keyboard.press(key))
  })

  await test.step('from the front, the side and above', async () => {
    for (const from of ['Front', 'Side', 'Top', 'Corner'])
      await changes(page, () => page.getByRole('button', { name: from, exact: true }).click())
  })

  await test.step('taken apart and put together again: the same picture', async () => {
    const apart = page.getByRole('slider', { name: 'Take apart' })
    const whole = await sight(page)
    await changes(page, () => apart.fill('100'))
    await changes(page, () => apart.fill('40'))
    await apart.fill('0')
    await page.getByRole('button', { name: 'Corner', exact: true }).click()
    await expect.poll(() => sight(page)).toBe(whole)
  })

  await test.step('cut open across, lengthways and level', async () => {
    for (const cut of ['Across', 'Along', 'Level', 'Whole'])
      await changes(page, () => page.getByText(cut, { exact: true }).click())
  })

  await test.step('alone, or with someone beside it', async () => {
    await changes(page, () => page.getByLabel('Someone beside it').selectOption('man95'))
    await changes(page, () => page.getByLabel('seated').uncheck())
    await changes(page, () => page.getByLabel('Someone beside it').selectOption('none'))
  })

  await test.step('the list marks parts in the view, the view says which', async () => {
    const rail = page.getByRole('button', { name: /^rail$/i })
    await changes(page, () => rail.click())
    await expect(rail).toHaveAttribute('aria-pressed', 'true')
    await expect(page.getByText(/^\d+ × rail$/)).toBeVisible()
    await rail.click()
    await expect(rail).toHaveAttribute('aria-pressed', 'false')
    await page.getByRole('button', { name: 'Top', exact: true }).click()
    await drawn(page)
    // Seen from above, somewhere in the middle of the view there is a seat board.
    const box = (await view(page).boundingBox())!
    const board = page.getByRole('button', { name: /^seat board$/i })
    const shares = [0.5, 0.45, 0.55, 0.4, 0.6, 0.65]
    const places = shares.flatMap((y) => [0.3, 0.4, 0.25, 0.6, 0.7, 0.5].map((x) => [x, y] as const))
    for (const [x, y] of places) {
      await view(page).click({ position: { x: box.width * x, y: box.height * y } })
      if ((await board.getAttribute('aria-pressed')) === 'true') break
    }
    await expect(board).toHaveAttribute('aria-pressed', 'true')
  })

  await expectAccessible(page)
  await expectNoSideways(page)
  if (isMobile) return

  await test.step('kept as a picture: PNG, 1600 by 1200', async () => {
    const download = page.waitForEvent('download')
    await page.getByRole('button', { name: 'Save a picture' }).click()
    const file = await download
    expect(file.suggestedFilename()).toBe('a-seat-to-look-at.png')
    const bytes = await readFile(await file.path())
    expect(bytes.subarray(0, 8)).toEqual(Buffer.from([0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]))
    expect([bytes.readUInt32BE(16), bytes.readUInt32BE(20)]).toEqual([1600, 1200])
    expect(bytes.length).toBeGreaterThan(30_000)
  })
})

// The plant stand's legs are 450 mm long, square at both ends: lib/core/design/designs/plant-stand.
test('measured: 450 mm from end to end of a leg, by list and by pointing', async ({ page }) => {
  await signIn(page, emailOf('noor'))
  const build = await startBuild(page, 'A stand to measure', '', 'Plant stand')
  await openView(page, build)
  await page.getByRole('button', { name: 'Measure' }).click()
  await page.getByText('Choose from lists instead').click()
  const said = page.getByRole('status').filter({ hasText: / of Leg/ })
  await expect(said.getByText('450 mm', { exact: true })).toBeVisible()
  await page.getByLabel("Second part's face").selectOption('faceA')
  await expect(said.getByText('90°', { exact: true })).toBeVisible()

  await page.getByRole('button', { name: 'Measure' }).click()
  await page.getByRole('button', { name: 'Measure' }).click()
  await page.getByLabel('Someone beside it').selectOption('none')
  await page.getByRole('button', { name: 'Front', exact: true }).click()
  await drawn(page)
  const box = (await view(page).boundingBox())!
  const touch = page.getByText(/^From .+ to: touch the second\.$/)
  for (const share of [0.38, 0.4, 0.42, 0.44, 0.36, 0.46, 0.5]) {
    await view(page).click({ position: { x: box.width * share, y: box.height * 0.8 } })
    await drawn(page)
    if (await touch.isVisible()) break
  }
  await expect(touch).toBeVisible()
})

test('without WebGL the drawings carry everything, and nothing pretends', async () => {
  const browser = await chromium.launch({
    executablePath: await browserPath(),
    args: [
      ...BROWSER_FLAGS.filter((flag: string) => !/gl|gpu/i.test(flag)),
      '--disable-gpu',
      '--disable-3d-apis',
    ],
  })
  try {
    const context = await browser.newContext({ baseURL: test.info().project.use.baseURL })
    const page = await context.newPage()
    await signIn(page, emailOf('noor'))
    const build = await startBuild(page, 'A seat without pictures')
    await page.goto(`${build}/design`)
    await expect(page.locator('#piece svg').first()).toBeVisible()
    await page.getByText('3-D', { exact: true }).click()
    await expect(page.getByText('This browser shows no 3-D. The drawings carry every size.')).toBeVisible()
    for (const name of ['Front', 'Measure', 'Save a picture'])
      await expect(page.getByRole('button', { name, exact: true })).toHaveCount(0)
    await expect(page.locator('#piece').getByRole('slider')).toHaveCount(0)
    await expectAccessible(page)
  } finally {
    await browser.close()
  }
})

test('finished by region: areas, product and hours, kept for all to see @phone', async ({ page }) => {
  await signIn(page, emailOf('noor'))
  const build = await startBuild(page, 'A seat to finish')
  await page.goto(build)
  await page.getByRole('navigation', { name: 'This build' }).getByRole('link', { name: 'Finish' }).click()
  await expect(page.getByRole('heading', { name: 'What it takes' })).toBeVisible()
  await expect(page.getByText('Rags with drying oil heat up by themselves', { exact: false })).toBeVisible()

  await page.getByRole('button', { name: 'Add a region' }).click()
  const region = page.locator('details[open]')
  await region.getByLabel('Name').fill('Legs')
  await region.getByRole('checkbox', { name: 'leg, hand b' }).check()
  await region.getByLabel('Coats', { exact: true }).fill('2.5')
  await expect(region.getByText('Enter whole coats, up to 20.')).toBeVisible()
  await region.getByLabel('Coats', { exact: true }).fill('3')
  await expect(region.getByText('Enter whole coats, up to 20.')).toHaveCount(0)
  await expect(page.getByText(/paint, 3 coats, \d+ ml, 12 h to dry/)).toBeVisible()
  await expectAccessible(page)
  await expectNoSideways(page)
  await page.getByRole('button', { name: 'Save', exact: true }).click()
  await expect(page.getByText('All saved.')).toBeVisible()
  await page.reload()
  await expect(page.getByText('Legs', { exact: true })).toBeVisible()
})
