/**
 * Plans the cutting of parts that need not be cut one by one: raked parts nested head to tail, short parts kept
 * together for the planer, panels glued up from staves (forms.ts). A problem without any goes straight to planCuts.
 *
 * Method: every way for every blank is tried in turn on the best form so far, each with a short search of planCuts
 * (coordinate descent); the best form is then searched longer and longer, other forms being tried in between.
 * Compared by weight made, parts that would have to be planed by hand, cost, rests, settings of stop and fence.
 * Bounds hold for every form: form-bounds.ts.
 * Deterministic for a seed and a step budget. Tests: tests/core/cutting/plan-forms.test.ts
 */
import { seededRng } from '#lib/core/units/rng'
import { checkProblem } from './check-problem'
import { countSettings } from './cut-order'
import { boundsOf, type FormBounds } from './form-bounds'
import { type Choice, choicesOf, type Form, formProblem, planOfForm } from './forms'
import { leavesOf, offcutWorth, restsOf } from './offcuts'
import { type PlanOptions, planCuts } from './plan-cuts'
import { planedByHand } from './planed-together'
import type { CutNode, CutPlan, CutProblem } from './problem'
import { cureOf } from './shortage'

/** Steps of a trial of one form, and of the first longer search. */
const TRIAL_STEPS = 1_500
const FIRST_SEARCH_STEPS = 20_000
/** Longer searches without a better plan after which a search without a step limit ends. */
const MOST_IDLE_ROUNDS = 8

interface Standing {
  readonly form: Form
  readonly plan: CutPlan
  readonly byHand: number
  readonly restWorth: number
  readonly settings: number
}

/** Whether any blank of a problem may be cut in another way than one by one. */
export const hasForms = (problem: CutProblem): boolean =>
  problem.objective === 'parts' &&
  problem.blanks.some(
    (b) =>
      b.stave !== undefined || b.ends !== undefined || (b.planedUm !== undefined && b.planedUm > b.lengthUm),
  )

function standingOf(problem: CutProblem, form: Form, plan: CutPlan): Standing {
  const sum = (of: (tree: CutNode) => number): number =>
    plan.layouts.reduce((total, l) => total + l.copies * of(l.tree), 0)
  const worth = (tree: CutNode): number =>
    restsOf(tree).offcuts.reduce((w, o) => w + offcutWorth(o.lengthUm, o.widthUm), 0)
  return {
    form,
    plan,
    byHand: sum((tree) => planedByHand(problem, tree)),
    restWorth: sum(worth),
    settings: countSettings(
      plan.layouts.map((l) => l.tree),
      problem.limits,
    ),
  }
}

const EVEN = 1e-9

/** Which of two plans is better, level by level; above 0: the first. */
function compared(a: Standing, b: Standing): number {
  const levels = [
    a.plan.weightMade - b.plan.weightMade,
    b.byHand - a.byHand,
    b.plan.cost - a.plan.cost,
    a.restWorth - b.restWorth,
    b.settings - a.settings,
  ]
  return levels.find((d) => Math.abs(d) > EVEN) ?? 0
}

/** The best plan so far, and what was spent on it. */
class FormSearch {
  best: Standing | null = null
  steps = 0
  isStopped = false
  private bounds: FormBounds | null = null

  constructor(
    private readonly problem: CutProblem,
    private readonly options: PlanOptions,
  ) {}

  get isOver(): boolean {
    this.isStopped ||= this.options.budget.shouldStop?.() ?? false
    return (
      this.isStopped || this.steps >= this.options.budget.maxSteps || this.best?.plan.status === 'optimal'
    )
  }

  /** Works out the bounds; until then a plan claims nothing. */
  prove(): void {
    this.bounds = boundsOf(this.problem, this.options)
    if (this.best !== null) this.best = { ...this.best, plan: this.judged(this.best.plan) }
  }

  judged(plan: Omit<CutPlan, 'status' | 'weightBound' | 'costBound'>): CutPlan {
    const all = this.problem.blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? 0), 0)
    const weightBound = Math.max(plan.weightMade, this.bounds?.weight ?? all)
    const costBound = Math.min(plan.cost, this.bounds?.cost(plan) ?? 0)
    const isBest =
      plan.weightMade >= weightBound - EVEN * Math.max(1, weightBound) &&
      plan.cost <= costBound + EVEN * Math.max(1, plan.cost)
    const nothing = this.isStopped ? ('cancelled' as const) : ('outOfBudget' as const)
    const status = isBest ? ('optimal' as const) : plan.layouts.length > 0 ? ('feasible' as const) : nothing
    return { ...plan, weightBound, costBound, status, steps: this.steps }
  }

  /** Searches one form; keeps its plan where it is better. @returns whether it was */
  tryForm(form: Form, maxSteps: number, seed: number): boolean {
    const formed = formProblem(this.problem, form)
    const before = this.steps
    let isBetter = false
    const keep = (found: CutPlan): void => {
      this.steps = before + found.steps
      const plan = this.judged(planOfForm(this.problem, form, formed, found))
      const standing = standingOf(this.problem, form, plan)
      if (this.best !== null && compared(standing, this.best) <= 0) return
      isBetter = true
      this.best = standing
      this.options.onBetter?.(plan)
    }
    const left = Math.max(1, this.options.budget.maxSteps - before)
    const budget = { ...this.options.budget, maxSteps: Math.min(maxSteps, left) }
    const found = planCuts(formed.problem, { seed, budget, isTrial: true, onBetter: keep })
    keep(found)
    this.steps = Math.max(this.steps, before + 1)
    return isBetter
  }
}

const replacedAt = (form: Form, index: number, choice: Choice): Form =>
  form.map((each, i) => (i === index ? choice : each))

/** One pass over all blanks: every other way of each, on the best form so far. @returns whether any was better */
function descend(search: FormSearch, choices: readonly (readonly Choice[])[], seed: number): boolean {
  let isBetter = false
  choices.forEach((ways, index) => {
    for (const way of ways) {
      const form = search.best?.form
      if (search.isOver || form === undefined || form[index] === way) continue
      if (search.tryForm(replacedAt(form, index, way), TRIAL_STEPS, seed)) isBetter = true
    }
  })
  return isBetter
}

/**
 * Plans the cutting of a problem, in the form that makes most of it.
 * @returns the best plan found within the budget, told in the problem's own blanks; it passes `verifyCutPlan`
 * @throws RangeError for a problem that cannot be meant, naming the value
 * @example planForms(fourRakedLegs, { seed: 1, budget: { maxSteps: 50_000 } }).layouts.length //=> 1
 */
export function planForms(problem: CutProblem, options: PlanOptions): CutPlan {
  if (!hasForms(problem)) return planCuts(problem, options)
  checkProblem(problem)
  const choices = choicesOf(problem)
  const search = new FormSearch(problem, options)
  const plainest = choices.map(([first]) => first)
  search.tryForm(plainest, TRIAL_STEPS, options.seed)
  search.prove()
  while (!search.isOver && descend(search, choices, options.seed));
  const rng = seededRng(options.seed)
  const open = choices.flatMap((ways, i) => (ways.length > 1 ? [i] : []))
  let idle = 0
  for (let round = 0; idle < MOST_IDLE_ROUNDS && !search.isOver; round++) {
    const { form } = search.best as Standing
    const steps = FIRST_SEARCH_STEPS * 2 ** Math.min(6, round >> 1)
    let isBetter = search.tryForm(form, steps, options.seed + round)
    // Two ways changed at once, now and then: what no single change finds.
    let other = form
    for (let n = 0; n < 2 && open.length > 0; n++) {
      const at = open[Math.floor(rng.next() * open.length)]
      other = replacedAt(other, at, choices[at][Math.floor(rng.next() * choices[at].length)])
    }
    if (!search.isOver) isBetter = search.tryForm(other, steps >> 2, options.seed + round) || isBetter
    idle = isBetter ? 0 : idle + 1
  }
  return withCure(problem, search, options)
}

function withCure(problem: CutProblem, search: FormSearch, options: PlanOptions): CutPlan {
  const plan = search.judged((search.best as Standing).plan)
  const isWanted = options.isCureWanted !== false && !search.isStopped
  if (plan.shortages.length === 0 || !isWanted) return plan
  const cure = cureOf(problem, plan, () => search.isOver)
  return cure === undefined ? plan : { ...plan, cure }
}

/** Levels of the objective, as a maker compares plans: see docs/methods/cutting.md. */
export function objectiveLevels(problem: CutProblem, plan: CutPlan) {
  const { byHand, restWorth, settings } = standingOf(problem, [], plan)
  const offcuts = plan.layouts.reduce((n, l) => n + l.copies * restsOf(l.tree).offcuts.length, 0)
  const parts = plan.layouts.reduce(
    (n, l) => n + l.copies * leavesOf(l.tree).filter((leaf) => leaf.kind === 'blank').length,
    0,
  )
  return { weightMade: plan.weightMade, pieces: parts, byHand, cost: plan.cost, offcuts, restWorth, settings }
}
