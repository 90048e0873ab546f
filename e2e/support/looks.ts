import AxeBuilder from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

/** No serious fault by the rules of WCAG 2.1 A and AA, as axe-core judges them. */
export async function expectAccessible(page: Page): Promise<void> {
  // News of the shop may be making the page anew: its head comes last.
  await expect(page).toHaveTitle(/\S/)
  const { violations } = await new AxeBuilder({ page })
    .withTags(['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa'])
    .analyze()
  const bad = violations
    .filter((v) => v.impact === 'serious' || v.impact === 'critical')
    .map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`)
  expect(bad, page.url()).toEqual([])
}

/** Nothing sticks out to the right of the screen. */
export async function expectNoSideways(page: Page): Promise<void> {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
  expect(over, `${page.url()} is wider than the screen`).toBeLessThanOrEqual(0)
}
