/**
 * The cutting engine on the published sets (read from ../shared/bench beside the project, if it is there) and on
 * planted shops of our own. Seconds are processor time of this one thread, so that a busy machine does not change what
 * is measured. Every plan is verified. `npm run bench -- cutting full` runs every case of every set with the time that
 * the set is given in docs/methods/cutting.md (hours). Environment: CUT_SECONDS caps each case (default 2), CUT_EVERY
 * takes every n-th case of a set (default 5), CUT_SET takes sets whose name contains the text (also mip, packer, planted, pool).
 */
import fs from 'node:fs'
import path from 'node:path'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { type PublishedInstance, problemFromPublished } from '#lib/core/cutting/published'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { loadLpSolver } from '#lib/engine/lp-solver'
import { solveByMip } from './mip-peer'
import { packBoards } from './packer-peer'
import { plantedShop } from './planted-shops'
import { poolShop } from './pool-shop'

export const name = 'cutting: published sets and planted shops'

type Known = { readonly best: number | string | null; readonly proven?: boolean }
type Instance = PublishedInstance & { readonly known: Known }

interface Timed {
  readonly plan: CutPlan
  readonly seconds: number
  readonly firstMs: number
}

const IS_FULL = process.argv.includes('full')
const SECONDS = Number(process.env.CUT_SECONDS ?? 2)
const EVERY = Number(process.env.CUT_EVERY ?? (IS_FULL ? 1 : 5))
/** Seconds a case of a whole set may take; others: 2 in one dimension, 10 in two. */
const FULL_SECONDS: Readonly<Record<string, number>> = {
  '1d_hard28': 10,
  '1d_ai_ani_rep': 10,
  '1d_woodshop_multistock': 10,
  '2d_g2mkp_limited_stock': 30,
  '2d_g2opp_clautiaux42': 60,
  '2d_hopper_T_perfect': 60,
}
/** When the integer program of the peer is given up. */
const MIP_SECONDS = 20
const lp = await loadLpSolver()
const FOLDER = path.resolve('../shared/bench')

function timed(problem: CutProblem, seconds: number): Timed {
  const from = process.cpuUsage().user
  let firstMs = -1
  const spent = (): number => (process.cpuUsage().user - from) / 1e6
  const plan = planCuts(problem, {
    seed: 1,
    lp,
    budget: { maxSteps: Number.POSITIVE_INFINITY, shouldStop: () => spent() > seconds },
    onBetter: () => {
      if (firstMs < 0) firstMs = spent() * 1000
    },
  })
  const faults = verifyCutPlan(problem, plan)
  if (faults.length > 0) throw new Error(`unsound plan: ${JSON.stringify(faults.slice(0, 3))}`)
  return { plan, seconds: spent(), firstMs }
}

/** 0: as good as the best known value; else how far from it, as a share. */
function gapOf(instance: Instance, problem: CutProblem, plan: CutPlan): number {
  const best = instance.known.best
  if (best === 'infeasible') return plan.status === 'infeasible' ? 0 : 1
  const wanted = problem.blanks.reduce((sum, b) => sum + b.weight * (b.demand ?? 0), 0)
  if (best === 'feasible') return 1 - plan.weightMade / wanted
  if (instance.objective === 'max_value') return (Number(best) - plan.weightMade) / Number(best)
  return plan.shortages.length > 0 ? 1 : (plan.cost - Number(best)) / Number(best)
}

function secondsFor(set: string): number {
  if (!IS_FULL || process.env.CUT_SECONDS !== undefined) return SECONDS
  return FULL_SECONDS[set] ?? (set.startsWith('1d') ? 2 : 10)
}

function runSet(file: string, print: (line: string) => void): void {
  const limit = secondsFor(file.replace('.json', ''))
  const { instances } = JSON.parse(fs.readFileSync(path.join(FOLDER, file), 'utf8')) as {
    instances: Instance[]
  }
  let [n, met, proven, gaps, seconds, first, slowest, over] = [0, 0, 0, 0, 0, 0, 0, 0]
  for (let i = 0; i < instances.length; i += EVERY) {
    if (instances[i].known.best === null) continue
    const problem = problemFromPublished(instances[i])
    const run = timed(problem, limit)
    const gap = gapOf(instances[i], problem, run.plan)
    n++
    if (gap <= 1e-9) met++
    if (run.plan.status === 'optimal' || run.plan.status === 'infeasible') proven++
    gaps += Math.max(0, gap)
    seconds += run.seconds
    slowest = Math.max(slowest, run.seconds)
    over = Math.max(over, gap * Number(instances[i].known.best))
    first = Math.max(first, run.firstMs)
  }
  const mean = ((100 * gaps) / n).toFixed(3)
  print(
    `${file.replace('.json', '').padEnd(32)} n ${n}, at best known ${met}, proven ${proven}, mean gap ${mean} %, ` +
      `${instances[0].objective === 'min_bins' ? `at most ${Math.round(over)} over, ` : ''}` +
      `${(seconds / n).toFixed(2)} s each, ${slowest.toFixed(2)} s at most, first plan in ${first.toFixed(0)} ms at most`,
  )
}

/** Boards of the engine over boards of a general rectangle packer: below 1 the engine needs fewer. */
function runPacker(print: (line: string) => void): void {
  for (const set of ['2d_bwmv_class_rep', '2d_csp_silva2010', '2d_g2csp_furniture_A43']) {
    const { instances } = JSON.parse(fs.readFileSync(path.join(FOLDER, `${set}.json`), 'utf8')) as {
      instances: Instance[]
    }
    let [n, own, packed, ownSeconds, packedSeconds] = [0, 0, 0, 0, 0]
    for (let i = 0; i < instances.length; i += EVERY) {
      const problem = problemFromPublished(instances[i])
      const peer = packBoards(problem)
      if (peer === null) continue
      const { plan, seconds } = timed(problem, SECONDS)
      if (plan.shortages.length > 0) continue
      n++
      own += plan.layouts.reduce((sum, l) => sum + l.copies, 0)
      packed += peer.boards
      ownSeconds += seconds
      packedSeconds += peer.seconds
    }
    print(
      `${set} against a rectangle packer: n ${n}, boards ${own} to ${packed} (ratio ${(own / packed).toFixed(3)}), ` +
        `${(ownSeconds / n).toFixed(2)} s to ${(packedSeconds / n).toFixed(2)} s each`,
    )
  }
}

/** The first small cases of the one-dimensional sets: seconds of the plain integer program over the engine's. */
function runMip(print: (line: string) => void): void {
  for (const set of [
    'textbook',
    'schwerin_rep',
    'falkenauer_u',
    'falkenauer_t',
    'scholl_rep',
    'waescher_gau',
  ]) {
    const { instances } = JSON.parse(fs.readFileSync(path.join(FOLDER, `1d_${set}.json`), 'utf8')) as {
      instances: Instance[]
    }
    for (const instance of instances.slice(0, 2)) {
      const problem = problemFromPublished(instance)
      const own = timed(problem, SECONDS)
      const bars = own.plan.layouts.reduce((sum, l) => sum + l.copies, 0)
      const peer = solveByMip(problem, bars, lp, MIP_SECONDS)
      if (peer === null) continue
      const ratio = peer.seconds / own.seconds
      print(
        `${instance.name.padEnd(20)} ${bars} bars: engine ${own.seconds.toFixed(2)} s (${own.plan.status}), ` +
          `integer program ${peer.isFound ? '' : 'not found in '}${peer.seconds.toFixed(2)} s, ` +
          `ratio ${peer.isFound ? '' : 'above '}${ratio.toFixed(1)}`,
      )
    }
  }
}

function runPlanted(print: (line: string) => void): void {
  for (const [boards, parts] of [
    [5, 20],
    [5, 60],
    [20, 100],
    [20, 300],
    [60, 300],
  ]) {
    for (const defects of [false, true]) {
      const shares: number[] = []
      for (let seed = 1; seed <= 3; seed++) {
        const problem = plantedShop(seed, boards, parts, { kerfMm: 3, defects })
        const { plan } = timed(problem, Math.max(SECONDS, 5))
        shares.push(plan.weightMade / problem.blanks.reduce((sum, b) => sum + b.weight, 0))
      }
      const text = shares.map((s) => `${(100 * s).toFixed(2)} %`).join(', ')
      print(`planted: ${boards} boards, ${parts} parts${defects ? ', defects' : ''}: area placed ${text}`)
    }
  }
}

/** Ten builds of some 40 parts on 2,000 boards; with `full` for a minute. */
function runPool(print: (line: string) => void): void {
  const seconds = IS_FULL ? 60 : 10 * SECONDS
  const problem = poolShop(3, 2_000, 100)
  const { plan, firstMs } = timed(problem, seconds)
  const gap = 100 * (plan.cost / plan.costBound - 1)
  const text = `${plan.shortages.length} kinds short, cost ${gap.toFixed(2)} % above its bound after ${seconds} s`
  print(`pool of 2,000 boards: first plan in ${firstMs.toFixed(0)} ms, ${text}`)
}

export function run(print: (line: string) => void): void {
  print(
    IS_FULL
      ? 'every case of each set, with the time given to the set'
      : `${SECONDS} s of processor time a case, every ${EVERY}th case of a set`,
  )
  if (fs.existsSync(FOLDER)) {
    const files = fs.readdirSync(FOLDER).filter((f) => f.endsWith('.json'))
    for (const file of files.filter((f) => f.includes(process.env.CUT_SET ?? ''))) runSet(file, print)
  } else print('published sets: not here (looked in ../shared/bench)')
  if (fs.existsSync(FOLDER) && ['packer', undefined].includes(process.env.CUT_SET)) runPacker(print)
  if (fs.existsSync(FOLDER) && ['mip', undefined].includes(process.env.CUT_SET)) runMip(print)
  if (process.env.CUT_SET === undefined || process.env.CUT_SET === 'planted') runPlanted(print)
  if (process.env.CUT_SET === undefined || process.env.CUT_SET === 'pool') runPool(print)
}
