/**
 * The set-ups of a build as they are worked through at the bench: one after the other, what is set anew large, alike
 * cuts as one line with their count, each caution said once a station. In: a SetupPlan (mm, rad, s), the parts, the
 * person's unit. Out: BenchSetup[], plain data for the page and for paper.
 * Lengths inside the plan's sentences are given to 0.1 mm and are turned into inches from that.
 * Tests: tests/app/bench-sheet.test.ts
 */
import { capital } from '#lib/core/design/face-words'
import type { Setup, SetupCut, SetupPlan, StationKind } from '#lib/core/setups/setup-plan'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayInUnits } from '#lib/format/sentence'
import { type SettingItem, settingItems, setupTitle } from './setting-items'

/** Alike cuts, ticked off together or one by one. */
export interface BenchCuts {
  readonly keys: readonly string[]
  /** What is cut, by key: «Leg, left frame, back, seat 1». */
  readonly names: readonly string[]
  /** «4 × leg, 17 passes each» */
  readonly title: string
  /** Which ones, shortly; empty where the title says it. */
  readonly which: string
  /** How a piece lies, and what becomes of it. */
  readonly note: string
}

export interface BenchSetup {
  readonly id: string
  readonly number: number
  readonly station: StationKind
  readonly title: string
  readonly settings: readonly SettingItem[]
  /** Number of the set-up in whose state the machine still stands. */
  readonly standsAs: number | null
  readonly testCut: string
  readonly checkWith: string
  /** Not said before at this station. */
  readonly newCautions: readonly string[]
  /** Said at an earlier set-up of this station, and true here too. */
  readonly knownCautions: readonly string[]
  readonly cuts: readonly BenchCuts[]
  readonly seconds: number
}

/** What a part is called among its like, by its id or its name; undefined for boards and pieces of them. */
type KindOf = (idOrName: string) => string | undefined

const SLIVER = /waste \((?:\d+ × 0|0 × \d+) mm\)/g

/**
 * A sentence of the plan in this person's unit.
 * @example inUnits('Fence at 80 mm.', 'in') //=> 'Fence at 3 1/8".'
 */
export function inUnits(sentence: string, units: LengthUnit): string {
  return sayInUnits(sentence.replace(SLIVER, 'a sliver'), units)
}

/** How many words all texts begin with; the last word of each is never one of them. */
function commonWords(texts: readonly (readonly string[])[]): number {
  const most = Math.min(...texts.map((t) => t.length - 1))
  let n = 0
  while (n < most && texts.every((t) => t[n] === texts[0][n])) n++
  return n
}

/**
 * Names without what they share, those with the same ending together.
 * @example whichOnes(['Leg, left, seat 1', 'Leg, right, seat 1']) //=> 'seat 1: left; right'
 */
export function whichOnes(names: readonly string[]): string {
  const words = names.map((n) => n.split(' '))
  const shared = commonWords(words)
  const heads = new Map<string, string[]>()
  for (const rest of words.map((w) => w.slice(shared).join(' '))) {
    const at = rest.lastIndexOf(', ')
    const ending = at < 0 ? '' : rest.slice(at + 2)
    heads.set(ending, [...(heads.get(ending) ?? []), at < 0 ? rest : rest.slice(0, at)])
  }
  return [...heads]
    .map(([ending, all]) => (ending === '' ? all.join(', ') : `${ending}: ${all.join('; ')}`))
    .join(' · ')
}

const BOARD = /^(board|piece of board) \d+$/

const kindOf = (cut: SetupCut, partKind: KindOf): string =>
  partKind(cut.pieceId) ?? partKind(cut.pieceName) ?? BOARD.exec(cut.pieceName)?.[1] ?? cut.pieceName

function titleOf(alike: readonly SetupCut[], kind: string): string {
  const [{ pieceName, passes, count = 1, ...cut }] = alike
  const what = alike.length > 1 ? `${alike.length} × ${kind}` : capital(pieceName)
  const each = alike.length > 1 ? ' each' : ''
  const times =
    count > 1
      ? `, ${count} ${cut.kind === 'roundOver' || cut.kind === 'chamfer' ? 'edges' : 'holes'}${each}`
      : ''
  return `${what}${times}${passes > 1 ? `, ${passes} passes${each}` : ''}`
}

/** Alike cuts together. None comes before a cut that it waits for. */
function groupsOf(cuts: readonly SetupCut[], partKind: KindOf): SetupCut[][] {
  const groups: SetupCut[][] = []
  const groupAt = new Map<string, number>()
  const likeness = ({ kind, note, passes, count, ...cut }: SetupCut) =>
    JSON.stringify([kind, note, passes, count, kindOf({ kind, note, passes, count, ...cut }, partKind)])
  for (const cut of cuts) {
    const after = Math.max(-1, ...cut.after.map((key) => groupAt.get(key) ?? -1))
    let at = groups.findIndex((g, i) => i > after && likeness(g[0]) === likeness(cut))
    if (at < 0) at = groups.push([]) - 1
    groups[at].push(cut)
    groupAt.set(cut.key, at)
  }
  return groups
}

function benchCuts(alike: readonly SetupCut[], partKind: KindOf, units: LengthUnit): BenchCuts {
  const names = alike.map((c) => capital(c.pieceName))
  return {
    keys: alike.map((c) => c.key),
    names,
    title: titleOf(alike, kindOf(alike[0], partKind)),
    which: alike.length > 1 ? whichOnes(names) : '',
    note: inUnits(alike[0].note, units),
  }
}

/** @example benchSetups(plan, model.parts, 'mm')[0].title //=> 'Crosscut, stop at 614 mm' */
export function benchSetups(
  plan: Pick<SetupPlan, 'setups'>,
  parts: readonly { readonly id: string; readonly name: string; readonly kind: string }[],
  units: LengthUnit,
): BenchSetup[] {
  const kinds = new Map(parts.flatMap((p) => [p.id, p.name].map((named) => [named, p.kind] as const)))
  const partKind: KindOf = (idOrName) => kinds.get(idOrName)
  const numberOf = new Map(plan.setups.map((s, i) => [s.id, i + 1]))
  const said = new Map<StationKind, Set<string>>()
  return plan.setups.map((setup, i) => {
    const known = said.get(setup.station) ?? new Set<string>()
    said.set(setup.station, new Set([...known, ...setup.cautions]))
    const cautions = (isKnown: boolean) =>
      setup.cautions.filter((c) => known.has(c) === isKnown).map((c) => inUnits(c, units))
    return {
      id: setup.id,
      number: i + 1,
      station: setup.station,
      title: setupTitle(setup, units),
      settings: settingItems(setup, units),
      standsAs: setup.resumes === undefined ? null : (numberOf.get(setup.resumes) ?? null),
      testCut: inUnits(setup.testCut, units),
      checkWith: setup.checkWith,
      newCautions: cautions(false),
      knownCautions: cautions(true),
      cuts: groupsOf(setup.cuts, partKind).map((g) => benchCuts(g, partKind, units)),
      seconds: setup.settingSeconds + setup.cuttingSeconds,
    }
  })
}

export interface StationLeft {
  readonly station: StationKind
  readonly setups: number
  readonly seconds: number
  /** Of set-ups and cuts that are not ticked off; `seconds` while none is. */
  readonly secondsLeft: number
}

/** Setting counts until the last cut of its set-up is ticked off. */
const secondsLeft = (setup: Setup, ticked: ReadonlySet<string>): number => {
  const open = setup.cuts.filter((c) => !ticked.has(c.key))
  if (open.length === 0) return 0
  return setup.settingSeconds + open.reduce((sum, c) => sum + c.seconds, 0)
}

/** In the order in which the work first comes to each station. */
export function stationsLeft(
  plan: Pick<SetupPlan, 'setups' | 'stations'>,
  ticked: ReadonlySet<string>,
): StationLeft[] {
  const first = (station: StationKind) => plan.setups.findIndex((s) => s.station === station)
  return [...plan.stations]
    .sort((a, b) => first(a.station) - first(b.station))
    .map((t) => {
      const setups = plan.setups.filter((s) => s.station === t.station)
      const isBegun = setups.some((s) => s.cuts.some((c) => ticked.has(c.key)))
      const left = setups.reduce((sum, s) => sum + secondsLeft(s, ticked), 0)
      return { ...t, secondsLeft: isBegun ? left : t.seconds }
    })
}

/**
 * Cuts that are done because their board is recorded as cut, ticked off or not.
 * @param boards in the order of the plan's layouts
 */
export function recordedKeys(
  plan: Pick<SetupPlan, 'setups'>,
  boards: readonly { readonly id: string; readonly isCut: boolean }[],
): string[] {
  const ids = new Set(boards.filter((b) => b.isCut).map((b) => b.id))
  const isDone = (c: SetupCut) => ids.has(c.pieceId) || (c.tree && boards[c.tree.layout]?.isCut)
  return plan.setups.flatMap((s) => s.cuts.filter(isDone).map((c) => c.key))
}
