import AxeBuilder from '@axe-core/playwright'
import { expect, type Page } from '@playwright/test'

const RULES = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa']

/**
 * No serious fault by the rules of WCAG 2.1 A and AA, as axe-core judges them. Judged again where there is one: news of
 * the shop may be making the page anew just then, without its title for a moment. A fault that stays is a fault.
 */
export async function expectAccessible(page: Page): Promise<void> {
  await expect(async () => {
    const { violations } = await new AxeBuilder({ page }).withTags(RULES).analyze()
    const bad = violations
      .filter((v) => v.impact === 'serious' || v.impact === 'critical')
      .map((v) => `${v.id}: ${v.nodes.map((n) => n.target.join(' ')).join(' | ')}`)
    expect(bad, page.url()).toEqual([])
  }).toPass({ timeout: 12_000 })
}

/** Nothing sticks out to the right of the screen. */
export async function expectNoSideways(page: Page): Promise<void> {
  const over = await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth)
  expect(over, `${page.url()} is wider than the screen`).toBeLessThanOrEqual(0)
}
