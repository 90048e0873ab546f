/**
 * The screws of a worn-out piece: counted into a tin, found by a build that wants that size, taken, put back; a tin
 * kept for its owner is seen and not taken. Each form with what must not be typed into it.
 */
import { expect, type Locator, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { asMember, emailOf, signIn } from './support/people'
import { startBuild } from './support/work'

async function refuses(form: Locator, label: string, typed: string, button: string, says: RegExp) {
  const field = form.getByLabel(label, { exact: true })
  await field.fill(typed)
  await form.getByRole('button', { name: button }).click()
  await expect(field).toHaveAccessibleDescription(says)
  await expect(field).toHaveValue(typed)
}

test('screws of a teardown: logged, taken for a build, put back, counted @phone', async ({
  page,
  browser,
}) => {
  await signIn(page, emailOf('noor'))
  await page.goto('/teardowns')
  await page.getByRole('link', { name: /^Chapel pew/ }).click()
  const tin = `Shelf pin, 5 mm, ${Date.now()}`

  await test.step('one line a tin', async () => {
    const form = page.getByRole('form', { name: 'Log hardware' })
    await form.getByLabel('What', { exact: true }).selectOption('Something else')
    await form.getByLabel('Size').fill(tin)
    await refuses(form, 'How many', 'a handful', 'Log them', /whole number/)
    await form.getByLabel('How many').fill('24')
    await form.getByLabel('Terms').selectOption('Mine')
    await form.getByRole('button', { name: 'Log them' }).click()
    await expect(form.getByText('Logged.')).toBeVisible()
    await expect(form.getByLabel('Size')).toBeFocused()
    const row = page.getByRole('listitem').filter({ hasText: tin })
    await expect(row).toContainText('24 pieces')
    await row.getByText('Count anew').click()
    const change = row.getByRole('form', { name: `Change ${tin}` })
    await refuses(change, 'How many there are', '-3', 'Save', /from 0|number/)
    await change.getByLabel('How many there are').fill('20')
    await change.getByRole('button', { name: 'Save' }).click()
    await expect(row).toContainText('20 pieces')
    await expectAccessible(page)
    await expectNoSideways(page)
  })

  await test.step('a build finds its size on the shelf', async () => {
    const build = await startBuild(page, 'A seat with old screws')
    await page.goto(build)
    const need = page.getByRole('list', { name: 'Hardware that it wants' }).getByRole('listitem').first()
    await need.getByRole('button', { name: /^Take \d+ of \d+/ }).click()
    await expect(need).toContainText(/\d+ taken from the shelf/)
    await need.getByText('Put some back').click()
    const back = need.getByRole('form', { name: /^Put back/ })
    const taken = await back.getByLabel('How many').inputValue()
    await refuses(back, 'How many', '999', 'Put them back', /More than were taken/)
    await back.getByLabel('How many').fill(taken)
    await back.getByRole('button', { name: 'Put them back' }).click()
    await expect(need.getByRole('button', { name: /^Take \d+ of \d+/ })).toBeVisible()
    await expectAccessible(page)
    await expectNoSideways(page)
  })

  await test.step('another member sees the shelf; what is kept is not theirs to take', async () => {
    const { page: other, context } = await asMember(browser, 'piet')
    await other.goto('/hardware')
    const kept = other.getByRole('listitem').filter({ hasText: tin })
    await expect(kept).toContainText('20 pieces')
    await expect(kept.getByText('Take some')).toHaveCount(0)
    const free = other.getByRole('listitem').filter({ hasText: 'Brass butt' })
    await free.getByText('Take some').click()
    const form = free.getByRole('form', { name: /^Take some/ })
    await refuses(form, 'How many', '5000', 'Take them', /not that many/)
    await form.getByLabel('How many').fill('1')
    await form.getByRole('button', { name: 'Take them' }).click()
    await expect(free.getByText(/\d+ hinges/)).toBeVisible()
    await context.close()
  })
})
