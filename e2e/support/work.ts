/** What several stories do first, each through the pages as a member would. */
import { expect, type Page } from '@playwright/test'

/** @param design its name; absent: the first. @returns the address of the build, `/builds/…` */
export async function startBuild(page: Page, name: string, shop = '', design?: string): Promise<string> {
  await page.goto(`${shop}/builds/new`)
  await page.getByLabel('What you call it').fill(name)
  if (design !== undefined) await page.getByRole('radio', { name: design }).check({ force: true })
  await page.getByRole('button', { name: 'Start the build' }).click()
  await expect(page).toHaveURL(/\/builds\/[0-9a-f-]{36}\/design/)
  return /\/builds\/[0-9a-f-]{36}/.exec(page.url())![0]
}

/** Types numbers of a design, opening the groups that they stand in. */
export async function typeNumbers(page: Page, numbers: Readonly<Record<string, string>>): Promise<void> {
  const form = page.getByRole('form', { name: 'Numbers of the design' })
  for (const [label, typed] of Object.entries(numbers)) {
    const field = form.getByLabel(label, { exact: true })
    const group = form.locator('details').filter({ has: page.getByLabel(label, { exact: true }) })
    if ((await group.getAttribute('open')) === null) await group.locator('summary').click()
    if (await field.evaluate((f) => f instanceof HTMLSelectElement)) await field.selectOption(typed)
    else await field.fill(typed)
  }
}

/** A build with these numbers of its design. @returns its address */
export async function buildWith(
  page: Page,
  name: string,
  numbers: Readonly<Record<string, string>>,
  shop = '',
): Promise<string> {
  const build = await startBuild(page, name, shop)
  await typeNumbers(page, numbers)
  await page
    .getByRole('form', { name: 'Numbers of the design' })
    .getByRole('button', { name: 'Save' })
    .click()
  await expect(page.getByText(/^(Saved|All saved)\.$/)).toBeVisible()
  return build
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
    const said = await chalked.evaluateAll((links) =>
      links.map((a) => a.firstElementChild?.textContent ?? ''),
    )
    numbers.push(...said.slice(0, alike).map((text) => Number(/Board\s*(\d+)/.exec(text)?.[1])))
  }
  return numbers.sort((a, b) => a - b)
}

/** Asks for a cut plan and waits until it is there and final. */
export async function planCutting(page: Page, build: string, shop = ''): Promise<void> {
  await page.goto(`${shop}${build}/cutting`)
  await planHere(page)
}

/** The same on a cutting page that stands open, with what was chosen on it. */
export async function planHere(page: Page): Promise<void> {
  await page.getByText('5 s', { exact: true }).click()
  await page
    .getByRole('button', { name: /^Plan (the cutting|again)$/ })
    .first()
    .click()
  // A former plan may stand there already; a plan that is proven at once may never be seen under way.
  const underWay = page.getByRole('progressbar')
  await underWay.waitFor({ timeout: 3_000 }).catch(() => {})
  await expect(page.getByRole('heading', { name: 'Result' })).toBeVisible({ timeout: 30_000 })
  await expect(underWay).toBeHidden({ timeout: 30_000 })
}

/** Asks for the page anew in place, as news of the shop does. */
export const askAnew = (page: Page): Promise<void> =>
  page.evaluate(() => (window as unknown as { next: { router: { refresh(): void } } }).next.router.refresh())

/** The same, and waits for it: the router writes the address when it is done. */
export async function refresh(page: Page): Promise<void> {
  const done = page.waitForEvent('framenavigated')
  await askAnew(page)
  await done
}
