/**
 * Stations that members reserve for each other: who has it, when it is open, who was shown it, what its keeper says,
 * and the calendar that knows. On days weeks ahead, so that no other story meets these bookings.
 */
import { type APIRequestContext, expect, type Page, test } from '@playwright/test'
import { asMember } from './support/people'

/** The demo shop's clock. */
const ZONE = 'Europe/Copenhagen'

/** A day on the shop's clock, weeks ahead. */
const dayAhead = (days: number) =>
  new Intl.DateTimeFormat('sv-SE', { timeZone: ZONE }).format(Date.now() + days * 86_400_000)

/** An hour of a day on the shop's clock as a calendar writes it, RFC 5545, 3.3.5: 20260314T090000Z. */
function stamp(day: string, hour: number): string {
  const asUtc = Date.parse(`${day}T${String(hour).padStart(2, '0')}:00:00Z`)
  const shown = new Intl.DateTimeFormat('sv-SE', { timeZone: ZONE, dateStyle: 'short', timeStyle: 'medium' })
  const offsetMs = Date.parse(`${shown.format(asUtc).replace(' ', 'T')}Z`) - asUtc
  return new Date(asUtc - offsetMs).toISOString().replace(/[-:]|\.\d+/g, '')
}

interface Wish {
  readonly station: string
  readonly day: string
  readonly from: string
  readonly length: string
  readonly note?: string
}

const bookForm = (page: Page) => page.getByRole('form', { name: 'Book this station' })

async function openStation(page: Page, station: string): Promise<void> {
  await page.goto('/stations')
  await page.getByRole('link', { name: new RegExp(`^${station}`) }).click()
  await expect(page.getByRole('heading', { level: 1, name: station })).toBeVisible()
}

async function fillWish(page: Page, { station, day, from, length, note = '' }: Wish): Promise<void> {
  await openStation(page, station)
  const form = bookForm(page)
  await form.getByLabel('Day').fill(day)
  await form.getByLabel('From').selectOption(from)
  await form.getByLabel('For how long').selectOption({ label: length })
  await form.getByLabel('Note').fill(note)
}

const send = (page: Page) =>
  bookForm(page)
    .getByRole('button', { name: /^(Book it|Ask )/ })
    .click()

async function book(page: Page, wish: Wish): Promise<void> {
  await fillWish(page, wish)
  await send(page)
  await expect(page).toHaveURL(/\/bookings\?new=/)
}

const mine = (page: Page, station: string, text: string | RegExp) =>
  page
    .getByRole('list', { name: 'Your bookings' })
    .getByRole('listitem')
    .filter({ hasText: station })
    .filter({ hasText: text })

async function cancel(page: Page, station: string, text: string | RegExp): Promise<void> {
  await page.goto('/bookings')
  await mine(page, station, text).getByRole('button', { name: 'Cancel' }).click()
  await page.getByRole('alertdialog').getByRole('button', { name: 'Cancel it' }).click()
  await expect(mine(page, station, text).getByText('Cancelled', { exact: true })).toBeVisible()
}

/** The calendar's text, with its folded lines put together again: RFC 5545, 3.1. */
async function calendarOf(
  page: Page,
  request: APIRequestContext,
): Promise<{ address: string; text: string }> {
  await page.goto('/account')
  const address = await page.getByLabel('Address of your calendar').inputValue()
  const answer = await request.get(address)
  expect(answer.status()).toBe(200)
  expect(answer.headers()['content-type']).toContain('text/calendar')
  const raw = await answer.text()
  expect(raw.startsWith('BEGIN:VCALENDAR\r\n')).toBe(true)
  for (const line of raw.split('\r\n')) expect(Buffer.byteLength(line), line).toBeLessThanOrEqual(75)
  return { address, text: raw.replace(/\r\n[ \t]/g, '') }
}

const eventsOf = (calendar: string) => calendar.split('BEGIN:VEVENT').slice(1)

test('a time that is taken is refused with who has it; touching it is not', async ({ browser, request }) => {
  const [noor, piet] = [await asMember(browser, 'noor'), await asMember(browser, 'piet')]
  const day = dayAhead(20)
  const hers = { station: 'Router table', day, from: '10:00', length: '2 h', note: 'Round-overs' }
  await book(noor.page, hers)
  await expect(noor.page.getByText(/Router table is yours/)).toBeVisible()

  const his = { ...hers, from: '11:00', length: '1 h', note: 'Only a moment' }
  await fillWish(piet.page, his)
  await send(piet.page)
  const alert = bookForm(piet.page).getByRole('alert')
  await expect(alert).toContainText('That time is taken. Noor Halvari has it from')
  await expect(alert).toContainText(/10:00 to .*12:00/)
  const form = bookForm(piet.page)
  await expect(form.getByLabel('Day')).toHaveValue(day)
  await expect(form.getByLabel('From')).toHaveValue('11:00')
  await expect(form.getByLabel('Note')).toHaveValue('Only a moment')
  await form.getByLabel('From').selectOption('12:00')
  await send(piet.page)
  await expect(piet.page).toHaveURL(/\/bookings\?new=/)

  await test.step('her calendar has it, his has his', async () => {
    const hersThere = eventsOf((await calendarOf(noor.page, request)).text).filter((e) =>
      e.includes('Router table'),
    )
    const found = hersThere.find((e) => e.includes(`DTSTART:${stamp(day, 10)}`))
    expect(found, hersThere.join('\n')).toBeDefined()
    expect(found).toContain(`DTEND:${stamp(day, 12)}`)
    expect(found).toContain('Round-overs')
    const { text } = await calendarOf(piet.page, request)
    expect(text).toContain(`DTSTART:${stamp(day, 12)}`)
    expect(text).not.toContain('Round-overs')
  })

  await test.step('given up, it is free again, and gone from the calendar', async () => {
    await cancel(noor.page, 'Router table', '10:00 to')
    expect((await calendarOf(noor.page, request)).text).not.toContain(`DTSTART:${stamp(day, 10)}`)
    await book(piet.page, { ...hers, note: '' })
    await cancel(piet.page, 'Router table', '10:00 to')
    await cancel(piet.page, 'Router table', '12:00 to')
  })
  await noor.context.close()
  await piet.context.close()
})

test('a calendar’s old address stops working when a new one is made', async ({ browser, request }) => {
  const piet = await asMember(browser, 'piet')
  const { address } = await calendarOf(piet.page, request)
  await piet.page.getByRole('button', { name: 'Make a new address' }).click()
  await piet.page.getByRole('alertdialog').getByRole('button', { name: 'Make a new one' }).click()
  await expect(piet.page.getByLabel('Address of your calendar')).not.toHaveValue(address)
  expect((await request.get(address)).status()).toBe(404)
  await calendarOf(piet.page, request)
  await piet.context.close()
})

test('outside its hours, in the past and too far ahead a station is not to be had', async ({ browser }) => {
  const noor = await asMember(browser, 'noor')
  const form = bookForm(noor.page)
  await fillWish(noor.page, { station: 'Pillar drill', day: dayAhead(22), from: '21:00', length: '4 h' })
  await send(noor.page)
  await expect(form.getByRole('alert')).toContainText(
    'The station is not open at that time. It is open from 08:00 to 22:00.',
  )
  await expect(form.getByLabel('For how long')).toHaveValue('240')
  for (const [day, said] of [
    [dayAhead(-3), 'That time is past.'],
    [dayAhead(500), 'Book at most a year ahead.'],
  ]) {
    await form.getByLabel('Day').fill(day)
    await form.getByLabel('From').selectOption('09:00')
    await send(noor.page)
    await expect(form.getByLabel('From')).toHaveAccessibleDescription(said)
    await expect(form.getByLabel('From')).toBeFocused()
    await expect(form.getByLabel('Day')).toHaveValue(day)
  }
  await noor.page.goto('/bookings')
  await expect(mine(noor.page, 'Pillar drill', /./)).toHaveCount(0)
  await noor.context.close()
})

test('no booking without an induction, not even one that was taken back meanwhile', async ({ browser }) => {
  const [noor, piet, yusra] = [
    await asMember(browser, 'noor'),
    await asMember(browser, 'piet'),
    await asMember(browser, 'yusra'),
  ]
  await openStation(noor.page, 'Laser engraver')
  await expect(
    noor.page.getByText('You need an induction here before you can book. Ask Yusra Bekele to show you.'),
  ).toBeVisible()
  await expect(bookForm(noor.page)).toHaveCount(0)

  await fillWish(piet.page, { station: 'Laser engraver', day: dayAhead(23), from: '09:00', length: '1 h' })
  await openStation(yusra.page, 'Laser engraver')
  const inducted = yusra.page.getByRole('list', { name: 'Inducted' }).getByRole('listitem')
  await inducted.filter({ hasText: 'Piet Osei' }).getByRole('button', { name: 'Take back' }).click()
  await yusra.page.getByRole('alertdialog').getByRole('button', { name: 'Take it back' }).click()
  await expect(yusra.page.getByRole('alertdialog')).toHaveCount(0)
  await expect(inducted.filter({ hasText: 'Piet Osei' })).toHaveCount(0)
  // His page hears of it and takes the form away; whoever was quicker is refused by the shop.
  const told = piet.page.getByText(/You need an induction/)
  await expect(told.first()).toBeVisible()
  await expect(bookForm(piet.page)).toHaveCount(0)

  const give = yusra.page.getByRole('form', { name: 'Give an induction' })
  await give.getByLabel('Who was shown').selectOption({ label: 'Piet Osei' })
  await give.getByRole('button', { name: 'Give the induction' }).click()
  await expect(inducted.filter({ hasText: 'Piet Osei' })).toBeVisible()
  await expect(bookForm(piet.page)).toBeVisible()
  for (const { context } of [noor, piet, yusra]) await context.close()
})

test('a keeper declines with a note, which the maker reads on Today; the time is free again', async ({
  browser,
}) => {
  const [piet, bram, noor] = [
    await asMember(browser, 'piet'),
    await asMember(browser, 'bram'),
    await asMember(browser, 'noor'),
  ]
  const wish = { station: 'Planer', day: dayAhead(24), from: '14:00', length: '1 h', note: 'Rough boards' }
  await book(piet.page, wish)
  await expect(
    piet.page.getByText(/Asked for: Planer .*The time is kept for you until its keeper decides/),
  ).toBeVisible()
  await fillWish(noor.page, wish)
  await send(noor.page)
  await expect(bookForm(noor.page).getByRole('alert')).toContainText('Piet Osei has it from')

  await piet.page.goto('/')
  await bram.page.goto('/bookings')
  const row = bram.page
    .getByRole('list', { name: 'Yours to decide' })
    .getByRole('listitem')
    .filter({ hasText: 'Rough boards' })
  await row.getByLabel('Note to Piet Osei').fill('Its knives are away for grinding until Friday.')
  await row.getByRole('button', { name: 'Decline' }).click()
  await expect(row).toHaveCount(0)

  const heard = piet.page
    .getByRole('list', { name: 'Heard lately' })
    .getByRole('listitem')
    .filter({ hasText: 'knives are away' })
  await expect(heard).toContainText('Planer')
  await expect(heard).toContainText('Bram Ottoway')
  await expect(heard).toContainText('«Its knives are away for grinding until Friday.»')
  await expect(heard.getByText('No', { exact: true })).toBeVisible()
  await piet.page.goto('/bookings')
  await expect(
    mine(piet.page, 'Planer', 'knives are away').getByText('Declined', { exact: true }),
  ).toBeVisible()

  await send(noor.page)
  await expect(noor.page).toHaveURL(/\/bookings\?new=/)
  await cancel(noor.page, 'Planer', '14:00 to')
  for (const { context } of [piet, bram, noor]) await context.close()
})
