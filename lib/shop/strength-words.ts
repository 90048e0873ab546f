/**
 * A strength report in words that a maker understands: the verdict, margins, likenesses among checks, and the air of
 * the year as it is typed. In: checks of lib/core/statics. Out: sentences and shares. Tests: tests/shop/strength-words.test.ts
 */
import { MOST_MARGIN, type StrengthCheck, say3 } from '#lib/core/statics/checks'
import type { WoodVerdict } from '#lib/core/statics/compare-woods'
import type { Carrier } from '#lib/core/statics/joint-capacity'
import type { HeldAcross } from '#lib/core/statics/movement'
import type { SourceTag } from '#lib/core/statics/sources'
import type { Lean } from '#lib/core/statics/tipping-report'
import { err, ok, type Result } from '#lib/core/units/result'

export type Level = 'good' | 'caution' | 'stop'

export interface Verdict {
  readonly level: Level
  readonly title: string
  /** The governing check, and how far it is from failing. */
  readonly margin: string
  /** How many checks fail, of how many. */
  readonly count: string
}

const FAILS: Readonly<Record<StrengthCheck['kind'], string>> = {
  tipping: 'It would tip over',
  wall: 'It must be fixed to a wall',
  joint: 'A joint would give way',
  bending: 'A part would break',
  shear: 'A part would split along its grain',
  buckling: 'A part would buckle',
  sag: 'It sags',
  sway: 'It sways',
  creak: 'It will creak',
  movement: 'The wood would crack itself',
  gap: 'A gap closes up',
}

/** @example marginWords(0.21) //=> 'bears 21 % of what is asked of it' */
export function marginWords(margin: number): string {
  if (margin >= MOST_MARGIN) return 'nothing is asked of it'
  if (margin <= 0) return 'bears nothing'
  if (margin < 0.995) return `bears ${Math.max(1, Math.floor(margin * 100 + 1e-9))} % of what is asked of it`
  if (margin < 1.05) return 'bears just what is asked of it'
  if (margin < 2) return `bears what is asked of it with ${Math.floor((margin - 1) * 100 + 1e-9)} % to spare`
  return `bears ${say3(Math.floor(margin * 10 + 1e-9) / 10)} times what is asked of it`
}

/** Those of comfort ask too much rather than bear too little. */
const tooMuchWords = ({ demand, capacity, unit }: StrengthCheck): string =>
  demand > capacity
    ? `${say3(demand)} ${unit}, where ${say3(capacity)} ${unit} is the most that is good`
    : `${say3(demand)} ${unit} of the ${say3(capacity)} ${unit} that is good`

/** Of one check, without its subject. */
export function checkMarginWords(check: StrengthCheck): string {
  if (check.kind === 'tipping') {
    if (check.margin >= MOST_MARGIN) return 'nothing tips it'
    return check.passes
      ? `stands ${say3(check.margin)} times what is put on it`
      : `tips at ${Math.floor(check.margin * 100 + 1e-9)} % of what is put on it`
  }
  if (check.kind === 'wall')
    return `asks ${say3(check.demand)} N of one fixing; what the wall bears is not known here`
  return check.unit === 'mm' ? tooMuchWords(check) : marginWords(check.margin)
}

/** What one thing in a joint bears. @example carrierWords(screw) //=> 'a screw loaded across its axis: 69.8 of 92.9 N' */
export const carrierWords = ({ how, share, demand, capacity, unit }: Carrier): string =>
  `${how}: ${Number.isFinite(share) ? `${say3(demand)} of ${say3(capacity)} ${unit}` : 'holds nothing'}`

/** What a bar shows: the piece over what is asked, as two widths from 0 to 1. */
export function barOf({ margin }: Pick<StrengthCheck, 'margin'>): {
  readonly bears: number
  readonly asked: number
} {
  const most = 2
  return { bears: Math.min(most, Math.max(0, margin)) / most, asked: 1 / most }
}

const count = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`

const lowerFirst = (text: string) => `${text.charAt(0).toLowerCase()}${text.slice(1)}`

const stopCount = (failing: number, unsafe: number): string => {
  if (unsafe < failing) return `${unsafe} of them where someone could be hurt`
  return unsafe === 1 ? 'and someone could be hurt' : 'all where someone could be hurt'
}

/**
 * The first thing that a report says.
 * @param checks governing first
 * @param woods where the wood is left open: how it would do in each, the best first
 */
export function verdictOf(checks: readonly StrengthCheck[], woods: readonly WoodVerdict[] = []): Verdict {
  const [first] = checks
  if (!first) throw new RangeError('a report without checks has no verdict')
  const failing = checks.filter(({ passes }) => !passes)
  const unsafe = failing.filter(({ weight }) => weight === 'safety')
  const margin = `${first.title}: ${checkMarginWords(first)}.`
  const said = `Of ${count(checks.length, 'check')}, ${count(failing.length, 'fails', 'fail')}`
  if (unsafe.length > 0 && woods.some(({ passes }) => passes))
    return {
      level: 'caution',
      title: 'It depends on the wood',
      margin: `${woodsWords(woods)} ${UNNAMED_FAILS}`,
      count: `Judged as the weakest wood: ${lowerFirst(margin)} Name the wood before you build.`,
    }
  if (unsafe.length > 0)
    return {
      level: 'stop',
      title: FAILS[first.kind],
      margin,
      count: `${said}, ${stopCount(failing.length, unsafe.length)}. Do not build it like this.`,
    }
  const condition = failing.find((check) => check.condition !== undefined)?.condition
  if (condition !== undefined)
    return { level: 'caution', title: `It holds, ${condition}`, margin, count: `${said}.` }
  if (failing.length > 0)
    return {
      level: 'caution',
      title: `It holds, but: ${lowerFirst(FAILS[first.kind])}`,
      margin,
      count: `${said}, and nobody is hurt by it.`,
    }
  return {
    level: 'good',
    title: 'It holds',
    margin: `Closest: ${margin}`,
    count: `${said.split(',')[0]}, none fails.`,
  }
}

const UNNAMED_FAILS = 'In wood that nobody has named it is not safe.'

const listed = (names: readonly string[]): string =>
  names.length < 2 ? names.join() : `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`

/** Named here one by one; more are counted. */
const WOODS_SAID = 5

/** @example woodsWords(woods) //=> 'Of 20 woods it holds in these: White oak, American beech and White ash.' */
export function woodsWords(woods: readonly WoodVerdict[]): string {
  const good = woods.filter(({ passes }) => passes).map(({ name }) => name)
  if (good.length === 0) return `It holds in none of the ${woods.length} woods that the table knows.`
  if (good.length === woods.length)
    return `It holds in each of the ${woods.length} woods that the table knows.`
  const said = good.slice(0, WOODS_SAID)
  const more = good.length - said.length
  return `Of ${woods.length} woods it holds in these: ${listed(more > 0 ? [...said, `${more} more`] : said)}.`
}

/** What governs, in a line, for where pieces stand side by side. */
export interface StrengthMark {
  readonly level: Level
  readonly verdict: string
  /** Of the check of safety that is closest to failing; at most MOST_MARGIN. */
  readonly margin: number
  readonly check: string
  readonly words: string
}

/**
 * In a word how strong a piece is: its margin is that of safety, since what only annoys (a light table that a bump tips)
 * says nothing of strength. @param checks governing first
 */
export function strengthMark(checks: readonly StrengthCheck[]): StrengthMark {
  const { level, title: verdict } = verdictOf(checks)
  const safety = checks.filter(({ weight }) => weight === 'safety')
  const worst = safety.reduce<StrengthCheck>((a, b) => (b.margin < a.margin ? b : a), safety[0] ?? checks[0])
  return { level, verdict, margin: worst.margin, check: worst.title, words: checkMarginWords(worst) }
}

const TAGS: Readonly<Record<SourceTag, string>> = {
  read: 'read there',
  memory: 'from memory, not read again',
  practice: 'common practice',
  assumed: 'assumed',
}
/** @example sayTag('memory') //=> 'from memory, not read again' */
export const sayTag = (tag: SourceTag): string => TAGS[tag]

/** Left and right hands of a part are alike. @example alikeKind('leg, hand a') //=> 'leg' */
const alikeKind = (kind: string): string => kind.replace(/, hand [ab]$/, '')

export interface AlikeChecks {
  readonly worst: StrengthCheck
  readonly others: readonly StrengthCheck[]
}

/**
 * Checks of parts of one kind, together: a frame's four legs are one line.
 * @param checks governing first @param kindOf of a part, by its id
 */
export function alikeChecks(
  checks: readonly StrengthCheck[],
  kindOf: (partId: string) => string,
): AlikeChecks[] {
  const groups = new Map<string, { worst: StrengthCheck; others: StrengthCheck[] }>()
  for (const check of checks) {
    const { partIds } = check.where
    const about =
      partIds.length === 0
        ? check.id
        : partIds
            .map((id) => alikeKind(kindOf(id)))
            .sort()
            .join(' + ')
    const key = `${check.kind}|${check.passes}|${about}`
    const group = groups.get(key)
    if (group) group.others.push(check)
    else groups.set(key, { worst: check, others: [] })
  }
  return [...groups.values()]
}

/** Air in rooms, percent. @example readHumidity('35 %') //=> { ok: true, value: 0.35 } */
export function readHumidity(text: string): Result<number, string> {
  const match = /^\s*(\d{1,3}(?:[.,]\d+)?)\s*%?\s*$/.exec(text)
  const percent = match ? Number(match[1].replace(',', '.')) : Number.NaN
  if (!(percent >= 5 && percent <= 95)) return err('Enter the air’s humidity as 5 to 95 %.')
  return ok(percent / 100)
}

/** The two ends of the year. */
export function readSeason(
  dry: string,
  damp: string,
): Result<
  { readonly dry: number; readonly damp: number },
  { readonly dry?: string; readonly damp?: string }
> {
  const [low, high] = [readHumidity(dry), readHumidity(damp)]
  if (!low.ok || !high.ok)
    return err({ ...(low.ok ? {} : { dry: low.error }), ...(high.ok ? {} : { damp: high.error }) })
  if (high.value <= low.value) return err({ damp: 'The damp end of the year is damper than the dry one.' })
  return ok({ dry: low.value, damp: high.value })
}

/** How a wish for a wood is judged; null where the table knows the wood itself. @example woodWords('any') */
export function woodWords(species: string): string | null {
  const unnamed =
    'No one wood is asked for, so it is judged as weaker and livelier than any that the table knows'
  if (species === 'any') return `${unnamed}. Name the wood on the Design page and the answer gets better.`
  if (species === 'hardwood' || species === 'softwood')
    return `${unnamed} among ${species}s. Name the wood on the Design page and the answer gets better.`
  return null
}

const WAYS: readonly (readonly [number, number, string])[] = [
  [0, -1, 'forwards'],
  [0, 1, 'backwards'],
  [-1, 0, 'to the left'],
  [1, 0, 'to the right'],
]

const degrees = (rad: number): string => `${((rad * 180) / Math.PI).toFixed(1)}°`

/** A leg that leans by less stands upright. */
const LEANS_RAD = 0.01

/** Legs that lean by more are another piece of furniture. */
const MOST_LEAN_RAD = Math.PI / 6

function leanWords(lean: Lean | undefined, isPassing: boolean): string {
  if (lean === undefined) return ''
  if (!isPassing && lean.toPassRad > MOST_LEAN_RAD) return ''
  if (!isPassing)
    return ` Or legs that lean ${degrees(lean.toPassRad)} there instead of ${degrees(lean.nowRad)}.`
  if (lean.nowRad < LEANS_RAD) return ''
  return lean.toPassRad < LEANS_RAD
    ? ` Legs lean ${degrees(lean.nowRad)} there; upright ones would do.`
    : ` Legs lean ${degrees(lean.nowRad)} there; ${degrees(lean.toPassRad)} would just do.`
}

/** A tipping line in a sentence. @example tippingWords({ factor: 2.06, towards: [0, -1], outsetMm: -60 }) //=> 'stands 2.06 times this before it goes over forwards.' */
export function tippingWords(
  line: {
    readonly factor: number
    readonly towards: readonly [number, number]
    readonly outsetMm: number
  },
  lean?: Lean,
): string {
  if (!Number.isFinite(line.factor)) return 'nothing tips it.'
  const along = ([x, y]: readonly [number, number, string]) => x * line.towards[0] + y * line.towards[1]
  const way = WAYS.reduce((best, one) => (along(one) > along(best) ? one : best))[2]
  if (line.factor >= 1)
    return `stands ${say3(line.factor)} times this before it goes over ${way}.${leanWords(lean, true)}`
  return `goes over ${way}: it bears ${Math.floor(line.factor * 100 + 1e-9)} % of this. Feet ${Math.ceil(line.outsetMm)} mm further out on that side would hold it.${leanWords(lean, false)}`
}

/** @example sayLoads({ loadN: 600, insetMm: 60, pushN: 20 }) //=> '600 N, 60 mm inside the edge, 20 N outwards' */
export function sayLoads({
  loadN,
  insetMm,
  pushN,
}: {
  readonly loadN: number
  readonly insetMm: number
  readonly pushN: number
}): string {
  const load = loadN > 0 ? `${loadN} N${insetMm > 0 ? `, ${insetMm} mm inside the edge` : ''}` : 'no load'
  return pushN > 0 ? `${load}, ${pushN} N outwards` : load
}

export interface MovingParts {
  readonly partId: string
  readonly count: number
  readonly widthMm: number
  readonly growthMm: number
}

/** Parts of one kind and width together, the liveliest first. */
export function movingParts(
  parts: readonly { readonly partId: string; readonly widthMm: number; readonly growthMm: number }[],
  kindOf: (partId: string) => string,
): MovingParts[] {
  const rows = new Map<string, MovingParts>()
  for (const { partId, widthMm, growthMm } of parts) {
    const key = `${alikeKind(kindOf(partId))} ${widthMm.toFixed(1)} ${growthMm.toFixed(3)}`
    const row = rows.get(key) ?? { partId, count: 0, widthMm, growthMm }
    rows.set(key, { ...row, count: row.count + 1 })
  }
  return [...rows.values()].sort((a, b) => b.growthMm - a.growthMm)
}

/** A range of margins on a scale from 0 to 4 times what is asked, as shares of it. */
export function rangeBar(range: { readonly low: number; readonly middle: number; readonly high: number }) {
  const most = 4
  const on = (margin: number) => Math.min(most, Math.max(0, margin)) / most
  return { low: on(range.low), middle: on(range.middle), high: on(range.high), one: on(1) }
}

/** Parts held across their grain alike, together; the one that fares worst first. */
export function alikeHeld(
  held: readonly HeldAcross[],
  kindOf: (partId: string) => string,
): { readonly worst: HeldAcross; readonly count: number }[] {
  const groups = new Map<string, { worst: HeldAcross; count: number }>()
  const use = ({ growthMm, limitMm }: HeldAcross) => growthMm / limitMm
  for (const one of held) {
    const key = `${alikeKind(kindOf(one.partId))}|${alikeKind(kindOf(one.byId))}|${one.isGlued}`
    const group = groups.get(key)
    if (!group) groups.set(key, { worst: one, count: 1 })
    else groups.set(key, { worst: use(one) > use(group.worst) ? one : group.worst, count: group.count + 1 })
  }
  return [...groups.values()].sort((a, b) => use(b.worst) - use(a.worst))
}
