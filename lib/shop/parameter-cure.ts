/**
 * The smallest change of one number of the design that lets every part come out of the pool: for each number, outwards
 * by doubling until all parts can be made, then back by halving; each value is built, its parts are laid on the boards
 * again, and the cutting is planned anew with a short search. In: a design with its numbers, the boards and machines of
 * a plan. Out: changes, the smallest first. A step of the budget is one value that was tried.
 * Not guaranteed: a change that only a longer search would find, or one of two numbers at once. Boards that none of the
 * parts fitted when the plan was made are not looked at. Tests: tests/shop/parameter-cure.test.ts
 */
import { planForms } from '#lib/core/cutting/plan-forms'
import type { Design, ParameterSpec, ParameterValues } from '#lib/core/design/model'
import { readParameters } from '#lib/core/design/parameters'
import type { Budget } from '#lib/core/units/budget'
import { canonicalJson, type PlanInput, type PlannedBoard, planInput } from './plan-input'

export interface CureQuestion {
  readonly parameters: ParameterValues
  readonly boards: readonly PlannedBoard[]
  readonly partsMade: readonly string[]
  readonly gluedUp: readonly string[]
  readonly shop: PlanInput['shop']
}

export interface ParameterCure {
  readonly parameter: string
  readonly label: string
  readonly unit: ParameterSpec['unit']
  readonly from: number
  readonly to: number
  /** Change as a share of the number itself. */
  readonly size: number
}

export interface ParameterCures {
  readonly cures: readonly ParameterCure[]
  readonly tried: number
  readonly isStopped: boolean
}

/** What the place and its people ask for is no cure of a cutting plan. */
const GIVEN = /^(counter|floor|knee|tuck|wall|door|abreast|person|sitter)/

/** A change beyond this share of a number, or this many steps of a small one, is another design. */
const MOST_SHARE = 0.3
const LEAST_STEPS = 6
const SOLVE_STEPS = 2_000

const gridOf = ({ unit, step, min = 0, max = 0 }: ParameterSpec): number =>
  unit === 'mm' ? Math.max(1, step ?? 0) : (step ?? Math.max((max - min) / 100, 1e-6))

/** Values one way, the nearest first: on the grid and in range. */
function valuesOn(spec: ParameterSpec, now: number, way: 1 | -1): readonly number[] {
  const grid = gridOf(spec)
  const reach = Math.max(MOST_SHARE * Math.abs(now), LEAST_STEPS * grid)
  const values: number[] = []
  const first = way > 0 ? Math.floor(now / grid + 1e-9) + 1 : Math.ceil(now / grid - 1e-9) - 1
  for (let k = first; ; k += way) {
    const value = Number((k * grid).toFixed(6))
    const isOut = value > (spec.max ?? now) || value < (spec.min ?? now)
    if (isOut || Math.abs(value - now) > reach + 1e-9) return values
    values.push(value)
  }
}

type Verdict = 'all' | 'short' | 'same' | 'cannot'

class Search {
  tried = 0
  isStopped = false
  private readonly needsNow: string
  constructor(
    private readonly design: Design,
    private readonly question: CureQuestion,
    private readonly values: ParameterValues,
    private readonly budget: Budget,
    private readonly tell: (tried: number) => void,
  ) {
    this.needsNow = canonicalJson(this.inputFor({})?.needs ?? [])
  }

  private inputFor(change: ParameterValues): PlanInput | null {
    const { boards, partsMade, gluedUp, shop } = this.question
    const model = this.design.build({ ...this.values, ...change })
    return model.ok ? planInput(model.value, boards, new Set(partsMade), shop, { gluedUp }) : null
  }

  /** Whether every part can be made with one number changed. */
  verdict(parameter: string, value: number): Verdict {
    this.isStopped ||= this.tried >= this.budget.maxSteps || (this.budget.shouldStop?.() ?? false)
    if (this.isStopped) return 'cannot'
    this.tell(++this.tried)
    const input = this.inputFor({ [parameter]: value })
    if (input === null) return 'cannot'
    if (canonicalJson(input.needs) === this.needsNow) return 'same'
    if (input.pool.unmakeable.length > 0) return 'short'
    const plan = planForms(input.pool.problem, {
      seed: 1,
      budget: { maxSteps: SOLVE_STEPS, shouldStop: this.budget.shouldStop },
      isCureWanted: false,
    })
    return plan.shortages.length === 0 ? 'all' : 'short'
  }

  /** The smallest change one way, or null. */
  smallest(spec: ParameterSpec, now: number, way: 1 | -1): number | null {
    const values = valuesOn(spec, now, way)
    let low = 0
    for (let at = 1; values.length > 0; at = Math.min(2 * at, values.length)) {
      const verdict = this.verdict(spec.id, values[at - 1])
      if (verdict === 'all') return this.narrow(spec, values, low, at)
      if (verdict === 'cannot' || (verdict === 'same' && at === values.length)) return null
      low = at
      if (at === values.length) return null
    }
    return null
  }

  private narrow(spec: ParameterSpec, values: readonly number[], low: number, high: number): number {
    let [short, good] = [low, high]
    while (good - short > 1 && !this.isStopped) {
      const mid = (short + good) >> 1
      if (this.verdict(spec.id, values[mid - 1]) === 'all') good = mid
      else short = mid
    }
    return values[good - 1]
  }
}

/**
 * @param tell called with the number of values tried
 * @example parameterCures(counterSeat, question, { maxSteps: 200 }).cures[0].label //=> 'Height'
 */
export function parameterCures(
  design: Design,
  question: CureQuestion,
  budget: Budget,
  tell: (tried: number) => void = () => undefined,
): ParameterCures {
  const read = readParameters(design.parameters, question.parameters)
  if (!read.ok) return { cures: [], tried: 0, isStopped: false }
  const search = new Search(design, question, read.value, budget, tell)
  const cures: ParameterCure[] = []
  for (const spec of design.parameters) {
    const now = read.value[spec.id]
    if (spec.unit === 'choice' || typeof now !== 'number' || GIVEN.test(spec.id)) continue
    for (const way of [-1, 1] as const) {
      const to = search.smallest(spec, now, way)
      if (to === null) continue
      const size = Math.abs(to - now) / Math.max(Math.abs(now), gridOf(spec))
      cures.push({ parameter: spec.id, label: spec.label, unit: spec.unit, from: now, to, size })
    }
  }
  cures.sort((a, b) => a.size - b.size)
  return { cures, tried: search.tried, isStopped: search.isStopped }
}
