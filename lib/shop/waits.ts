/**
 * What needs its hours: glue under clamps, filler, a coat that dries. Hours are common practice for an indoor shop at
 * about 20 °C; the tin's label goes first. Pure. Tests: tests/shop/waits.test.ts
 */
export const WAIT_KINDS = ['glue', 'filler', 'paint', 'clearCoat', 'oil', 'other'] as const
export type WaitKind = (typeof WAIT_KINDS)[number]

export interface WaitPractice {
  readonly label: string
  /** What is put into the field to begin with. */
  readonly hours: number
  readonly practice: string
  readonly caution?: string
}

/** Common practice; not a promise of any maker of glue or paint. */
export const WAIT_PRACTICE: Readonly<Record<WaitKind, WaitPractice>> = {
  glue: {
    label: 'Glue',
    hours: 24,
    practice: 'White or yellow wood glue: clamps off after an hour, no load for 24 hours, not below 10 °C.',
  },
  filler: {
    label: 'Filler',
    hours: 4,
    practice: 'Water-based filler: 2 to 4 hours, deep holes overnight and in layers of 3 mm.',
  },
  paint: {
    label: 'Paint',
    hours: 4,
    practice: 'Water-based paint: next coat after 2 to 4 hours; oil-based 6 to 24. Full hardness takes days.',
  },
  clearCoat: {
    label: 'Clear coat',
    hours: 4,
    practice:
      'Water-based clear coat: next coat after 2 to 4 hours; oil-based 6 to 24. Doubles when cold or damp.',
  },
  oil: {
    label: 'Oil',
    hours: 24,
    practice: 'Finishing oil: a day between coats, weeks to full hardness.',
    caution:
      'Oily rags can catch fire by themselves: spread them flat outdoors to dry, or keep them under water in a closed metal tin.',
  },
  other: { label: 'Something else', hours: 12, practice: 'As long as it needs.' },
}

const HOUR_MS = 3_600_000
export const MIN_WAIT_HOURS = 0.25
export const MAX_WAIT_HOURS = 60 * 24
export const MAX_LABEL_LENGTH = 120

/** @example readyAt(new Date(0), 0.5).getTime() //=> 1_800_000 */
export const readyAt = (startedAt: Date, hours: number): Date =>
  new Date(startedAt.getTime() + Math.round(hours * HOUR_MS))

/** running: its time is not up · ready: it is, and someone has to look · cleared: done with. */
export type WaitState = 'running' | 'ready' | 'cleared'

/** Ready at its very instant. */
export function waitState(wait: { readyAt: Date; clearedAt: Date | null }, now: Date): WaitState {
  if (wait.clearedAt) return 'cleared'
  return wait.readyAt.getTime() <= now.getTime() ? 'ready' : 'running'
}
