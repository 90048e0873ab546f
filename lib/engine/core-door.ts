/**
 * The core without the app: `npm run -s core -- model|cut|setups|frame|strength < in.json > out.json`, for scripts and for anyone who
 * wants to check a result with tools of their own. In: a verb, JSON on standard input. Out: JSON on standard output;
 * or { error: { code, message, path } } on standard error with exit code 2 for bad input, 1 for a bug of ours.
 * Plans are checked by verifyCutPlan and verifySetups before they are written. Formats: docs/formats.md.
 * Tests: tests/engine/core-door.test.ts (which also runs the examples of docs/formats.md)
 */
import { pathToFileURL } from 'node:url'
import type { z } from 'zod'
import type { LpSolver } from '#lib/core/cutting/lp'
import { planForms } from '#lib/core/cutting/plan-forms'
import type { CutNode, CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { answerFor, type PublishedInstance, problemFromPublished } from '#lib/core/cutting/published'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { designById, designs } from '#lib/core/design/designs/registry'
import type { Design, Model, ParameterValues } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { SetupInput } from '#lib/core/setups/setup-input'
import { DEFAULT_SETUP_SHOP, type SetupShop } from '#lib/core/setups/setup-shop'
import { verifySetups } from '#lib/core/setups/verify-setups'
import type { Result } from '#lib/core/units/result'
import {
  cutInput,
  modelInput,
  type PublishedCase,
  publishedInput,
  type SetupsInput,
  setupsInput,
} from './core-door-input'
import { parseFormula } from './formula-parser'
import { loadLpSolver } from './lp-solver'
import { answerFrame, answerStrength, frameInput, strengthInput } from './strength-door'

export interface DoorAnswer {
  readonly exitCode: 0 | 1 | 2
  readonly stdout: string
  readonly stderr: string
}

/** What was asked for cannot be meant; told to the caller with the place of the fault. */
class BadInput extends Error {
  constructor(
    readonly code: 'usage' | 'badJson' | 'badInput' | 'refused',
    message: string,
    readonly path: readonly (string | number)[] = [],
  ) {
    super(message)
  }
}

const DEFAULT_SECONDS = 10

function safelyParsed<T>(schema: z.ZodType<T>, value: unknown): z.ZodSafeParseResult<T> {
  try {
    return schema.safeParse(value)
  } catch {
    throw new BadInput('badInput', 'nested too deeply to be read')
  }
}

function parsed<T>(schema: z.ZodType<T>, value: unknown): T {
  const read = safelyParsed(schema, value)
  if (read.success) return read.data
  const { message, path } = deepest(read.error.issues)
  throw new BadInput(
    'badInput',
    message,
    path.map((step) => (typeof step === 'symbol' ? String(step) : step)),
  )
}

interface Issue {
  readonly message: string
  readonly path: readonly PropertyKey[]
}

/** The issue that lies deepest, since the others of a union are about formats that were not meant. */
function deepest(issues: readonly z.core.$ZodIssue[], above: readonly PropertyKey[] = []): Issue {
  const found = issues.map((issue): Issue => {
    const path = [...above, ...issue.path]
    const inner = issue.code === 'invalid_union' ? issue.errors.filter((list) => list.length > 0) : []
    return inner.length === 0 ? { message: issue.message, path } : deepest(inner.flat(), path)
  })
  return found.reduce((best, issue) => (issue.path.length > best.path.length ? issue : best))
}

function model(value: unknown): Model {
  const input = parsed(modelInput, value)
  const design = 'recipe' in input ? ownDesign(input.recipe) : designOf(input.design)
  return buildModel(design, input.parameters)
}

function ownDesign(recipe: Recipe): Design {
  const made = recipeDesign(recipe, { id: 'recipe', version: 1 }, parseFormula)
  if (made.ok) return made.value
  const [{ path, message }] = made.error
  throw new BadInput('badInput', message, [
    'recipe',
    ...path.split('.').map((key) => (/^\d+$/.test(key) ? Number(key) : key)),
  ])
}

function designOf(designId: string): Design {
  const design = designById(designId)
  if (design !== undefined) return design
  const known = designs.map((d) => d.id).join(', ')
  throw new BadInput('badInput', `no design ${designId}; there are: ${known}`, ['design'])
}

function buildModel(design: Design, parameters: ParameterValues): Model {
  const built = design.build(parameters)
  if (built.ok) return built.value
  const [first] = built.error
  const sentences = built.error.map((refusal) => refusal.message).join(' ')
  throw new BadInput('refused', sentences, ['parameters', first.parameter])
}

interface Effort {
  readonly seed?: number | undefined
  readonly maxSteps?: number | undefined
  readonly seconds?: number | undefined
}

interface Solved {
  readonly plan: CutPlan
  readonly seconds: number
}

/** Plans within its seconds, and lets no plan out that its independent check does not pass. */
function solve(problem: CutProblem, effort: Effort, lp: LpSolver): Solved {
  const t0 = performance.now()
  const elapsed = (): number => (performance.now() - t0) / 1000
  const limit = effort.seconds ?? DEFAULT_SECONDS
  const budget = {
    maxSteps: effort.maxSteps ?? Number.POSITIVE_INFINITY,
    shouldStop: () => elapsed() > limit,
    nowMs: () => performance.now(),
  }
  const plan = planForms(problem, { seed: effort.seed ?? 1, budget, lp })
  const seconds = elapsed()
  const faults = verifyCutPlan(problem, plan)
  if (faults.length > 0) throw new Error(`the plan does not pass its check: ${JSON.stringify(faults[0])}`)
  return { plan, seconds }
}

function publishedCases(value: unknown): readonly PublishedCase[] {
  const read = parsed(publishedInput, value)
  if (!('instances' in read)) return [read as PublishedCase]
  const { instances, seed, maxSteps, seconds } = read as { instances: PublishedCase[] } & Effort
  return instances.map((each) => ({ ...each, ...filled({ seed, maxSteps, seconds }, each) }))
}

/** An instance's own limits, and the file's where it has none. */
const filled = (file: Effort, own: Effort): Effort => ({
  seed: own.seed ?? file.seed,
  maxSteps: own.maxSteps ?? file.maxSteps,
  seconds: own.seconds ?? file.seconds,
})

async function cut(value: unknown): Promise<unknown> {
  const isPublished = typeof value === 'object' && value !== null && ('instances' in value || 'dim' in value)
  const lp = await loadLpSolver()
  if (isPublished) {
    const instances = publishedCases(value).map((instance) => {
      const { plan, seconds } = solve(problemFromPublished(instance as PublishedInstance), instance, lp)
      return answerFor(instance as PublishedInstance, plan, seconds)
    })
    return { instances }
  }
  const { problem, ...effort } = parsed(cutInput, value)
  const { plan, seconds } = solve(problem as CutProblem, effort, lp)
  const isByWeight = problem.objective === 'parts' || problem.objective === 'maxValue'
  return {
    status: plan.status,
    value: isByWeight ? plan.weightMade : plan.cost,
    bound: isByWeight ? plan.weightBound : plan.costBound,
    seconds,
    plan,
  }
}

/** The shop as given, and for the rest the shop of common practice. */
function shopOf(given: SetupsInput['shop']): SetupShop {
  const usual = DEFAULT_SETUP_SHOP
  return {
    planer: { ...usual.planer, ...given.planer },
    tableSaw: { ...usual.tableSaw, ...given.tableSaw },
    routerTable: { ...usual.routerTable, ...given.routerTable },
    drillPress: { ...usual.drillPress, ...given.drillPress },
    laserEngraver: { ...usual.laserEngraver, ...given.laserEngraver },
    times: { ...usual.times, ...given.times, changes: { ...usual.times.changes, ...given.times?.changes } },
  } as SetupShop
}

/** Children that do not lie in their parent, side by side, would be cuts that nobody can make. */
function checkTree(node: CutNode, blanks: number, path: readonly (string | number)[]): void {
  if (node.kind === 'blank' && node.blank >= blanks) {
    throw new BadInput('badInput', `no blank ${node.blank}`, [...path, 'blank'])
  }
  if (node.kind !== 'cut') return
  const isRip = node.cut === 'rip'
  const along = (n: CutNode): number => (isRip ? n.widthUm : n.lengthUm)
  const across = (n: CutNode): number => (isRip ? n.lengthUm : n.widthUm)
  const parts = [node.first, ...(node.second ? [node.second] : [])]
  const sum = parts.reduce((total, part) => total + along(part), 0)
  if (along(node.first) !== node.atUm || sum > along(node) || parts.some((p) => across(p) !== across(node))) {
    throw new BadInput(
      'badInput',
      `the pieces of this ${node.cut} do not fit the piece that it divides`,
      path,
    )
  }
  checkTree(node.first, blanks, [...path, 'first'])
  if (node.second !== undefined) checkTree(node.second, blanks, [...path, 'second'])
}

function setups(value: unknown): unknown {
  const read = parsed(setupsInput, value)
  const shop = shopOf(read.shop)
  if (shop.tableSaw.notchStepMm > shop.tableSaw.kerfMm) {
    throw new BadInput('badInput', 'a step wider than the kerf leaves ridges', [
      'shop',
      'tableSaw',
      'notchStepMm',
    ])
  }
  read.layouts.forEach((layout, i) => {
    checkTree(layout.tree, read.blanks.length, ['layouts', i, 'tree'])
  })
  const input = { ...read, shop } as unknown as SetupInput
  const plan = planSetups(input)
  const faults = verifySetups(input, plan)
  if (faults.length > 0) throw new Error(`the set-ups do not pass their check: ${JSON.stringify(faults[0])}`)
  return plan
}

/** A sentence instead of an answer is the input's fault. */
function told<T>(result: Result<T, string>): T {
  if (result.ok) return result.value
  throw new BadInput('refused', result.error)
}

const frame = (value: unknown): unknown => told(answerFrame(parsed(frameInput, value)))

function strength(value: unknown): unknown {
  const input = parsed(strengthInput, value)
  if ('model' in input) return told(answerStrength(input.model as unknown as Model, input))
  const { parameters } = input
  const design = designOf(input.design)
  return told(answerStrength(buildModel(design, parameters), input, { design, parameters }))
}

const VERBS: Readonly<Record<string, (value: unknown) => unknown>> = { model, cut, setups, frame, strength }

function json(text: string): unknown {
  try {
    return JSON.parse(text.replace(/^\uFEFF/, ''))
  } catch (cause) {
    throw new BadInput('badJson', cause instanceof Error ? cause.message : 'not JSON')
  }
}

function refusal(caught: unknown): DoorAnswer {
  // A full stack is a RangeError too, but none of a value's.
  const isRange = caught instanceof RangeError && !caught.message.startsWith('Maximum call stack')
  const isBad = caught instanceof BadInput
  const message = caught instanceof Error ? caught.message : String(caught)
  const error = isBad
    ? { code: caught.code, message, path: caught.path }
    : { code: isRange ? 'badInput' : 'bug', message, path: [] }
  return { exitCode: isBad || isRange ? 2 : 1, stdout: '', stderr: `${JSON.stringify({ error })}\n` }
}

/**
 * Answers one call of the door.
 * @example await answer(['model'], '{ "design": "counterSeat" }') //=> { exitCode: 0, stdout: '{"designId":…', stderr: '' }
 */
export async function answer(args: readonly string[], text: string): Promise<DoorAnswer> {
  try {
    const verb = args.length === 1 && Object.hasOwn(VERBS, args[0]) ? VERBS[args[0]] : undefined
    if (verb === undefined) throw new BadInput('usage', `one verb, of: ${Object.keys(VERBS).join(', ')}`)
    return { exitCode: 0, stdout: `${JSON.stringify(await verb(json(text)))}\n`, stderr: '' }
  } catch (caught) {
    return refusal(caught)
  }
}

async function standardInput(): Promise<string> {
  const chunks: Buffer[] = []
  for await (const chunk of process.stdin) chunks.push(chunk as Buffer)
  return Buffer.concat(chunks).toString('utf8')
}

if (process.argv[1] !== undefined && import.meta.url === pathToFileURL(process.argv[1]).href) {
  // Whoever reads may stop reading.
  process.stdout.on('error', () => process.exit(0))
  const done = await answer(process.argv.slice(2), await standardInput())
  process.stdout.write(done.stdout)
  process.stderr.write(done.stderr)
  process.exitCode = done.exitCode
}
