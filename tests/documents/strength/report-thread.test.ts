import { afterEach, expect, test } from 'vitest'
import { type ReportAsk, type ReportDesk, reportDesk } from '#lib/documents/strength/report-desk'
import { threadFile } from '../../engine/threads'
import { readPdf } from '../pdf/read-pdf'
import { FACTS, JUDGED_FOR } from './printed'

const file = threadFile('lib/documents/strength/report-thread.ts')
let desk: ReportDesk | undefined
afterEach(() => desk?.close())
const open = async (): Promise<ReportDesk> => {
  desk = reportDesk(await file)
  return desk
}
const ask = (more: Partial<ReportAsk> = {}): ReportAsk => ({
  designId: 'counterSeat',
  parameters: { species: 'redOak' },
  options: {},
  judgedFor: JUDGED_FOR,
  facts: FACTS,
  ...more,
})

test('a report is made on a thread of its own: the asker’s thread stays free', async () => {
  const asked = (await open()).ask(ask())
  let turns = 0
  const ticking = setInterval(() => turns++, 5)
  const outcome = await asked.outcome
  clearInterval(ticking)
  if (outcome.kind !== 'done') throw new Error(JSON.stringify(outcome))
  expect(Buffer.from(outcome.answer.slice(0, 5)).toString()).toBe('%PDF-')
  expect((await readPdf(outcome.answer)).length).toBeGreaterThan(2)
  expect(turns).toBeGreaterThan(5)
}, 30_000)

test('a cancel ends it, and the next one is answered all the same', async () => {
  const own = await open()
  const [first, second] = [own.ask(ask()), own.ask(ask({ designId: 'crate', parameters: {} }))]
  first.cancel()
  expect(await first.outcome).toEqual({ kind: 'cancelled' })
  expect((await second.outcome).kind).toBe('done')
}, 30_000)

test('what cannot be judged is refused in a sentence', async () => {
  const own = await open()
  const hung = await own.ask(ask({ designId: 'wallShelf', parameters: {} })).outcome
  expect(hung).toMatchObject({ kind: 'refused', sentence: expect.stringMatching(/hangs on a wall/) })
  expect((await own.ask(ask({ designId: 'gone' })).outcome).kind).toBe('refused')
}, 30_000)
