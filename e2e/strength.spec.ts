import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { emailOf, signIn } from './support/people'
import { startBuild } from './support/work'

/** Of the verdict, once it is worked out. */
const verdict = (page: Page) => page.getByRole('region', { name: 'Verdict' })

test('before the first cut: will it hold, where does it hurt, what would cure it @phone', async ({
  page,
}) => {
  await signIn(page, emailOf('noor'))
  const build = await startBuild(page, 'A seat to be sure of')
  await page.goto(build)
  await page.getByRole('navigation', { name: 'This build' }).getByRole('link', { name: 'Strength' }).click()
  await expect(page).toHaveURL(/\/strength$/)

  await test.step('the caution stands there, whatever the answer', async () => {
    await expect(page.getByText('This advises; it certifies nothing.')).toBeVisible()
  })

  await test.step('the verdict comes first, with the governing check and a drawing of where', async () => {
    await expect(verdict(page).getByRole('heading')).toHaveText('A joint would give way')
    await expect(verdict(page)).toContainText(/bears \d+ % of what is asked of it/)
    await expect(verdict(page).getByRole('img', { name: /marked/ })).toBeVisible()
    await expect(verdict(page)).toContainText(/drawn \d+ times larger/)
    await expect(page.getByText('No one wood is asked for')).toBeVisible()
  })

  const failing = page.getByRole('list', { name: 'Checks that fail', exact: true })
  await test.step('every check says what is asked, what it bears, and how sure its source is', async () => {
    const first = failing.getByRole('listitem').first()
    await expect(first).toContainText(/MPa where .+ MPa is allowed/)
    await expect(first).toContainText('from memory, not read again')
    await expect(page.getByRole('list', { name: 'Tipping' }).getByRole('listitem').first()).toContainText(
      'EN 1022',
    )
    await expect(page.getByRole('heading', { name: 'Ways to join it' })).toBeVisible()
    await expect(page.getByRole('table')).toContainText(/\d\.\d mm/)
    await expectAccessible(page)
    await expectNoSideways(page)
  })

  await test.step('looking for a cure can be stopped', async () => {
    const first = failing.getByRole('listitem').first()
    await first.getByRole('button', { name: /^What would cure it/ }).click()
    await first.getByRole('button', { name: 'Stop' }).click()
    await expect(first.getByText('Stopped. Nothing was changed.')).toBeVisible()
    await expect(first.getByRole('progressbar')).toHaveCount(0)
  })

  await test.step('better wood gives a better answer, after a stop too', async () => {
    const said = verdict(page).getByRole('status')
    const before = (await said.textContent()) ?? ''
    await page.getByLabel('The parts that bear are picked for').selectOption('clear')
    await expect(said).not.toHaveText(before)
    const share = (text: string) => Number(/bears (\d+) %/.exec(text)?.[1] ?? 'NaN')
    expect(share((await said.textContent()) ?? '')).toBeGreaterThan(share(before))
  })

  await test.step('a year that cannot be is refused beside its field', async () => {
    await page.getByLabel('Dampest air of the year').fill('20')
    await expect(page.getByText('The damp end of the year is damper than the dry one.')).toBeVisible()
    await page.getByLabel('Dampest air of the year').fill('75')
    await expect(page.getByText('The damp end of the year is damper than the dry one.')).toHaveCount(0)
  })

  await test.step('a range instead of one number', async () => {
    await page.getByRole('button', { name: 'Draw 2000 such pieces' }).click()
    await expect(page.getByText(/Of 2000 such pieces/)).toBeVisible()
    await expect(page.getByText('Drawn with the seed 1')).toBeVisible()
    await expectAccessible(page)
  })
})
