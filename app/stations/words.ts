import type { StationKind } from '#lib/core/setups/setup-plan'

interface KindWords {
  readonly word: string
  /** The usual cautions, common practice; the machine's manual and local rules come first. */
  readonly caution: string
}

export const KIND_WORDS: Record<StationKind, KindWords> = {
  planer: {
    word: 'Planer',
    caution:
      'Only boards cleared of metal and of old paint that may hold lead. Hearing and eye protection; never a piece shorter than the rollers hold; hands away from the infeed.',
  },
  tableSaw: {
    word: 'Table saw',
    caution:
      'Guard and riving knife on; push stick for narrow rips; never rip fence and sled or mitre gauge against one piece; nothing loose, no gloves; boards cleared of metal.',
  },
  routerTable: {
    word: 'Router table',
    caution:
      'Feed against the rotation; several light passes; starting pin for curves; fingers behind the guard; pull the plug before changing a bit.',
  },
  drillPress: {
    word: 'Drill press',
    caution: 'Clamp the work; sleeves and hair tied back, no gloves; key out of the chuck before it starts.',
  },
  bandSaw: {
    word: 'Band saw',
    caution: 'Guard just above the work; flat side down, round stock in a cradle; push stick near the blade.',
  },
  laserEngraver: {
    word: 'Laser engraver',
    caution:
      'Never treated wood, old paint or unknown plastics; extraction on, lid shut; stay with it while it burns, extinguisher at hand.',
  },
  assemblyBench: {
    word: 'Assembly bench',
    caution:
      'Air the room for glue and finish; lay oily rags flat to dry outdoors: crumpled they can take fire.',
  },
}

export const KIND_OPTIONS = (Object.keys(KIND_WORDS) as StationKind[]).map((value) => ({
  value,
  label: KIND_WORDS[value].word,
}))

/** @example clock(1440) //=> '24:00' */
export const clock = (minute: number): string =>
  `${String(Math.floor(minute / 60)).padStart(2, '0')}:${String(minute % 60).padStart(2, '0')}`

/** Quarters of an hour of a day as the clock says them, and `also`. */
export function quarterHours(fromMinute: number, toMinute: number, also: number) {
  const count = Math.floor((toMinute - fromMinute) / 15) + 1
  const minutes = new Set([...Array.from({ length: count }, (_, i) => fromMinute + i * 15), also])
  return [...minutes].sort((a, b) => a - b).map((m) => ({ value: clock(m), label: clock(m) }))
}

/** @example sayMinutes(105) //=> '1 h 45 min' */
export function sayMinutes(minutes: number): string {
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60]
  return [hours && `${hours} h`, rest && `${rest} min`].filter(Boolean).join(' ')
}
