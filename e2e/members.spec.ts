/**
 * Coming in, changing a password, being kept out, leaving: the links, sessions and limits of a shop's members.
 * Everyone here is a newcomer of their own, so that no other story is locked out.
 */
import { expect, type Page, test } from '@playwright/test'
import { asMember, invite, join, type Newcomer, signIn } from './support/people'

const newcomer = (name: string, role?: Newcomer['role']): Newcomer => ({
  name,
  email: `${name.toLowerCase().replace(/\W+/g, '.')}.${Date.now()}@newcomers.example`,
  password: 'three spoons of linseed',
  role,
})

async function trySigningIn(page: Page, email: string, password: string): Promise<void> {
  await page.goto('/sign-in')
  await page.getByLabel('E-mail').fill(email)
  await page.getByLabel('Password', { exact: true }).fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
}

const answerOf = (page: Page) => page.getByRole('form', { name: 'Sign in' }).getByRole('alert')
const WRONG = /^Stop: E-mail and password do not go together\.\s*$/

test('a one-time link is shown once, lets one person in, and then says that it is spent', async ({
  browser,
}) => {
  const admin = await asMember(browser, 'signe')
  const who = newcomer('Tove Lindqvist')
  const link = await invite(admin.page, who)
  await admin.page.reload()
  await expect(admin.page.getByLabel('One-time link')).toHaveCount(0)
  expect(await admin.page.content(), 'the link is told once').not.toContain(link.split('/join/')[1])
  const open = admin.page.getByRole('list', { name: 'Open links' })
  await expect(open.getByText(who.email)).toBeVisible()

  const tove = await join(browser, link, who)
  await expect(tove.page.getByText('Where to begin')).toBeVisible()
  // The admin's page follows without being reloaded.
  await expect(open.getByText(who.email)).toHaveCount(0)
  await expect(admin.page.getByRole('list', { name: 'Members' }).getByText(who.name)).toBeVisible()

  const stranger = await (await browser.newContext()).newPage()
  await stranger.goto(link)
  await expect(stranger.getByRole('heading', { name: 'This link does not work' })).toBeVisible()
  await expect(
    stranger.getByText(/has been used, withdrawn or has run out\. Ask for a new one/),
  ).toBeVisible()
  await expect(stranger.getByLabel('A password')).toHaveCount(0)
  await stranger.context().close()
  await tove.context.close()
  await admin.context.close()
})

test('of two who open one link at once, one comes in and the other is told', async ({ browser }) => {
  const admin = await asMember(browser, 'signe')
  const who = newcomer('Ida Bruun')
  const link = await invite(admin.page, who)
  const pages = await Promise.all([1, 2].map(async () => (await browser.newContext()).newPage()))
  for (const page of pages) {
    await page.goto(link)
    await page.getByLabel('Your name').fill(who.name)
    await page.getByLabel('A password').fill(who.password)
  }
  await Promise.all(pages.map((page) => page.getByRole('button', { name: 'Join the shop' }).click()))
  const isIn = (page: Page) => page.getByText('Where to begin')
  const isTold = (page: Page) => page.getByRole('alert').getByText(/has been used/)
  for (const page of pages) await expect(isIn(page).or(isTold(page))).toBeVisible()
  const inside = await Promise.all(pages.map((page) => isIn(page).count()))
  expect(inside.sort()).toEqual([0, 1])
  for (const page of pages) await page.context().close()
  await admin.context.close()
})

test('a withdrawn link does not work any more', async ({ browser, page }) => {
  const admin = await asMember(browser, 'signe')
  const who = newcomer('Withdrawn Guest')
  const link = await invite(admin.page, who)
  const row = admin.page.getByRole('list', { name: 'Open links' }).getByRole('listitem')
  await row.filter({ hasText: who.email }).getByRole('button', { name: 'Withdraw' }).click()
  await expect(row.filter({ hasText: who.email })).toHaveCount(0)
  await page.goto(link)
  await expect(page.getByRole('heading', { name: 'This link does not work' })).toBeVisible()
  await admin.context.close()
})

test('a new password ends every other session at once', async ({ browser }) => {
  const admin = await asMember(browser, 'signe')
  const who = newcomer('Rasmus Falk')
  const here = await join(browser, await invite(admin.page, who), who)
  const phone = await (await browser.newContext()).newPage()
  await signIn(phone, who.email, who.password)

  await here.page.goto('/account')
  const form = here.page.getByRole('form', { name: 'Change password' })
  const current = form.getByLabel('Current password')
  await current.fill('not my password at all')
  await form.getByLabel('New password').fill('walnut, wax and weather')
  let answer = ''
  await here.page.route('**/account', async (route) => {
    const response = await route.fetch()
    answer = await response.text()
    await route.fulfill({ response, body: answer })
  })
  await form.getByRole('button', { name: 'Change password' }).click()
  await expect(current).toHaveAttribute('aria-invalid', 'true')
  await expect(current).toBeFocused()
  await expect(current).toHaveAccessibleDescription(/That is not your current password/)
  expect(answer).toContain('That is not your current password')
  expect(answer, 'no password comes back').not.toContain('not my password at all')
  await here.page.unroute('**/account')

  await current.fill(who.password)
  await form.getByLabel('New password').fill('walnut, wax and weather')
  await form.getByRole('button', { name: 'Change password' }).click()
  await expect(
    here.page.getByText(/Your password is changed\. Everywhere else you are signed out/),
  ).toBeVisible()
  await here.page.goto('/pool')
  await expect(here.page.getByRole('heading', { level: 1, name: 'The pool' })).toBeVisible()

  await phone.getByRole('link', { name: 'Builds' }).click()
  await expect(phone).toHaveURL(/\/sign-in/)
  await trySigningIn(phone, who.email, who.password)
  await expect(answerOf(phone)).toHaveText(WRONG)
  await signIn(phone, who.email, 'walnut, wax and weather')
  for (const each of [phone.context(), here.context, admin.context]) await each.close()
})

test('a wrong password gets one sentence, too many get «wait», and nobody else is locked out', async ({
  browser,
  page,
}) => {
  const admin = await asMember(browser, 'signe')
  const who = newcomer('Locked Guest')
  await (await join(browser, await invite(admin.page, who), who)).context.close()
  const answer = answerOf(page)
  for (let i = 0; i < 8; i++) {
    await trySigningIn(page, who.email, `guess number ${i}`)
    await expect(answer).toHaveText(WRONG)
    await expect(page.getByLabel('E-mail')).toHaveValue(who.email)
  }
  // Even the right one, so that a guesser learns nothing.
  await trySigningIn(page, who.email, who.password)
  await expect(answer).toHaveText(/Too many tries\. Wait a few minutes and try again\./)
  // An address that nobody has is answered in the same words.
  await trySigningIn(page, `nobody.${Date.now()}@newcomers.example`, who.password)
  await expect(answer).toHaveText(WRONG)
  const noor = await asMember(browser, 'noor')
  await noor.context.close()
  await admin.context.close()
})

test('whoever is removed is out on the next click', async ({ browser }) => {
  const admin = await asMember(browser, 'signe')
  const who = newcomer('Leaving Larsen')
  const larsen = await join(browser, await invite(admin.page, who), who)
  await larsen.page.goto('/pool')
  await admin.page.goto('/members')
  const row = admin.page
    .getByRole('list', { name: 'Members' })
    .getByRole('listitem')
    .filter({ hasText: who.name })
  await row.getByText(who.name).click()
  await row.getByRole('button', { name: 'Remove from the shop' }).click()
  const question = admin.page.getByRole('alertdialog', { name: `Remove ${who.name}?` })
  await expect(question).toContainText('is signed out everywhere at once')
  await question.getByRole('button', { name: 'Remove', exact: true }).click()
  await expect(question).toHaveCount(0)
  await expect(row).toHaveCount(0)
  await larsen.page.getByRole('link', { name: 'Teardowns' }).click()
  await expect(larsen.page).toHaveURL(/\/sign-in/)
  await trySigningIn(larsen.page, who.email, who.password)
  await expect(answerOf(larsen.page)).toHaveText(WRONG)
  await larsen.context.close()
  await admin.context.close()
})

for (const [role, pages] of [
  ['Member', ['/members', '/shop', '/stations/new']],
  ['Keeper', ['/members', '/shop', '/stations/new']],
] as const)
  test(`a ${role.toLowerCase()} does not find the pages of an admin`, async ({ browser }) => {
    const seat = await asMember(browser, role === 'Member' ? 'piet' : 'bram')
    await seat.page
      .getByText(role === 'Member' ? 'Piet Osei' : 'Bram Ottoway')
      .first()
      .click()
    await expect(seat.page.getByRole('link', { name: 'Your account' })).toBeVisible()
    for (const name of ['Members', 'Shop'])
      await expect(seat.page.getByRole('link', { name, exact: true })).toHaveCount(0)
    for (const path of pages) {
      const response = await seat.page.goto(path)
      expect(response?.status(), path).toBe(404)
      await expect(seat.page.getByRole('link', { name: 'Go to Today' })).toBeVisible()
    }
    await seat.context.close()
  })
