/** What several stories do first, each through the pages as a member would. */
import { expect, type Page } from '@playwright/test'

/** @returns the address of the build, `/builds/…` */
export async function startBuild(page: Page, name: string, shop = ''): Promise<string> {
  await page.goto(`${shop}/builds/new`)
  await page.getByLabel('What you call it').fill(name)
  await page.getByRole('button', { name: 'Start the build' }).click()
  await expect(page).toHaveURL(/\/builds\/[0-9a-f-]{36}\/design/)
  return /\/builds\/[0-9a-f-]{36}/.exec(page.url())![0]
}

export interface LoggedBoards {
  readonly piece: string
  readonly species?: string
  readonly terms?: 'free' | 'ask' | 'mine'
  /** Length, width and thickness as typed, and how many alike. */
  readonly boards: readonly (readonly [length: string, width: string, thickness: string, alike?: number])[]
}

/** Logs a piece and its boards, bare wood and cleared of metal. @returns the numbers chalked on them */
export async function logBoards(page: Page, what: LoggedBoards, shop = ''): Promise<number[]> {
  await page.goto(`${shop}/teardowns/new`)
  await page.getByLabel('What it was').fill(what.piece)
  await page.getByRole('button', { name: 'Go on to its boards' }).click()
  const form = page.getByRole('form', { name: 'Log a board' })
  await form.getByLabel('Species').selectOption(what.species ?? 'redOak')
  await form.getByLabel('Old finish').selectOption('bare')
  await form.getByLabel('Terms').selectOption(what.terms ?? 'free')
  await form.getByLabel('Metal').selectOption('cleared')
  const numbers: number[] = []
  for (const [length, width, thickness, alike = 1] of what.boards) {
    await form.getByLabel('Length', { exact: true }).fill(length)
    await form.getByLabel('Width').fill(width)
    await form.getByLabel('Thickness').fill(thickness)
    await form.getByLabel('How many alike').fill(String(alike))
    await page.keyboard.press('Enter')
    const count = numbers.length + alike
    await expect(
      page.getByRole('heading', { name: count === 1 ? 'One board' : `${count} boards` }),
    ).toBeVisible()
    const chalked = page.getByRole('list', { name: /Boards of this piece/ }).getByRole('link')
    const said = await chalked.evaluateAll((links) => links.map((a) => a.textContent ?? ''))
    numbers.push(...said.slice(0, alike).map((text) => Number(/Board\s*(\d+)/.exec(text)?.[1])))
  }
  return numbers.sort((a, b) => a - b)
}

/** Asks for a cut plan and waits until it is there and final. */
export async function planCutting(page: Page, build: string, shop = ''): Promise<void> {
  await page.goto(`${shop}${build}/cutting`)
  await page.getByText('5 s', { exact: true }).click()
  await page
    .getByRole('button', { name: /^Plan (the cutting|again)$/ })
    .first()
    .click()
  await expect(page.getByRole('heading', { name: 'Result' })).toBeVisible({ timeout: 30_000 })
  await expect(page.getByRole('progressbar')).toBeHidden({ timeout: 30_000 })
}
