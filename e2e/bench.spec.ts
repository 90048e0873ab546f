/**
 * What a member does with a phone in a dusty hand: boards logged one after the other, a nail hole marked with a
 * finger, set-ups ticked off (also while the shop cannot be reached), and what was really cut put into the books.
 * On boards of its own, with a phone only.
 */
import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { asMember } from './support/people'
import { buildWith, logBoards, planCutting } from './support/work'

/** WCAG 2.2, 2.5.5 (enhanced): targets of at least 44 by 44 CSS pixels. */
const LEAST_TARGET_PX = 44

async function expectLooks(page: Page): Promise<void> {
  await expectAccessible(page)
  await expectNoSideways(page)
}

test('teardown, damage, set-ups and cutting with one thumb @phone', async ({ browser, isMobile }) => {
  test.skip(!isMobile, 'at the bench it is a phone')
  test.setTimeout(200_000)
  const { page, context } = await asMember(browser, 'noor')

  await test.step('log a piece and its boards', async () => {
    await logBoards(page, {
      piece: 'Ash ladder',
      species: 'whiteAsh',
      terms: 'mine',
      boards: [
        ['1620', '140', '57', 2],
        ['63 3/4"', '140', '27', 3],
        ['1620', '6"', '26', 2],
      ],
    })
    await expect(page.getByText(/1619\.3 × 140 × 27 mm/).first()).toBeVisible()
    await expectLooks(page)
  })

  await test.step('mark a nail hole with a finger', async () => {
    await page
      .getByRole('list', { name: /Boards of this piece/ })
      .getByRole('link')
      .last()
      .tap()
    await page
      .getByRole('button', { name: /Nail hole/ })
      .first()
      .tap()
    const face = page.getByRole('application')
    await face.scrollIntoViewIfNeeded()
    const box = (await face.boundingBox())!
    await page.touchscreen.tap(box.x + box.width * 0.25, box.y + box.height / 2)
    await expect(page.getByRole('list', { name: 'Marks' }).getByRole('listitem')).toHaveCount(1)
    await page.getByRole('button', { name: 'Save marks' }).tap()
    await expect(page.getByText('Saved.', { exact: true })).toBeVisible()
    await expectLooks(page)
  })

  const build = await buildWith(page, 'Ash seat', { 'Seats abreast': '1', Wood: 'whiteAsh' })
  await planCutting(page, build)
  await page.getByRole('button', { name: /^Hold / }).tap()
  await expect(page.getByText(/are held$/)).toBeVisible()

  await test.step('tick set-ups off; without the shop the tick is taken back and says so', async () => {
    await page.goto(`${build}/setups`)
    const bench = page.getByRole('region', { name: 'At the bench' })
    const first = bench.getByRole('checkbox').first()
    const target = (await first.boundingBox())!
    expect(target.height).toBeGreaterThanOrEqual(LEAST_TARGET_PX)
    await expectLooks(page)
    await context.setOffline(true)
    await first.tap()
    await expect(page.getByRole('alert').filter({ hasText: 'The shop did not answer.' })).toBeVisible()
    await expect(first).not.toBeChecked()
    await context.setOffline(false)
    await first.tap()
    await expect(first).toBeChecked()
    await expect(page.getByRole('alert').filter({ hasText: 'The shop did not answer.' })).toHaveCount(0)
    await expect(page.getByText(/Ticked off by Noor Halvari/).first()).toBeVisible()
    await page.reload()
    await page.goto(`${build}/setups#setup-1`)
    await expect(bench.getByRole('checkbox').first()).toBeChecked()
  })

  await test.step('record what was really cut: one part failed', async () => {
    await page.goto(`${build}/cutting`)
    await page.getByRole('link', { name: 'Record the cutting' }).first().tap()
    await expectLooks(page)
    const parts = page
      .getByRole('form', { name: 'Record the cutting' })
      .getByRole('checkbox', { name: /^\S+ · / })
    const planned = await parts.count()
    await parts.first().uncheck()
    await page.getByLabel('Note').fill('It split at the end.')
    await page.getByRole('button', { name: 'Record the cutting' }).tap()
    await expect(page.getByRole('heading', { name: 'Cut so far' })).toBeVisible()
    const cut = page.getByRole('list', { name: 'Boards that were cut' })
    await expect(cut).toContainText(planned === 2 ? 'became 1 part' : `became ${planned - 1} part`)
    await expect(cut).toContainText('It split at the end.')
    await expectLooks(page)
  })
  await context.close()
})
