import { type Browser, type BrowserContext, expect, type Page } from '@playwright/test'

/** The demo shop's members; their password is printed by `npm start` too. */
export type Who = 'signe' | 'bram' | 'yusra' | 'noor' | 'piet'
export const DEMO_PASSWORD = 'shellac-and-shavings'
export const emailOf = (who: Who) => `${who}@gantry.example`

export interface Seat {
  readonly page: Page
  readonly context: BrowserContext
}

/** The one way in. */
export async function signIn(page: Page, email: string, password = DEMO_PASSWORD): Promise<void> {
  await page.goto('/sign-in')
  await page.getByLabel('E-mail').fill(email)
  await page.getByLabel('Password', { exact: true }).fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await expect(page).not.toHaveURL(/sign-in/)
}

/** A browser of their own, signed in. */
export async function asMember(browser: Browser, who: Who, look: { viewport?: Size } = {}): Promise<Seat> {
  const context = await browser.newContext(look)
  const page = await context.newPage()
  await signIn(page, emailOf(who))
  return { page, context }
}

interface Size {
  readonly width: number
  readonly height: number
}

export interface Newcomer {
  readonly name: string
  readonly email: string
  readonly password: string
  readonly role?: 'Member' | 'Keeper' | 'Admin'
}

/** An admin makes a one-time link for them. @returns the link */
export async function invite(admin: Page, who: Newcomer): Promise<string> {
  await admin.goto('/members')
  const form = admin.getByRole('form', { name: 'Invite someone' })
  await form.getByLabel('Their e-mail').fill(who.email)
  await form.getByLabel('Role').selectOption({ label: who.role ?? 'Member' })
  await form.getByRole('button', { name: 'Make the link' }).click()
  const link = admin.getByLabel('One-time link')
  await expect(link).toHaveValue(/\/join\//)
  return link.inputValue()
}

/** They open the link in a browser of their own and join. */
export async function join(browser: Browser, link: string, who: Newcomer): Promise<Seat> {
  const context = await browser.newContext()
  const page = await context.newPage()
  await page.goto(link)
  await page.getByLabel('Your name').fill(who.name)
  await page.getByLabel('A password').fill(who.password)
  await page.getByRole('button', { name: 'Join the shop' }).click()
  await expect(page).toHaveURL('/')
  return { page, context }
}
