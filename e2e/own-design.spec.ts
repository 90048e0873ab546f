import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { asMember, emailOf, signIn } from './support/people'

const recipe = (page: Page) => page.getByRole('form', { name: 'Recipe of the design' })
const room = (page: Page, name: string) =>
  recipe(page).locator('label').filter({ hasText: name }).first().click()

/** Opens a row of the room that is shown. */
const row = (page: Page, name: string) =>
  recipe(page).locator('summary').filter({ hasText: name }).first().click()

async function copyCrate(page: Page, name: string): Promise<string> {
  await page.goto('/designs')
  await page.getByText('Copy it: Storage crate').click()
  const form = page.getByRole('form', { name: 'Copy Storage crate' })
  await form.getByLabel('What your copy is called').fill(name)
  await form.getByRole('button', { name: 'Copy and change it' }).click()
  await expect(page).toHaveURL(/\/designs\/[0-9a-f-]{36}$/)
  await expect(page.getByRole('img').first()).toBeVisible()
  return page.url()
}

test('a crate of one’s own: copied, its formula changed, built, and a newer version taken @phone', async ({
  page,
  browser,
}) => {
  test.setTimeout(180_000)
  await signIn(page, emailOf('noor'))
  // One database for desktop and phone.
  const crate = `Apple crate, ${test.info().project.name}`
  const design = await copyCrate(page, crate)

  await test.step('every formula says what it is worth', async () => {
    await room(page, 'Parts')
    await row(page, 'Post')
    await expect(recipe(page).getByText('236 mm × 32 mm × 32 mm')).toBeVisible()
    await expectAccessible(page)
    await expectNoSideways(page)
  })

  const length = recipe(page).getByLabel('Length', { exact: true }).first()
  await test.step('a wrong name is said at its field, with the one that was meant', async () => {
    await length.fill('heigth + 40 - thickness')
    await expect(length).toHaveAttribute('aria-invalid', 'true')
    await expect(length).toHaveAccessibleDescription('There is no name «heigth» here. Do you mean «height»?')
    await recipe(page).getByRole('button', { name: 'Save as version 2' }).click()
    await expect(length).toBeFocused()
    await expect(page.getByText('One field needs another look before it can be saved.')).toBeVisible()
    await expectAccessible(page)
  })

  await test.step('so are units', async () => {
    await length.fill('slats')
    await expect(length).toHaveAccessibleDescription(/must be a length in mm; it is a plain number/)
  })

  await test.step('names are offered as they are typed', async () => {
    await length.fill('hei')
    await expect(recipe(page).getByRole('option', { name: /^height/ })).toBeVisible()
    await page.keyboard.press('Enter')
    await expect(length).toHaveValue('height')
  })

  await test.step('undo goes back a step at a time', async () => {
    await recipe(page).getByRole('button', { name: 'Undo' }).click()
    await expect(length).toHaveValue('height - thickness')
  })

  await test.step('saved as a version', async () => {
    await length.fill('height + 40 - thickness')
    await expect(recipe(page).getByText('276 mm × 32 mm × 32 mm')).toBeVisible()
    await recipe(page).getByLabel('What changed').fill('Posts stand up 40 mm')
    await recipe(page).getByRole('button', { name: 'Save as version 2' }).click()
    await expect(page.getByRole('link', { name: 'Version 2' })).toBeVisible()
    await expect(page.getByText('Posts stand up 40 mm')).toBeVisible()
  })

  await test.step('a build is begun from it, and its drawing and list have the new size', async () => {
    await page.getByRole('link', { name: 'Start a build from it' }).click()
    await page.getByLabel('What you call it').fill('Crates for apples')
    await expect(page.getByRole('radio', { name: crate })).toBeChecked()
    await page.getByRole('button', { name: 'Start the build' }).click()
    await expect(page).toHaveURL(/\/builds\/[0-9a-f-]{36}\/design$/)
    await expect(page.getByRole('heading', { level: 1 })).toHaveText(crate)
    await page.locator('#piece').getByText('Parts', { exact: true }).click()
    await expect(page.locator('#piece').getByText('276 mm').first()).toBeVisible()
  })
  const build = page.url()

  await test.step('its strength is worked out as of any other', async () => {
    await page.goto(build.replace(/design$/, 'strength'))
    await expect(page.getByRole('region', { name: 'Verdict' }).getByRole('heading')).toHaveText(/\w/)
  })

  await test.step('a later version changes the build when it is taken, not before', async () => {
    await page.goto(design)
    await room(page, 'Parts')
    await row(page, 'Post')
    await length.fill('height + 60 - thickness')
    await recipe(page).getByRole('button', { name: 'Save as version 3' }).click()
    await expect(page.getByRole('link', { name: 'Version 3' })).toBeVisible()
    await page.goto(build)
    await expect(page.getByText('Version 3 of this design is there')).toBeVisible()
    await page.locator('#piece').getByText('Parts', { exact: true }).click()
    await expect(page.locator('#piece').getByText('276 mm').first()).toBeVisible()
    await page.getByText('What differs').click()
    await expect(page.getByRole('list', { name: 'What differs' })).toContainText('height + 60 - thickness')
    await page.getByRole('button', { name: 'Take the newer version' }).click()
    await expect(page.getByText('Version 3 of this design is there')).toHaveCount(0)
    await page.reload()
    await page.locator('#piece').getByText('Parts', { exact: true }).click()
    await expect(page.locator('#piece').getByText('296 mm').first()).toBeVisible()
  })

  await test.step('nobody else sees it until it is shared', async () => {
    const piet = await asMember(browser, 'piet')
    expect((await piet.page.goto(design))?.status()).toBe(404)
    await page.goto(design)
    await page.getByText('All members').click()
    await page.getByRole('button', { name: 'Keep it so' }).click()
    await expect(page.getByText('That is how it is shared now.')).toBeVisible()
    await piet.page.goto('/designs')
    await expect(piet.page.getByRole('region', { name: 'Shared by others' })).toContainText(crate)
    await piet.page.goto(design)
    await expect(piet.page.getByText('copy it to change it')).toBeVisible()
    await expect(recipe(piet.page).getByRole('button', { name: /^Save/ })).toHaveCount(0)
    await piet.context.close()
  })
})

test('two editors of one design: the second is told, and keeps what was typed', async ({ browser }) => {
  test.setTimeout(120_000)
  const [first, second] = [await asMember(browser, 'noor'), await asMember(browser, 'noor')]
  const design = await copyCrate(first.page, 'Crate of two')
  await second.page.goto(design)
  for (const { page } of [first, second]) {
    await room(page, 'Parts')
    await row(page, 'Post')
  }
  const length = (page: Page) => recipe(page).getByLabel('Length', { exact: true }).first()
  await length(second.page).fill('height + 5 - thickness')
  await length(first.page).fill('height + 11 - thickness')
  await recipe(first.page).getByRole('button', { name: 'Save as version 2' }).click()
  await expect(first.page.getByRole('link', { name: 'Version 2' })).toBeVisible()
  await expect(second.page.getByText('Version 2 was saved meanwhile')).toBeVisible()
  await expect(length(second.page)).toHaveValue('height + 5 - thickness')
  await expect(second.page.getByRole('list', { name: 'What differs' })).toContainText(
    'height + 11 - thickness',
  )
  await recipe(second.page).getByRole('button', { name: 'Save mine over it' }).click()
  await expect(second.page.getByRole('link', { name: 'Version 3' })).toBeVisible()
  for (const { context } of [first, second]) await context.close()
})
