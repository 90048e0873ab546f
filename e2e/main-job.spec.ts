/**
 * The main job, end to end, on boards and a design that a member types in: teardown, boards, damage, gates, design,
 * cut plan, holds, set-ups, booking, cutting, offcuts back in the pool.
 */
import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { asMember } from './support/people'

const SEATS = 'Seat by the window'

interface Typed {
  readonly length: string
  readonly width: string
  readonly thickness: string
  readonly alike?: string
}

/** Enough wood for one seat; inches and millimetres as they come off two different tapes. */
const BOARDS: readonly Typed[] = [
  { length: `5' 3-7/16"`, width: '5 1/2"', thickness: '2 1/4"', alike: '2' },
  { length: '1613', width: '140', thickness: '27', alike: '3' },
  { length: '63 7/16', width: '152,5', thickness: '26', alike: '2' },
]

async function logTeardown(page: Page): Promise<string> {
  await page.goto('/teardowns/new')
  await page.getByLabel('What it was').fill('Cloakroom bench')
  await page.getByRole('button', { name: 'Go on to its boards' }).click()
  await expect(page.getByRole('heading', { level: 1, name: 'Cloakroom bench' })).toBeVisible()
  const form = page.getByRole('form', { name: 'Log a board' })
  await form.getByLabel('Species').selectOption('redOak')
  await form.getByLabel('Old finish').selectOption('bare')
  await form.getByLabel('Metal').selectOption('cleared')
  let logged = 0
  for (const board of BOARDS) {
    await form.getByLabel('Length', { exact: true }).fill(board.length)
    await form.getByLabel('Width').fill(board.width)
    await form.getByLabel('Thickness').fill(board.thickness)
    await form.getByLabel('How many alike').fill(board.alike ?? '1')
    await page.keyboard.press('Enter')
    logged += Number(board.alike ?? '1')
    await expect(page.getByRole('heading', { name: `${logged} boards` })).toBeVisible()
    // Ready for the next one: emptied, and the cursor is in its first field.
    await expect(form.getByLabel('Length', { exact: true })).toBeFocused()
    await expect(form.getByLabel('Length', { exact: true })).toHaveValue('')
  }
  return page.url()
}

test('from a worn-out bench to parts and offcuts', async ({ browser }) => {
  test.setTimeout(240_000)
  const noor = await asMember(browser, 'noor')
  const { page } = noor

  await test.step('log a teardown, in inches and millimetres', async () => {
    await logTeardown(page)
    const list = page.getByRole('list', { name: /Boards of this piece/ })
    // 5' 3-7/16" = 63 7/16" = 1611.3 mm (1 in = 25.4 mm exactly)
    await expect(list.getByText(/1611\.3 × 139\.7 × 57\.2 mm/).first()).toBeVisible()
    await expect(list.getByText(/1613 × 140 × 27 mm/).first()).toBeVisible()
    await expect(list.getByText(/1611\.3 × 152\.5 × 26 mm/).first()).toBeVisible()
  })

  await test.step('mark damage with the mouse, the keyboard and in figures', async () => {
    await page
      .getByRole('list', { name: /Boards of this piece/ })
      .getByRole('link')
      .first()
      .click()
    await expect(page).toHaveURL(/\/boards\//)
    await page.getByRole('button', { name: /Knot/ }).first().click()
    const face = page.getByRole('application')
    const box = (await face.boundingBox())!
    await page.mouse.move(box.x + box.width * 0.4, box.y + box.height * 0.4)
    await page.mouse.down()
    await page.mouse.move(box.x + box.width * 0.46, box.y + box.height * 0.55, { steps: 4 })
    await page.mouse.up()
    const marks = page.getByRole('list', { name: 'Marks' })
    await expect(marks.getByRole('listitem')).toHaveCount(1)
    await page
      .getByRole('button', { name: /Nail hole/ })
      .first()
      .click()
    await face.focus()
    for (let i = 0; i < 5; i++) await page.keyboard.press('ArrowRight')
    await page.keyboard.press('Enter')
    await expect(marks.getByRole('listitem')).toHaveCount(2)
    await page.getByRole('button', { name: 'Save marks' }).click()
    await expect(page.getByText('Saved.', { exact: true })).toBeVisible()
    await page.reload()
    await expect(page.getByRole('list', { name: 'Marks' }).getByRole('listitem')).toHaveCount(2)
    await expectAccessible(page)
  })

  let build = ''
  await test.step('start a build and fit it to its counter', async () => {
    await page.goto('/builds/new')
    await page.getByLabel('What you call it').fill(SEATS)
    await page.getByRole('button', { name: 'Start the build' }).click()
    await expect(page).toHaveURL(/\/builds\/[0-9a-f-]{36}/)
    build = /\/builds\/[0-9a-f-]{36}/.exec(page.url())![0]
    await page.goto(`${build}/design`)
    const form = page.getByRole('form', { name: 'Numbers of the design' })
    await form.getByLabel('Seats abreast', { exact: true }).fill('1')
    await form.getByLabel('Counter height', { exact: true }).fill('1000')
    // 1000 less 38 of counter top less 280 of clearance, measured from the counter's underside.
    await expect(page.getByText('682', { exact: true }).first()).toBeVisible()
    await form.getByLabel('Counter height', { exact: true }).fill('36"')
    await expect(page.getByText('596.4', { exact: true }).first()).toBeVisible()
    await page.getByRole('radio', { name: '3-D' }).check({ force: true })
    await expect(page.locator('canvas')).toBeVisible()
    await form.getByRole('button', { name: /Keep these numbers|Save/ }).click()
    await expect(page.getByText(/^(Saved|All saved)\.$/)).toBeVisible()
  })

  await test.step('see whether the pool yields it', async () => {
    await page.goto(`${build}/cutting`)
    await page.getByText('5 s', { exact: true }).click()
    await page.getByRole('button', { name: 'Plan the cutting' }).click()
    await expect(page.getByRole('progressbar')).toBeVisible()
    await expect(page.getByRole('heading', { name: 'Result' })).toBeVisible()
    await expect(page.getByRole('progressbar')).toBeHidden({ timeout: 30_000 })
    await expect(page.getByText(/all .*parts/i).first()).toBeVisible()
    await expectAccessible(page)
  })

  await test.step('hold the boards, ask where one must ask', async () => {
    await page.getByRole('button', { name: /^Hold / }).click()
    await expect(page.getByText(/Held until|Asked for/).first()).toBeVisible()
  })

  await test.step('see the set-ups and book the saw for as long', async () => {
    await page.goto(`${build}/setups`)
    await expect(page.getByRole('heading', { name: 'Time on each station' })).toBeVisible()
    await expectAccessible(page)
    await page.getByRole('link', { name: 'Book Table saw' }).click()
    await page
      .getByRole('form', { name: 'Book this station' })
      .getByRole('button', { name: /Ask Bram/ })
      .click()
    await expect(page.getByText(/Asked for|Waiting|requested/i).first()).toBeVisible()
  })

  await test.step('its keeper says yes with one tap', async () => {
    const bram = await asMember(browser, 'bram')
    await bram.page.goto('/')
    const request = bram.page
      .getByRole('list', { name: 'Requests to you' })
      .getByRole('listitem')
      .filter({ hasText: 'Noor Halvari' })
    await request.getByRole('button', { name: /^Yes/ }).click()
    await expect(request).toHaveCount(0)
    await bram.context.close()
  })

  await test.step('cut a board: it leaves the pool, its offcuts come back', async () => {
    await page.goto(`${build}/cutting`)
    const record = page.getByRole('link', { name: 'Record the cutting' }).first()
    await record.click()
    await expect(page.getByRole('heading', { level: 1, name: /cutting of board/ })).toBeVisible()
    const number = /board (\d+)/i.exec((await page.locator('h1').textContent())!)![1]
    await page.getByRole('button', { name: 'Record the cutting' }).click()
    await expect(page.getByRole('heading', { name: 'Cut so far' })).toBeVisible()
    await page.goto('/pool')
    await expect(page.getByRole('link', { name: number, exact: true })).toHaveCount(0)
    await page.goto(`${build}/cutting`)
    const cut = page.getByRole('list', { name: 'Boards that were cut' })
    await expect(cut.getByText(/became \d+ part/)).toBeVisible()
    await cut.getByRole('link', { name: `Board ${number}` }).click()
    await expect(page.getByRole('heading', { name: 'History' })).toBeVisible()
  })

  await test.step('today and all builds tell where it stands', async () => {
    for (const path of ['/', '/builds']) {
      await page.goto(path)
      await expect(page.getByRole('link', { name: SEATS }).first()).toBeVisible()
      await expectNoSideways(page)
    }
    await page.goto(build)
    await page.getByLabel('Your comment').fill('First board is cut.')
    await page.getByRole('button', { name: 'Say it' }).click()
    await expect(page.getByText('First board is cut.')).toBeVisible()
  })
  await noor.context.close()
})
