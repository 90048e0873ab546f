/**
 * Planning the cutting in more ways than one: parts glued up from staves, two plans side by side, parts on the boards
 * and in the piece marked together, several builds on one pool.
 */
import { expect, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { asMember } from './support/people'
import { buildWith, logBoards, planCutting, planHere, startBuild } from './support/work'

test('glued up, compared, seen in the piece, planned together', async ({ browser }) => {
  test.setTimeout(240_000)
  const { page } = await asMember(browser, 'yusra')
  // Enough wood for two low seats, in an owner's hands that nobody else plans on.
  await logBoards(page, {
    piece: 'Oak counter, in planks',
    terms: 'mine',
    boards: [
      ['1500', '120', '48', 4],
      ['2000', '120', '26', 8],
    ],
  })
  const build = await buildWith(page, 'Seat of staves', { 'Seats abreast': '1' })
  await page.goto(`${build}/cutting`)
  const staves = page.getByRole('group', { name: 'May be glued up from staves' })
  const seat = staves.getByRole('checkbox', { name: /seat board/ })

  await test.step('plain first, then with the seat boards glued up', async () => {
    await expect(seat).not.toBeChecked()
    await planCutting(page, build)
    await expect(page.getByText(/^All 14 parts come out of/)).toBeVisible()
    await expect(page.getByText('How the plan was judged')).toBeVisible()
    await page.goto(`${build}/cutting`)
    await seat.check()
    await planHere(page)
    await expect(seat).toBeChecked()
    await expect(page.getByText(/^All 14 parts come out of/)).toBeVisible()
    await expectAccessible(page)
  })

  await test.step('a part pointed at in the list is marked on its board, with the piece in 3-D above', async () => {
    await page.getByText('The piece in 3-D').click()
    await expect(page.locator('canvas')).toBeVisible({ timeout: 30_000 })
    await page.getByText('Parts and cuts, in order').first().click()
    const name = page.getByRole('list', { name: 'Parts', exact: true }).first().getByRole('button').first()
    const part = await name.getAttribute('data-part')
    await name.click()
    await expect(page.locator(`svg [data-part="${part}"]`).first()).toHaveAttribute('data-marked', '')
    await expectAccessible(page)
  })

  await test.step('the two plans side by side', async () => {
    await page.goto(`${build}/cutting`)
    await page.getByRole('link', { name: 'Compare with another plan' }).click()
    await expect(page.getByRole('heading', { level: 1, name: 'Compare cut plans' })).toBeVisible()
    const made = page.getByRole('row', { name: /^Parts made/ })
    await expect(made).toContainText('14 of 14')
    await expect(page.getByLabel('First plan').locator('option')).toHaveCount(2)
    await expectAccessible(page)
    await expectNoSideways(page)
  })

  await test.step('together with another build', async () => {
    await startBuild(page, 'Second seat of staves')
    await page.goto(`${build}/cutting/together`)
    const form = page.getByRole('form', { name: 'Plan together' })
    await form.getByRole('button', { name: 'Plan together' }).click()
    await expect(form.getByText('Choose at least one other build.')).toBeVisible()
    await form.getByRole('checkbox', { name: /Second seat of staves/ }).check()
    await form.getByText('5 s', { exact: true }).click()
    await form.getByRole('button', { name: 'Plan together' }).click()
    await expect(page.getByRole('heading', { name: 'Result' })).toBeVisible({ timeout: 40_000 })
    await expect(page.getByRole('progressbar')).toBeHidden({ timeout: 40_000 })
    const table = page.getByRole('table').first()
    await expect(table.getByRole('row', { name: /Seat of staves/ }).first()).toContainText('14 of 14 parts')
    await expect(page.getByText(/lanning together|lanned together/).first()).toBeVisible()
    await expectAccessible(page)
    await expectNoSideways(page)
    // It is no plan of the build's own.
    await page.goto(`${build}/cutting`)
    await expect(page.getByText(/^All 14 parts come out of/)).toBeVisible()
  })
})

test('a shortage names the numbers of the design that would do', async ({ browser }) => {
  test.setTimeout(180_000)
  const { page } = await asMember(browser, 'piet')
  // A trestle table longer than any board of the pool.
  await page.goto('/builds/new')
  await page.getByLabel('What you call it').fill('Table too long')
  const radio = page.getByRole('radio', { name: /trestle table/i })
  if (await radio.count()) await radio.check({ force: true })
  await page.getByRole('button', { name: 'Start the build' }).click()
  await expect(page).toHaveURL(/\/builds\/[0-9a-f-]{36}\/design/)
  const build = /\/builds\/[0-9a-f-]{36}/.exec(page.url())![0]
  await planCutting(page, build)
  const ask = page.getByRole('button', { name: 'Would another number of the design do?' })
  await expect(ask).toBeVisible()
  await ask.click()
  await expect(
    page.getByText(/every part comes out of the pool|No single number of the design would do/),
  ).toBeVisible({ timeout: 120_000 })
  await expectAccessible(page)
})
