/**
 * The one change that would cure a failing check: for each parameter of the design the value nearest to the present
 * one at which the check passes, found by building and checking again, the least change first. In: a design, its
 * values and a check. Out: cures, or none. Only parameters that the design offers as cures (Design.cures), the way it
 * offers them, in whole millimetres and at most so many times the size. Method: outwards by doubling and inwards by halving.
 * A step of the budget is one build and check. Not guaranteed: a cure that needs two changes, or one beyond a stretch
 * that cannot be built. Tests: tests/core/statics/cure.test.ts
 */
import type { Design, ParameterSpec, ParameterValues } from '#lib/core/design/model'
import { readParameters } from '#lib/core/design/parameters'
import { type Budget, unlimited } from '#lib/core/units/budget'
import type { StrengthCheck } from './checks'
import { checkStrength, type StrengthOptions } from './strength'

export interface Cure {
  readonly parameter: string
  readonly label: string
  readonly unit: ParameterSpec['unit']
  readonly from: number | string
  readonly to: number | string
  /** What it reads like: «Rake 8 → 10°». */
  readonly sentence: string
  /** Margin of the check with this change. */
  readonly margin: number
  /** Failing checks of safety that are left, and those that are new. */
  readonly stillFailing: number
  readonly newlyFailing: readonly string[]
  /** Change as a share of the parameter's range; a choice counts as half. */
  readonly size: number
}

export interface CureReport {
  readonly status: 'done' | 'cancelled' | 'outOfBudget'
  readonly checkId: string
  readonly cures: readonly Cure[]
  readonly tried: number
}

interface Tried {
  readonly margin: number
  readonly failing: readonly string[]
}

interface Search {
  /** While searching, only the load case that governs now is run; what is found is checked with all. */
  readonly quick: StrengthOptions
  readonly design: Design
  readonly values: ParameterValues
  readonly options: StrengthOptions
  readonly check: StrengthCheck
  readonly budget: Budget
  readonly onTried?: (tried: number) => void
  tried: number
  isOut: boolean
  isCancelled: boolean
}

/** The check's margin with one parameter changed; undefined if that cannot be built or judged. */
function tryValue(
  s: Search,
  parameter: string,
  value: number | string,
  options: StrengthOptions = s.quick,
): Tried | undefined {
  if (s.tried >= s.budget.maxSteps) s.isOut = true
  if (s.budget.shouldStop?.()) s.isCancelled = true
  if (s.isOut || s.isCancelled) return undefined
  s.tried++
  s.onTried?.(s.tried)
  const built = s.design.build({ ...s.values, [parameter]: value })
  if (!built.ok) return undefined
  const report = checkStrength(built.value, options)
  if (!report.ok) return undefined
  const failing = report.value.checks.filter(({ passes, weight }) => !passes && weight === 'safety')
  const same = report.value.checks.find(({ id }) => id === s.check.id)
  return same === undefined ? undefined : { margin: same.margin, failing: failing.map(({ id }) => id) }
}

/** Fallback where a design does not say: what a piece is for and how it looks cures nothing. */
const NOT_A_CURE =
  /^(species|finish|counter|abreast|knee|floor|tuck|height|length|width|depth|seatWidth|seatDepth)/

/** The ways in which a parameter may go to cure something. */
function waysOf(design: Design, { id, unit }: ParameterSpec): readonly (1 | -1)[] {
  const way = design.cures === undefined ? (NOT_A_CURE.test(id) ? undefined : 'either') : design.cures[id]
  if (way === undefined) return []
  if (unit === 'choice') return [1]
  return way === 'either' ? [1, -1] : way === 'more' ? [1] : [-1]
}

/** Sizes that a saw is set to and screws that a shop has: whole millimetres, screws in steps of five. */
const WHOLE_MM = 1
const SCREW_STEP_MM = 5

function gridOf({ id, unit, step, min = 0, max = 0 }: ParameterSpec): number {
  if (unit === 'mm') return /screwLength$/i.test(id) ? SCREW_STEP_MM : Math.max(WHOLE_MM, step ?? 0)
  return step ?? Math.max((max - min) / 200, 1e-6)
}

/** So many times as large, or this much more of a small one, is another design and no cure. */
const MOST_TIMES = 1.6
const MOST_MORE = { mm: 15, deg: 10, count: 3, choice: 0 } as const

/** Values that a search may try one way, the nearest first: on the grid, in range, and no silly change. */
function valuesOn(spec: ParameterSpec, now: number, way: 1 | -1): readonly number[] {
  const grid = gridOf(spec)
  const most = Math.min(spec.max ?? now, Math.max(MOST_TIMES * now, now + MOST_MORE[spec.unit]))
  const least = spec.min ?? now
  const values: number[] = []
  const first = way > 0 ? Math.floor(now / grid + 1e-9) + 1 : Math.ceil(now / grid - 1e-9) - 1
  for (let k = first; ; k += way) {
    const value = Number((k * grid).toFixed(6))
    if (value > most || value < least) return values
    values.push(value)
  }
}

interface Found {
  readonly value: number
  readonly found: Tried
}

/** The least change in one direction at which the check passes. */
function leastChange(s: Search, spec: ParameterSpec, now: number, way: 1 | -1): Found | undefined {
  const values = valuesOn(spec, now, way)
  const room = values.length
  let low = 0
  let worse = 0
  for (let steps = Math.max(1, Math.round(room / 16)); steps <= room; steps = Math.min(2 * steps, room)) {
    const one = tryValue(s, spec.id, values[steps - 1])
    if (one === undefined) return edge(s, spec, values, low, steps)
    // A first step may do harm and a longer one good; two that do harm settle it.
    if (one.margin < s.check.margin + 1e-9 && ++worse === 2) return undefined
    if (one.margin >= 1) return narrow(s, spec, values, low, steps)
    low = steps
    if (steps === room) return undefined
  }
  return undefined
}

/** @param from steps that do not do @param to steps that do */
function narrow(
  s: Search,
  spec: ParameterSpec,
  values: readonly number[],
  from: number,
  to: number,
): Found | undefined {
  let [low, high] = [from, to]
  while (high - low > 1) {
    const middle = Math.floor((low + high) / 2)
    const one = tryValue(s, spec.id, values[middle - 1])
    if (s.isOut || s.isCancelled) break
    if (one !== undefined && one.margin >= 1) high = middle
    else low = middle
  }
  return confirmed(s, spec, values, high)
}

/** The first value from here on that passes under all load cases; a few steps are tried. */
function confirmed(
  s: Search,
  spec: ParameterSpec,
  values: readonly number[],
  steps: number,
): Found | undefined {
  for (const value of values.slice(steps - 1, steps - 1 + MORE_STEPS)) {
    const found = tryValue(s, spec.id, value, s.options)
    if (found !== undefined && found.margin >= 1) return { value, found }
  }
  return undefined
}

/** Beyond `to` it cannot be built: looks between for the last that can, and whether it passes. */
function edge(
  s: Search,
  spec: ParameterSpec,
  values: readonly number[],
  from: number,
  to: number,
): Found | undefined {
  let [low, high] = [from, to]
  for (let round = 0; round < 5 && high - low > 1; round++) {
    const middle = Math.floor((low + high) / 2)
    const one = tryValue(s, spec.id, values[middle - 1])
    if (one === undefined) high = middle
    else if (one.margin >= 1) return narrow(s, spec, values, from, middle)
    else low = middle
  }
  return undefined
}

/** Steps beyond the first that seemed to do, if another load case governs there. */
const MORE_STEPS = 6

const UNIT = { mm: ' mm', deg: '°', count: '', choice: '' } as const

function cureOf(
  s: Search,
  spec: ParameterSpec,
  to: number | string,
  size: number,
  found: Tried,
  failingNow: readonly string[],
): Cure {
  const from = s.values[spec.id]
  const say = (value: number | string): string =>
    spec.options?.find((option) => option.value === value)?.label ?? `${value}${UNIT[spec.unit]}`
  return {
    parameter: spec.id,
    label: spec.label,
    unit: spec.unit,
    from,
    to,
    sentence: `${spec.label}: ${say(to)} instead of ${say(from)}.`,
    margin: found.margin,
    stillFailing: found.failing.length,
    newlyFailing: found.failing.filter((id) => !failingNow.includes(id)),
    size,
  }
}

function numberCures(s: Search, spec: ParameterSpec, failing: readonly string[]): Cure[] {
  const now = Number(s.values[spec.id])
  const range = Math.max(1e-9, (spec.max ?? now) - (spec.min ?? now))
  return waysOf(s.design, spec).flatMap((way) => {
    const least = leastChange(s, spec, now, way)
    if (least === undefined) return []
    return [cureOf(s, spec, least.value, Math.abs(least.value - now) / range, least.found, failing)]
  })
}

function choiceCures(s: Search, spec: ParameterSpec, failing: readonly string[]): Cure[] {
  return (spec.options ?? []).flatMap(({ value }) => {
    if (value === s.values[spec.id]) return []
    const one = tryValue(s, spec.id, value, s.options)
    return one !== undefined && one.margin >= 1 ? [cureOf(s, spec, value, 0.5, one, failing)] : []
  })
}

/**
 * Single changes that make a failing check pass: those that break nothing else and leave least failing before others,
 * then the least.
 * @param values of the design as it is; what is absent takes its default
 */
export function curesFor(
  design: Design,
  values: ParameterValues,
  check: StrengthCheck,
  options: StrengthOptions = {},
  budget: Budget = unlimited,
  onTried?: (tried: number) => void,
): CureReport {
  const read = readParameters(design.parameters, values)
  if (!read.ok || check.passes) return { status: 'done', checkId: check.id, cures: [], tried: 0 }
  const only = check.kind === 'tipping' ? ('tipping' as const) : { loadCase: check.loadCase }
  const isAlways = check.kind === 'movement' || check.kind === 'gap'
  const s: Search = {
    quick: { ...options, only: isAlways ? ('tipping' as const) : only },
    design,
    values: read.value,
    options,
    check,
    budget,
    ...(onTried === undefined ? {} : { onTried }),
    tried: 0,
    isOut: false,
    isCancelled: false,
  }
  const built = design.build(read.value)
  const report = built.ok ? checkStrength(built.value, options) : undefined
  const failing = report?.ok
    ? report.value.checks.filter(({ passes, weight }) => !passes && weight === 'safety').map(({ id }) => id)
    : []
  const cures = design.parameters
    .filter((spec) => waysOf(design, spec).length > 0)
    .flatMap((spec) =>
      spec.unit === 'choice' ? choiceCures(s, spec, failing) : numberCures(s, spec, failing),
    )
    .sort(
      (a, b) =>
        a.newlyFailing.length - b.newlyFailing.length || a.stillFailing - b.stillFailing || a.size - b.size,
    )
  return {
    status: s.isCancelled ? 'cancelled' : s.isOut ? 'outOfBudget' : 'done',
    checkId: check.id,
    cures,
    tried: s.tried,
  }
}
