/**
 * kill -9 in the middle of everything: a hold whose first board is written and whose second is not, a booking that is
 * about to be written, a cut plan that is being worked out. Once with PostgreSQL left running without its starter,
 * once with PostgreSQL killed too. What a page had confirmed is there afterwards, nothing is half done, the pages that
 * were open can simply try again, and the plan goes on.
 */
import { type Browser, expect, type Page, test } from '@playwright/test'
import { databaseProcess } from '../lib/start/database.mjs'
import { ask, block, waiting } from './support/database'
import { emailOf, signIn, type Who } from './support/people'
import { type OwnShop, openShop, throwAway } from './support/server'
import { buildWith, planCutting } from './support/work'

const OWN = { beside: 6, demo: true } as const
/** From the command to an open shop on data that is there: measured at 3 to 4 s, 12 with eight others on two cores. */
const SECOND_START_MS = 30_000

async function seat(browser: Browser, shop: OwnShop, who: Who): Promise<Page> {
  const page = await (await browser.newContext({ baseURL: shop.url })).newPage()
  await signIn(page, emailOf(who))
  return page
}

async function fillBooking(page: Page, station: string, from: string): Promise<void> {
  await page.goto('/stations')
  await page.getByRole('link', { name: new RegExp(`^${station}`) }).click()
  const form = page.getByRole('form', { name: 'Book this station' })
  await form.getByLabel('Day').fill(new Date(Date.now() + 9 * 86_400_000).toISOString().slice(0, 10))
  await form.getByLabel('From').selectOption(from)
}

const bookIt = (page: Page) => page.getByRole('button', { name: 'Book it' }).click()
const holdThem = (page: Page) => page.getByRole('button', { name: /^Hold / }).click()
const isHeld = (page: Page) =>
  page.getByText(/are held$|^The board is held$|asked for; the owner has not answered/).first()

async function buildOf(page: Page, name: string): Promise<string> {
  await page.goto('/builds')
  await page.getByRole('link', { name }).click()
  await expect(page).toHaveURL(/\/builds\/[0-9a-f-]{36}$/)
  return new URL(page.url()).pathname
}

/** What is stored of a build's holds, and of one member's bookings. */
const holdsOf = (data: string, build: string) =>
  ask<{ boardId: string; status: string }>(
    `select "boardId", "status" from "Hold" where "buildId" = $1 order by "boardId"`,
    [build.split('/')[2]],
    data,
  )
const ledgerOf = (data: string, build: string) =>
  ask(`select "boardId" from "StockEvent" where "buildId" = $1`, [build.split('/')[2]], data)
const bookingsOf = (data: string, who: Who) =>
  ask<{ startAt: Date }>(
    `select b."startAt" from "Booking" b join "Member" m on m."id" = b."memberId"
     join "Station" s on s."id" = b."stationId" where m."email" = $1 and s."name" = 'Pillar drill'`,
    [emailOf(who)],
    data,
  )
async function planOf(data: string, build: string) {
  const [plan] = await ask<{ status: string; attempt: number; kept: boolean }>(
    `select "status", "attempt", "result" is not null as kept from "CutPlan" where "buildId" = $1`,
    [build.split('/')[2]],
    data,
  )
  return plan
}

for (const database of [false, true])
  test(`killed in the middle of a hold, a booking and a cut plan${database ? ', PostgreSQL too' : ''}`, async ({
    browser,
  }) => {
    test.setTimeout(360_000)
    let shop = await openShop(OWN)
    const { data } = shop
    try {
      const [piet, noor, hers, planner] = await Promise.all([
        seat(browser, shop, 'piet'),
        seat(browser, shop, 'noor'),
        seat(browser, shop, 'noor'),
        seat(browser, shop, 'bram'),
      ])
      const seats = await buildOf(noor, 'Seats for the kitchen counter')
      const tall = await buildOf(piet, 'One tall seat for the tea kitchen')
      let long = ''

      await test.step('confirmed: boards held, a station booked', async () => {
        await planCutting(piet, tall)
        await holdThem(piet)
        await expect(isHeld(piet)).toBeVisible()
        await fillBooking(piet, 'Pillar drill', '09:00')
        await bookIt(piet)
        await expect(piet.getByText(/Pillar drill is yours/)).toBeVisible()
      })
      const confirmed = await holdsOf(data, tall)
      expect(confirmed.length).toBeGreaterThan(1)

      await test.step('under way: a plan that takes its time, a hold, a booking', async () => {
        await planCutting(noor, seats)
        await fillBooking(hers, 'Pillar drill', '13:00')
        long = await buildWith(planner, 'Twelve in a row', {
          'Counter length': '9000',
          'Seats abreast': '12',
        })
        await planner.goto(`${long}/cutting`)
        await planner.getByText(database ? '1 min' : '20 s', { exact: true }).click()
        await planner.getByRole('button', { name: 'Plan the cutting' }).click()
        await expect.poll(() => planOf(data, long)).toMatchObject({ status: 'running', kept: true })
        const letGo = await block('lock table "StockEvent", "Booking" in share mode', data)
        await holdThem(noor)
        await expect.poll(() => waiting(data), { intervals: [50] }).toBe(1)
        await bookIt(hers)
        await expect.poll(() => waiting(data), { intervals: [50] }).toBe(2)
        expect(await planOf(data, long)).toMatchObject({ status: 'running' })
        await shop.kill({ database })
        await letGo()
      })

      await test.step('the open pages say so and keep what was typed', async () => {
        for (const page of [noor, hers])
          await expect(page.getByRole('alert').filter({ hasText: 'The shop did not answer.' })).toBeVisible()
        await expect(hers.getByLabel('From')).toHaveValue('13:00')
      })

      const before = databaseProcess(data)
      if (!database) expect(before, 'PostgreSQL goes on without who started it').toBeDefined()
      shop = await openShop(OWN, true)
      expect(shop.startMs).toBeLessThan(SECOND_START_MS)
      test.info().annotations.push({ type: 'second start', description: `${Math.round(shop.startMs)} ms` })
      if (!database) expect(databaseProcess(data)?.pid, 'it is adopted').toBe(before?.pid)

      await test.step('what was confirmed is there; nothing is half done', async () => {
        expect(await holdsOf(data, tall)).toEqual(confirmed)
        await piet.goto(`${tall}/cutting`)
        await expect(isHeld(piet)).toBeVisible()
        expect(await bookingsOf(data, 'piet')).toHaveLength(1)
        await piet.goto('/bookings')
        await expect(piet.getByRole('list', { name: 'Your bookings' })).toContainText('Pillar drill')
        expect(await holdsOf(data, seats), 'a hold that nobody confirmed').toEqual([])
        expect(await ledgerOf(data, seats), 'and nothing of it in the books').toEqual([])
        expect(await bookingsOf(data, 'noor'), 'a booking that nobody confirmed').toEqual([])
      })

      await test.step('the same pages try again, and it is done once', async () => {
        await holdThem(noor)
        await expect(isHeld(noor)).toBeVisible()
        const held = await holdsOf(data, seats)
        expect(held.length).toBeGreaterThan(1)
        expect(await ledgerOf(data, seats)).toHaveLength(held.length)
        await bookIt(hers)
        await expect(hers.getByText(/Pillar drill is yours/)).toBeVisible()
        expect(await bookingsOf(data, 'noor')).toHaveLength(1)
      })

      await test.step('the plan goes on by itself, seen on the page that was open all the time', async () => {
        const again = { attempt: 2, kept: true }
        await expect.poll(() => planOf(data, long), { timeout: 60_000 }).toMatchObject(again)
        if (database) await planner.getByRole('button', { name: 'Stop, keep the best' }).click()
        await expect(planner.getByRole('progressbar')).toBeHidden({ timeout: 60_000 })
        await expect(planner.getByRole('heading', { name: 'Result' })).toBeVisible()
        await expect(planner.getByText('That did not work')).toHaveCount(0)
        expect(await planOf(data, long)).toEqual({ ...again, status: database ? 'cancelled' : 'done' })
      })
      for (const page of [piet, noor, hers, planner]) await page.context().close()
    } finally {
      await shop.stop()
      expect(databaseProcess(data), 'stopped with the shop that adopted it').toBeUndefined()
      await throwAway(shop)
    }
  })
