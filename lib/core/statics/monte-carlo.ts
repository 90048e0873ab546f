/**
 * A range instead of one number: how often a piece would fail if its wood, its joints and the loads came out as they
 * scatter. In: checks of a study, and three studies with softer and stiffer joints if given. Out: for every check
 * the 5th, 50th and 95th percentile of its margin and how often it fails; the same seed gives the same answer. Method:
 * independent draws; strengths lognormal about their means with the variation of their source, one draw a piece of wood
 * or joint; load normal about its published value, 10 % (assumed); joint stiffness half to double, lognormal (assumed),
 * between the studies by a parabola in its logarithm. Knots and grain stay at the limit of the grade. Cost: draws ×
 * checks. Tests: tests/core/statics/monte-carlo.test.ts
 */
import type { Budget } from '#lib/core/units/budget'
import { type Rng, seededRng } from '#lib/core/units/rng'
import type { StrengthCheck } from './checks'

export interface ScatterOptions {
  readonly seed: number
  readonly draws: number
  /** Coefficient of variation of the loads. */
  readonly loadVariation?: number
  /** Asked between blocks of draws; a step is one draw. */
  readonly budget?: Budget
  readonly onProgress?: (done: number, of: number) => void
  /** Checks of the same model with joints half and twice as stiff. */
  readonly soft?: readonly StrengthCheck[]
  readonly stiff?: readonly StrengthCheck[]
}

export interface Scatter {
  readonly checkId: string
  readonly title: string
  /** True strength over true load, at the 5th, 50th and 95th percentile. */
  readonly low: number
  readonly middle: number
  readonly high: number
  /** Share of the draws in which it fails. */
  readonly fails: number
}

export interface ScatterReport {
  readonly status: 'done' | 'cancelled' | 'outOfBudget'
  readonly draws: number
  readonly seed: number
  /** Most often failing first, then least middle. */
  readonly checks: readonly Scatter[]
  /** Share of the draws in which anything that was drawn for fails. */
  readonly anyFails: number
  /** What fails first, by how often it is the weakest. */
  readonly weakest: readonly { readonly checkId: string; readonly share: number }[]
}

export const LOAD_VARIATION = 0.1
/** Standard deviation of the logarithm of joint stiffness: a factor of two is two of them. */
const STIFFNESS_LOG = Math.LN2 / 2
const BLOCK = 50

/** Two draws of a standard normal a call (Box and Muller 1958). */
function normals(rng: Rng): () => number {
  let spare: number | undefined
  return () => {
    if (spare !== undefined) {
      const value = spare
      spare = undefined
      return value
    }
    const radius = Math.sqrt(-2 * Math.log(1 - rng.next()))
    const angle = 2 * Math.PI * rng.next()
    spare = radius * Math.sin(angle)
    return radius * Math.cos(angle)
  }
}

interface Drawn {
  readonly check: StrengthCheck
  readonly key: number
  readonly meanMargin: number
  /** Of the lognormal. */
  readonly logMean: number
  readonly logSd: number
  /** Parabola of log demand in log2 stiffness: b t + c t^2. */
  readonly b: number
  readonly c: number
}

function prepare(
  checks: readonly StrengthCheck[],
  options: ScatterOptions,
): { readonly drawn: Drawn[]; readonly keys: number } {
  const keys = new Map<string, number>()
  const find = (list: readonly StrengthCheck[] | undefined) =>
    new Map((list ?? []).map((check) => [check.id, check.margin]))
  const [soft, stiff] = [find(options.soft), find(options.stiff)]
  const drawn = checks.flatMap((check): Drawn[] => {
    const { chance } = check
    if (chance === undefined || check.margin <= 0 || check.margin >= 999) return []
    const key = keys.get(chance.key) ?? keys.size
    keys.set(chance.key, key)
    const log2 = Math.log(1 + chance.variation ** 2)
    const shift = (margin: number | undefined): number =>
      margin === undefined || margin <= 0 ? 0 : Math.log(margin / check.margin)
    const [low, high] = [shift(soft.get(check.id)), shift(stiff.get(check.id))]
    return [
      {
        check,
        key,
        meanMargin: check.margin * chance.meanOverCapacity,
        logMean: -log2 / 2,
        logSd: Math.sqrt(log2),
        b: (high - low) / 2,
        c: (high + low) / 2,
      },
    ]
  })
  return { drawn, keys: keys.size }
}

const at = (sorted: Float64Array, share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]

/**
 * Draws a piece many times.
 * @throws RangeError unless `draws` is a whole number from 1 to 1 000 000
 */
export function scatterOf(checks: readonly StrengthCheck[], options: ScatterOptions): ScatterReport {
  const { seed, draws, loadVariation = LOAD_VARIATION, budget, onProgress } = options
  if (!(Number.isInteger(draws) && draws >= 1 && draws <= 1e6))
    throw new RangeError(`not a number of draws: ${draws}`)
  if (!(loadVariation >= 0 && loadVariation < 0.5))
    throw new RangeError(`not a variation of loads: ${loadVariation}`)
  const { drawn, keys } = prepare(checks, options)
  const normal = normals(seededRng(seed))
  const margins = drawn.map(() => new Float64Array(draws))
  const weakest = new Int32Array(drawn.length)
  const luck = new Float64Array(keys)
  const most = Math.min(draws, budget?.maxSteps ?? draws)
  let [done, anyFails] = [0, 0]
  let status: ScatterReport['status'] = 'done'
  for (; done < most; done++) {
    if (done % BLOCK === 0) {
      onProgress?.(done, draws)
      if (budget?.shouldStop?.()) {
        status = 'cancelled'
        break
      }
    }
    const load = Math.max(0.05, 1 + loadVariation * normal())
    const t = Math.max(-2, Math.min(2, (STIFFNESS_LOG * normal()) / Math.LN2))
    for (let k = 0; k < keys; k++) luck[k] = normal()
    let [least, worst] = [Number.POSITIVE_INFINITY, -1]
    drawn.forEach((one, i) => {
      const strength = Math.exp(one.logMean + one.logSd * luck[one.key] + one.b * t + one.c * t * t)
      const margin = (one.meanMargin * strength) / load
      margins[i][done] = margin
      if (margin < least) {
        least = margin
        worst = i
      }
    })
    if (worst >= 0) weakest[worst]++
    if (least < 1) anyFails++
  }
  if (status === 'done' && done < draws) status = 'outOfBudget'
  onProgress?.(done, draws)
  const counted = Math.max(1, done)
  return {
    status,
    draws: done,
    seed,
    checks:
      done === 0
        ? []
        : drawn
            .map((one, i) => summary(one, margins[i].subarray(0, done)))
            .sort((a, b) => b.fails - a.fails || a.middle - b.middle),
    anyFails: anyFails / counted,
    weakest: drawn
      .map(({ check }, i) => ({ checkId: check.id, share: weakest[i] / counted }))
      .filter(({ share }) => share > 0)
      .sort((a, b) => b.share - a.share),
  }
}

function summary({ check }: Drawn, margins: Float64Array): Scatter {
  const sorted = margins.slice().sort()
  const fails = margins.reduce((count, margin) => count + (margin < 1 ? 1 : 0), 0) / margins.length
  return {
    checkId: check.id,
    title: check.title,
    low: at(sorted, 0.05),
    middle: at(sorted, 0.5),
    high: at(sorted, 0.95),
    fails,
  }
}
