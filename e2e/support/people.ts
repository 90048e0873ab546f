import { type Browser, type BrowserContext, expect, type Page } from '@playwright/test'

/** The demo shop's members; their password is printed by `npm start` too. */
export type Who = 'signe' | 'bram' | 'yusra' | 'noor' | 'piet'
export const DEMO_PASSWORD = 'shellac-and-shavings'
export const emailOf = (who: Who) => `${who}@gantry.example`

/** The one way in. */
export async function signIn(page: Page, email: string, password = DEMO_PASSWORD): Promise<void> {
  await page.goto('/sign-in')
  await page.getByLabel('E-mail').fill(email)
  await page.getByLabel('Password', { exact: true }).fill(password)
  await page.getByRole('button', { name: 'Sign in' }).click()
  await expect(page).not.toHaveURL(/sign-in/)
}

/** A browser of their own, signed in. */
export async function asMember(browser: Browser, who: Who): Promise<{ page: Page; context: BrowserContext }> {
  const context = await browser.newContext()
  const page = await context.newPage()
  await signIn(page, emailOf(who))
  return { page, context }
}
