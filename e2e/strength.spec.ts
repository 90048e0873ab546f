import { expect, type Page, test } from '@playwright/test'
import { expectAccessible, expectNoSideways } from './support/looks'
import { asMember, emailOf, signIn } from './support/people'
import { buildWith, refresh, startBuild } from './support/work'

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
    await expect(verdict(page).getByRole('heading')).toHaveText('It depends on the wood')
    await expect(verdict(page)).toContainText(
      /Of \d+ woods it holds in these: .*Northern red oak|American beech/,
    )
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
    const said = verdict(page)
    const before = (await said.textContent()) ?? ''
    await page.getByLabel('The parts that bear are picked for').selectOption('clear')
    await expect(said).not.toHaveText(before)
    const share = (text: string) => Number(/bears (\d+) %/.exec(text)?.[1] ?? 'NaN')
    expect(share((await said.textContent()) ?? '')).toBeGreaterThan(share(before))
  })

  await test.step('the same as a document, for the wood and the air that are asked about', async () => {
    const link = page.getByRole('link', { name: 'Report as PDF' })
    await expect(link).toHaveAttribute('href', /grade=clear/)
    const answer = await page.request.get((await link.getAttribute('href')) ?? '')
    expect(answer.status()).toBe(200)
    expect(answer.headers()['content-type']).toBe('application/pdf')
    expect((await answer.body()).subarray(0, 5).toString()).toBe('%PDF-')
    const refused = await page.request.get(`${build}/strength/report.pdf?damp=20`)
    expect(refused.status()).toBe(422)
    expect(await refused.text()).toContain('damper than the dry one')
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

test('a cure is tried in the design before it is saved, and can be put back @phone', async ({ page }) => {
  await signIn(page, emailOf('noor'))
  const build = await buildWith(page, 'A seat of soft wood', { Wood: 'ponderosaPine' })
  await page.goto(`${build}/strength`)
  await expect(verdict(page).getByRole('heading')).toHaveText('A joint would give way')

  const first = page
    .getByRole('list', { name: 'Checks that fail', exact: true })
    .getByRole('listitem')
    .first()
  await first.getByRole('button', { name: /^What would cure it/ }).click()
  const cure = first.getByRole('list', { name: 'Cures' }).getByRole('listitem').first()
  await expect(cure).toContainText(/\d+ mm instead of \d+ mm/, { timeout: 60_000 })
  const [, label, to] = /^(.+?): (\d+) mm instead/.exec((await cure.textContent()) ?? '') ?? []
  await cure.getByRole('link', { name: /^Use this/ }).click()

  const form = page.getByRole('form', { name: 'Numbers of the design' })
  await test.step('it stands in its field, offered and not saved', async () => {
    await expect(page).toHaveURL(/\/design$/)
    await expect(page.getByText('Offered, not saved')).toBeVisible()
    await expect(form.getByText(`${label}: ${to} mm`)).toBeVisible()
    await expect(form.getByText('Not saved yet.')).toBeVisible()
    await refresh(page)
    await expect(page, 'taken once: news of the shop does not offer it again').toHaveURL(/\/design$/)
  })

  await test.step('put back, it is gone, after a reload too', async () => {
    await form.getByRole('button', { name: 'Put back' }).click()
    await expect(page.getByText('Offered, not saved')).toHaveCount(0)
    await page.reload()
    await expect(form.getByText('All saved.')).toBeVisible()
  })

  await test.step('saved, the check passes', async () => {
    await page.goBack()
    await first.getByRole('button', { name: /^What would cure it/ }).click()
    await cure.getByRole('link', { name: /^Use this/ }).click()
    await form.getByRole('button', { name: 'Save' }).click()
    await expect(form.getByText('Saved.')).toBeVisible()
    await page.goto(`${build}/strength`)
    await expect(verdict(page).getByRole('heading')).toHaveText(/^It holds/)
  })
})

test('who may not change a design is offered no change, and an address offers only what it allows', async ({
  page,
  browser,
}) => {
  await signIn(page, emailOf('noor'))
  const build = await startBuild(page, 'A seat to look at')
  await page.goto(`${build}/design?try=rake:80&try=wheels:4&try=seatWidth:420`)
  await expect(page.getByText('Seat width: 420 mm', { exact: false })).toBeVisible()
  await expect(page.getByText('Offered, not saved')).toBeVisible()
  await expect(page.getByText('80°')).toHaveCount(0)

  const { page: other, context } = await asMember(browser, 'yusra')
  await other.goto(`${build}/design?try=seatWidth:420`)
  await expect(other.getByText('to change.')).toBeVisible()
  await expect(other.getByText('Offered, not saved')).toHaveCount(0)
  await other.goto(`${build}/strength`)
  await expect(verdict(other)).toBeVisible()
  await expect(other.getByRole('list', { name: 'Woods', exact: true })).toBeVisible()
  await expect(other.getByRole('link', { name: /^Use this/ })).toHaveCount(0)
  await context.close()

  await test.step('what hangs is judged down to its fixings; the wall is for others to say', async () => {
    const shelf = await startBuild(page, 'A shelf on a wall', '', 'Wall shelf')
    await page.goto(`${shelf}/strength`)
    await expect(verdict(page)).toBeVisible()
    await expect(page.getByRole('list', { name: 'Checks that fail', exact: true })).toContainText(
      /\d+ N straight out and \d+ N along the wall at once.+What a wall bears is not known here/,
    )
    await expect(page.getByRole('heading', { name: 'Tipping' })).toHaveCount(0)
    await expect(page.getByText('This advises; it certifies nothing.')).toBeVisible()
  })
})
