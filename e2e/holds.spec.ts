/**
 * Boards reserved for a build: of two who want the same one wins and the other is told which, by whom, until when,
 * and plans around it; boards that are ask-first are asked for, answered with one tap, and seen at once by who asked.
 * Every story plans with boards of its own, so that it never waits for another's: a species that nobody else has.
 */
import { expect, type Page, test } from '@playwright/test'
import { ask } from './support/database'
import { asMember } from './support/people'
import { buildWith, logBoards, planCutting } from './support/work'

/** Wood for one seat of the design's own numbers. */
const ONE_SEAT = [
  ['1620', '140', '57', 2],
  ['1620', '140', '27', 3],
  ['1620', '152', '26', 2],
] as const
const TWO_SEATS = ONE_SEAT.map(([l, w, t, n]) => [l, w, t, n * 2] as const)

/** A build of one seat that takes only one species. @returns its address */
const seatOf = (page: Page, name: string, species: string) =>
  buildWith(page, name, { 'Seats abreast': '1', Wood: species })

/** Gives the build up, so that its boards are free again for the other stories. */
async function giveUp(page: Page, build: string): Promise<void> {
  await page.goto(build)
  await page.getByRole('button', { name: 'Give it up' }).click()
  await page.getByRole('alertdialog').getByRole('button', { name: 'Give it up' }).click()
  await expect(page.getByRole('button', { name: 'Take the build up again' })).toBeVisible()
}

const article = (page: Page, board: number) =>
  page.getByRole('article', { name: `Board ${board}`, exact: true })

async function plannedBoards(page: Page): Promise<number[]> {
  const names = await page
    .getByRole('article')
    .evaluateAll((all) => all.map((a) => a.getAttribute('aria-label')))
  return names.map((name) => Number(name?.replace('Board ', ''))).sort((a, b) => a - b)
}

test('of two who hold the same boards at once one wins; the other is told and plans around them', async ({
  browser,
}) => {
  test.setTimeout(200_000)
  const [noor, piet] = [await asMember(browser, 'noor'), await asMember(browser, 'piet')]
  const makers = [
    { ...noor, name: 'Noor Halvari', of: 'Walnut seat of Noor', build: '' },
    { ...piet, name: 'Piet Osei', of: 'Walnut seat of Piet', build: '' },
  ]
  const free = await logBoards(noor.page, {
    piece: 'Walnut counter',
    species: 'blackWalnut',
    boards: TWO_SEATS,
  })
  for (const maker of makers) {
    maker.build = await seatOf(maker.page, maker.of, 'blackWalnut')
    await planCutting(maker.page, maker.build)
    await expect(maker.page.getByText(/^All .*parts/i).first()).toBeVisible()
  }
  const wanted = await plannedBoards(makers[0].page)
  expect(wanted.length).toBeGreaterThan(0)
  const both = (await plannedBoards(makers[1].page)).filter((n) => wanted.includes(n))
  expect(both.length, 'they want some of the same boards').toBeGreaterThan(0)
  expect(free).toEqual(expect.arrayContaining(wanted))

  await Promise.all(makers.map(({ page }) => page.getByRole('button', { name: /^Hold / }).click()))
  const won = (page: Page) => page.getByText(/are held$|^The board is held$/)
  const lost = (page: Page) => page.getByRole('alert').filter({ hasText: 'held by' })
  for (const { page } of makers) await expect(won(page).or(lost(page)).first()).toBeVisible()
  const wins = await Promise.all(makers.map(({ page }) => won(page).count()))
  expect([...wins].sort(), 'exactly one has them').toEqual([0, 1])
  const winner = makers[wins.indexOf(1)]
  const loser = makers[wins.indexOf(0)]
  const held = await plannedBoards(winner.page)

  await test.step('told which boards, by whom, until when, and what to do', async () => {
    const told = (await lost(loser.page).textContent()) ?? ''
    expect(told).toContain('Some of these boards are held by someone else.')
    for (const board of both)
      expect(told).toMatch(
        new RegExp(
          `Board ${board} is held by ${winner.name} for «${winner.of}» until \\w{3} \\d+ \\w+.*\\d\\d:\\d\\d`,
        ),
      )
    for (const board of both)
      await expect(
        article(loser.page, board).getByText(new RegExp(`Held by ${winner.name} until`)),
      ).toBeVisible()
    await expect(loser.page.getByText('This plan is out of date')).toBeVisible()
    await expect(loser.page.getByText(/Plan again before you hold or cut anything/)).toBeVisible()
    const rows = await ask(
      `select 1 from "Hold" h join "Build" b on b."id" = h."buildId" where b."name" = $1 and h."status" = 'live'`,
      [loser.of],
    )
    expect(rows, 'all or none').toHaveLength(0)
  })

  await test.step('plans around them and holds others', async () => {
    await planCutting(loser.page, loser.build)
    await expect(loser.page.getByText(/^All .*parts/i).first()).toBeVisible()
    const around = await plannedBoards(loser.page)
    expect(around.filter((n) => held.includes(n))).toEqual([])
    await loser.page.getByRole('button', { name: /^Hold / }).click()
    await expect(won(loser.page)).toBeVisible()
  })
  for (const { page, build, context } of makers) {
    await giveUp(page, build)
    await context.close()
  }
})

test('ask-first boards: one tap of their owner, seen at once; a no; and a request that runs out', async ({
  browser,
}) => {
  test.setTimeout(200_000)
  const [noor, piet] = [await asMember(browser, 'noor'), await asMember(browser, 'piet')]
  const maker = noor.page
  await logBoards(piet.page, {
    piece: 'Cherry cabinet',
    species: 'blackCherry',
    terms: 'ask',
    boards: ONE_SEAT,
  })
  await piet.page.goto('/')
  const build = await seatOf(maker, 'Cherry seat', 'blackCherry')
  await planCutting(maker, build)
  const boards = await plannedBoards(maker)
  expect(boards.length).toBeGreaterThanOrEqual(3)
  const [granted, refused, lapsed] = boards
  await expect(maker.getByText(/Piet Osei will be asked first/)).toBeVisible()
  await maker.getByRole('button', { name: /^Hold / }).click()
  await expect(maker.getByText(/asked for; the owner has not answered/)).toBeVisible()
  await expect(article(maker, granted).getByText(/^Asked for, until/)).toBeVisible()
  await expect(article(maker, granted).getByRole('link', { name: 'Record the cutting' })).toHaveCount(0)

  const requests = piet.page.getByRole('list', { name: 'Requests to you' }).getByRole('listitem')
  const request = (board: number) =>
    requests.filter({ has: piet.page.getByRole('link', { name: `board ${board}`, exact: true }) })

  await test.step('they stand on the owner’s Today, which was open all the time', async () => {
    for (const board of boards) await expect(request(board)).toBeVisible()
    await expect(request(granted)).toContainText('Noor Halvari asks for your')
    await expect(request(granted)).toContainText('Cherry seat')
    await expect(request(granted)).toContainText(/The request runs out/)
  })

  await test.step('one tap, and the maker’s page says held without a reload', async () => {
    await maker.evaluate(() => Object.assign(window, { neverReloaded: true }))
    await request(granted).getByRole('button', { name: 'Yes, take it' }).click()
    await expect(request(granted)).toHaveCount(0)
    await expect(article(maker, granted).getByText(/^Held until/)).toBeVisible()
    await expect(article(maker, granted).getByRole('link', { name: 'Record the cutting' })).toBeVisible()
    await request(refused).getByRole('button', { name: 'No', exact: true }).click()
    await expect(request(refused)).toHaveCount(0)
    await expect(article(maker, refused).getByText('Not held', { exact: true })).toBeVisible()
    expect(await maker.evaluate(() => 'neverReloaded' in window)).toBe(true)
  })

  await test.step('a request that nobody answers runs out by itself', async () => {
    await ask(
      `update "Hold" set "createdAt" = "createdAt" - interval '400 days', "expiresAt" = now() - interval '1 second'
       where "status" = 'requested' and "boardId" = (select "id" from "Board" where "number" = $1)`,
      [lapsed],
    )
    await expect(article(maker, lapsed).getByText('Not held', { exact: true })).toBeVisible({
      timeout: 30_000,
    })
    await expect(request(lapsed)).toHaveCount(0)
  })

  await test.step('the maker reads it all on Today, the board keeps it in its history', async () => {
    await maker.goto('/')
    const heard = maker.getByRole('list', { name: 'Heard lately' }).getByRole('listitem')
    for (const [board, word] of [
      [granted, 'Yes'],
      [refused, 'No'],
      [lapsed, 'Ran out'],
    ] as const)
      await expect(
        heard
          .filter({ has: maker.getByRole('link', { name: `Board ${board}`, exact: true }) })
          .getByText(word, { exact: true }),
      ).toBeVisible()
    await maker.goto(build)
    await expect(maker.getByText(/held for it/i)).toBeVisible()
  })
  await giveUp(maker, build)
  await noor.context.close()
  await piet.context.close()
})
