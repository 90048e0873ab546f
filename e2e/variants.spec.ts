import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { asMember } from './support/people'
import { buildWith, typeNumbers } from './support/work'

test.setTimeout(180_000)

const column = (page: Page, name: string) =>
  page.getByRole('columnheader').filter({ has: page.getByRole('link', { name, exact: true }) })

/** A cell of the table, by its row and its variant. */
async function cell(page: Page, row: string, variant: string) {
  const heads = page.getByRole('table').locator('thead tr').first().getByRole('columnheader')
  const names = await heads.locator('h2').allTextContents()
  return page
    .getByRole('row')
    .filter({ has: page.getByRole('rowheader', { name: row, exact: true }) })
    .getByRole('cell')
    .nth(names.indexOf(variant))
}

async function makeAnother(page: Page, build: string, name: string, numbers: Record<string, string>) {
  await page.goto(`${build}/variants`)
  const form = page.getByRole('form', { name: 'Make another variant' })
  await form.getByLabel('What you call it').fill(name)
  await form.getByRole('button', { name: 'Make it' }).click()
  await expect(page).toHaveURL(/design\?variant=/)
  await expect(page.getByText(`Variant «${name}»`)).toBeVisible()
  await typeNumbers(page, numbers)
  await page
    .getByRole('form', { name: 'Numbers of the design' })
    .getByRole('button', { name: 'Save' })
    .click()
  await expect(page.getByText('Saved.', { exact: true })).toBeVisible()
}

test('one makes three variants; another comments on a part and votes; the maker sees it and chooses @phone', async ({
  browser,
  viewport,
}) => {
  const look = viewport ? { viewport } : {}
  const { page: noor, context: a } = await asMember(browser, 'noor', look)
  const name = `Seat to talk about ${Date.now() % 100_000}`
  const build = await buildWith(noor, name, { 'Seats abreast': '1' })
  await makeAnother(noor, build, 'Taller', { 'Counter height': '960' })
  await makeAnother(noor, build, 'Steeper', { Rake: '12' })

  await noor.goto(`${build}/variants`)
  await expect(noor.getByText('All worked out.')).toBeAttached({ timeout: 60_000 })
  await expect(column(noor, 'First')).toContainText('Chosen')
  await expect(await cell(noor, 'Counter height', 'Taller')).toContainText('960 mm')
  await expect(await cell(noor, 'Counter height', 'Taller')).toContainText('45.6 mm more')
  await expect(await cell(noor, 'Rake', 'Steeper')).toContainText('4° more')
  await expect(noor.getByRole('rowheader', { name: 'Seat width' })).toHaveCount(0)
  await noor.getByLabel('Show what is alike too').check()
  await expect(noor.getByRole('rowheader', { name: 'Seat width' })).toBeVisible()
  await expectNoSideways(noor)
  await expectAccessible(noor)

  // Another member looks, points at a part, says something, and votes.
  const { page: piet, context: b } = await asMember(browser, 'piet', look)
  await piet.goto(`${build}/variants`)
  await expect(column(piet, 'First')).toContainText('Chosen')
  await expect(piet.getByRole('button', { name: 'Choose it' })).toHaveCount(0)
  await piet.getByRole('link', { name: 'Look at Taller' }).click()
  await expect(piet).toHaveURL(/variants\/[0-9a-f-]{36}$/)
  await noor.goto(piet.url())
  await piet.getByText('Side', { exact: true }).click()
  const pointing = piet.getByRole('button', { name: 'Point at the picture' })
  await pointing.focus()
  for (let i = 0; i < 4; i++) await piet.keyboard.press('Shift+ArrowUp')
  await expect(piet.getByText('Pointed at on the side view.')).toBeVisible()
  const form = piet.getByRole('form', { name: 'Comment' })
  await form.getByLabel('About').selectOption({ index: 1 })
  const part = await form.getByLabel('About').locator('option:checked').textContent()
  await form.getByLabel('Your comment').fill('Rounder here, please.')
  await form.getByRole('button', { name: 'Say it' }).click()
  await expect(piet.getByRole('link', { name: 'Comment 1' })).toBeVisible()
  await piet.getByRole('button', { name: 'I would make this' }).click()
  await expect(piet.getByText('by you')).toBeVisible()
  await expectNoSideways(piet)
  await expectAccessible(piet)

  // The maker's page shows it without being loaded again.
  await expect(noor.getByText('Rounder here, please.')).toBeVisible()
  await expect(noor.getByText(`${part}, side view`)).toBeVisible()
  await expect(noor.getByText('by Piet Osei')).toBeVisible()
  await noor.getByRole('button', { name: 'Show comment 1 on the picture' }).click()
  await expect(noor.getByRole('radio', { name: 'Side' })).toBeChecked()
  await expect(noor.getByRole('link', { name: 'Comment 1' })).toBeVisible()
  await expect(noor.getByRole('button', { name: 'Take back', exact: true })).toHaveCount(0)
  await noor.goto('/')
  await expect(noor.getByText(/would make «Taller» of/).first()).toBeVisible()

  // She changes the numbers: what was said says that it was said before.
  await noor.goto(piet.url())
  await noor.getByRole('link', { name: 'Change its numbers' }).click()
  await typeNumbers(noor, { 'Counter height': '970' })
  await noor
    .getByRole('form', { name: 'Numbers of the design' })
    .getByRole('button', { name: 'Save' })
    .click()
  await expect(noor.getByText('Saved.', { exact: true })).toBeVisible()
  await expect(piet.getByText('Said before its numbers changed')).toBeVisible()

  // She chooses it, and the other member sees that.
  await noor.goto(`${build}/variants`)
  await piet.goto(`${build}/variants`)
  await noor
    .getByRole('row')
    .filter({ hasText: 'Choose it' })
    .getByRole('cell')
    .nth(2)
    .getByRole('button', { name: 'Choose it' })
    .click()
  await noor.getByRole('alertdialog').getByRole('button', { name: 'Choose it' }).click()
  await expect(column(noor, 'Taller')).toContainText('Chosen')
  await expect(column(piet, 'Taller')).toContainText('Chosen')
  await noor.goto(`${build}/design`)
  await expect(noor.getByText('Variant «Taller», the one that is made.')).toBeVisible()
  await a.close()
  await b.close()
})

test('what if: a slider by keys shows what moves; a refusal loses nothing; kept as a variant, renamed, taken away', async ({
  browser,
}) => {
  const { page, context } = await asMember(browser, 'noor')
  const build = await buildWith(page, `What if ${Date.now() % 100_000}`, { 'Seats abreast': '1' })
  const slider = page.getByRole('slider', { name: 'Counter height, slider' })
  await slider.focus()
  await expect(page.getByText(/^The others staying as they are, from/)).toBeAttached({ timeout: 30_000 })
  for (let i = 0; i < 4; i++) await page.keyboard.press('PageUp')
  await expect(page.getByLabel('Counter height', { exact: true })).toHaveValue('950')
  const moves = page.getByRole('region', { name: 'What moves' })
  await expect(moves).toContainText('35.6 mm more', { timeout: 30_000 })
  await moves.getByText(/parts change$/).click()
  await expect(moves).toContainText('leg')

  // Beyond where the design refuses: its sentence stands at the number, and the number stays.
  await slider.focus()
  for (let i = 0; i < 40; i++) await page.keyboard.press('PageDown')
  const field = page.getByLabel('Counter height', { exact: true })
  await expect(field).toHaveValue('650')
  await expect(page.getByText('Not saved: some numbers need another look.')).toBeVisible()
  await expect(page.getByRole('button', { name: 'Keep as a variant' })).toHaveCount(0)
  for (let i = 0; i < 30; i++) await page.keyboard.press('PageUp')
  await expect(field).toHaveValue('950')
  await page.getByRole('button', { name: 'Keep as a variant' }).click()
  const question = page.getByRole('alertdialog')
  await question.getByLabel('What you call it').fill('First')
  await question.getByRole('button', { name: 'Keep it' }).click()
  await expect(question.getByText('Another variant of this build has that name.')).toBeVisible()
  await question.getByLabel('What you call it').fill('For the bar')
  await question.getByRole('button', { name: 'Keep it' }).click()
  await expect(page.getByText(/Kept as a variant;/)).toBeVisible()
  await expect(field).toHaveValue('914.4')

  await page.getByRole('link', { name: 'See them side by side' }).click()
  await expect(await cell(page, 'Counter height', 'For the bar')).toContainText('950 mm', { timeout: 60_000 })
  await page.getByText('Name, take away').click()
  const naming = page.getByRole('form', { name: 'Name of For the bar' })
  await naming.getByLabel('Name').fill('For the tall bar')
  await naming.getByRole('button', { name: 'Rename' }).click()
  await expect(column(page, 'For the tall bar')).toBeVisible()
  await page.getByRole('button', { name: 'Take away' }).click()
  await page.getByRole('alertdialog').getByRole('button', { name: 'Take it away' }).click()
  await expect(column(page, 'For the tall bar')).toHaveCount(0)
  await expect(page.getByText('One variant so far.')).toBeVisible()
  expect(build).toMatch(/^\/builds\//)

  // A picture of the 3-D view, shown to the shop, pointed at, taken back.
  await page.goto(`${build}/design`)
  await page.getByText('3-D', { exact: true }).click()
  await page.getByText('Level', { exact: true }).click()
  await page.getByRole('button', { name: 'Show to the shop' }).click()
  await page.getByRole('link', { name: 'Look and talk about it' }).click()
  await page.getByRole('button', { name: 'Cut open level, by Noor Halvari' }).click()
  const shown = page.getByRole('img', { name: 'First: picture «Cut open level»' })
  await expect(shown).toBeVisible()
  expect(await shown.evaluate((img: HTMLImageElement) => [img.naturalWidth, img.naturalHeight])).toEqual([
    1600, 1200,
  ])
  await page.getByRole('button', { name: 'Point at the picture' }).click()
  const form = page.getByRole('form', { name: 'Comment' })
  await form.getByLabel('Your comment').fill('Hollow here?')
  await form.getByRole('button', { name: 'Say it' }).click()
  await expect(page.getByRole('link', { name: 'Comment 1' })).toBeVisible()
  await expectAccessible(page)
  await page.getByRole('button', { name: 'Take the picture back' }).click()
  await page.getByRole('alertdialog').getByRole('button', { name: 'Take it back' }).click()
  await expect(page.getByText('picture that was taken back')).toBeVisible()
  await expect(shown).toHaveCount(0)
  await context.close()
})
