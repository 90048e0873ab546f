import { execFileSync } from 'node:child_process'
import { buildSync } from 'esbuild'
import { expect, test } from 'vitest'

/** Says the same instants and days in a process of its own, under its own time zone. */
const PROBE = `
  import { dayOf, instantIn, nearInstantIn } from '#lib/format/instant'
  import { daysBetween, relativeDay, sayDay } from '#lib/format/day'
  const at = new Date('2026-05-05T22:30:00Z')
  const now = new Date('2026-03-28T22:00:00Z')
  console.log(JSON.stringify([
    instantIn('Europe/Berlin')(at),
    instantIn('America/New_York')(at),
    dayOf('Pacific/Auckland', at),
    nearInstantIn('Europe/Berlin', now)(new Date('2026-03-29T21:59:00Z')),
    relativeDay('2026-03-29', '2026-03-28'),
    sayDay('2026-10-25', '2026-10-24'),
    daysBetween('2026-10-24', '2026-10-26'),
    new Date(2026, 0, 1).getTimezoneOffset(),
  ]))
`

const script = buildSync({
  stdin: { contents: PROBE, resolveDir: import.meta.dirname, loader: 'ts' },
  bundle: true,
  platform: 'node',
  format: 'esm',
  write: false,
}).outputFiles[0].text

const saidUnder = (TZ: string): unknown[] =>
  JSON.parse(
    execFileSync(process.execPath, ['--input-type=module'], {
      input: script,
      encoding: 'utf8',
      env: { ...process.env, TZ },
    }),
  )

test('nothing depends on the time zone of the process', () => {
  const expected = [
    'Wed 6 May, 00:30',
    'Tue 5 May, 18:30',
    '2026-05-06',
    'tomorrow, 23:59',
    'tomorrow',
    'Sun 25 Oct',
    2,
  ]
  const zones = ['UTC', 'Europe/Berlin', 'America/Los_Angeles', 'Asia/Kolkata', 'Pacific/Kiritimati']
  const said = zones.map(saidUnder)
  // The zones were really in force: their clocks differ.
  expect(said.map((each) => each.at(-1))).toEqual([0, -60, 480, -330, -840])
  for (const each of said) expect(each.slice(0, -1)).toEqual(expected)
})
