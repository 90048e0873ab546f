import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { CutPlan, CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { seededRng } from '#lib/core/units/rng'
import { ThreadPool } from '#lib/engine/thread-pool'
import { threadFile, threadOf } from './threads'

const mm = (v: number) => v * 1000

function problemOf(boards: number, blanks: number, demand: number): CutProblem {
  const rng = seededRng(7)
  return {
    kerfUm: 3_200,
    boards: Array.from({ length: boards }, (_, i) => ({
      id: `b${i}`,
      lengthUm: mm(900 + rng.below(1500)),
      widthUm: mm(90 + rng.below(160)),
      cost: 1_000 + rng.below(2_000),
    })),
    blanks: Array.from({ length: blanks }, (_, i) => ({
      id: `n${i}`,
      lengthUm: mm(180 + rng.below(700)),
      widthUm: mm(40 + rng.below(60)),
      demand,
      grain: 'along' as const,
      weight: 1,
    })),
    zones: [],
    limits: { minPieceLengthUm: mm(150), minPieceWidthUm: mm(20), stages: null },
    offcut: { minLengthUm: mm(300), minWidthUm: mm(40) },
    objective: 'parts',
  }
}
/** More than any search gets through in the time of a test. */
const LARGE = problemOf(60, 40, 4)
/**
 * 5 pieces of 350 mm from 1763 mm with a kerf of 3.2 mm: floor((B + k) / (p + k)), common practice, worked by hand:
 * 1766.2 / 353.2 = 5.0006.
 */
const FIVE: CutProblem = {
  ...problemOf(1, 1, 1),
  boards: [{ id: 'b', lengthUm: mm(1763), widthUm: mm(90), cost: 1 }],
  blanks: [{ id: 'p', lengthUm: mm(350), widthUm: mm(90), demand: 9, grain: 'along', weight: 1 }],
}

let file: string
const pools: ThreadPool[] = []
const poolOf = (size: number, thread = file, patienceMs?: number) => {
  const pool = new ThreadPool({ size, file: thread, patienceMs })
  pools.push(pool)
  return pool
}
beforeAll(async () => {
  file = await threadFile()
})
afterAll(() => Promise.all(pools.map((p) => p.close())))

describe('solver threads', () => {
  test('a small problem is solved to the end, and what is short is told', async () => {
    const outcome = await poolOf(1).run({ problem: FIVE, seed: 1, milliseconds: 3_000 }).outcome
    if (outcome.kind !== 'done') throw new Error(outcome.kind)
    expect(outcome.plan.weightMade).toBe(5)
    expect(outcome.plan.shortages).toMatchObject([{ blank: 0, missing: 4 }])
    expect(outcome.plan.cure).toBeDefined()
    expect(verifyCutPlan(FIVE, outcome.plan)).toEqual([])
  })

  test('better plans stream, each sound and none worse than the one before; the clock is kept', async () => {
    const plans: CutPlan[] = []
    const progress: number[] = []
    const began = performance.now()
    const outcome = await poolOf(1).run({
      problem: LARGE,
      seed: 1,
      milliseconds: 1_200,
      onBetter: (plan) => plans.push(plan),
      onProgress: (ms) => progress.push(ms),
    }).outcome
    expect(performance.now() - began).toBeLessThan(8_000)
    expect(outcome.kind).toBe('done')
    expect(plans.length).toBeGreaterThan(0)
    for (const plan of plans) expect(verifyCutPlan(LARGE, plan)).toEqual([])
    for (let i = 1; i < plans.length; i++)
      expect(plans[i].weightMade).toBeGreaterThanOrEqual(plans[i - 1].weightMade)
    expect(progress.length).toBeGreaterThan(0)
  })

  test('same seed, same steps, same plan', async () => {
    const pool = poolOf(2)
    const one = () => pool.run({ problem: LARGE, seed: 5, milliseconds: 60_000, maxSteps: 3_000 }).outcome
    const [a, b] = await Promise.all([one(), one()])
    if (a.kind !== 'done' || b.kind !== 'done') throw new Error('not done')
    expect(a.plan).toEqual(b.plan)
  })

  test('a cancel is heard in the middle and keeps the best; the thread works on', async () => {
    const pool = poolOf(1)
    let best: CutPlan | undefined
    const run = pool.run({ problem: LARGE, seed: 1, milliseconds: 60_000, onBetter: (p) => (best = p) })
    while (!best) await new Promise((r) => setTimeout(r, 10))
    const began = performance.now()
    run.cancel()
    const outcome = await run.outcome
    expect(performance.now() - began).toBeLessThan(3_000)
    if (outcome.kind !== 'done') throw new Error(outcome.kind)
    expect(outcome.isCancelled).toBe(true)
    expect(outcome.plan.weightMade).toBeGreaterThanOrEqual(best.weightMade)
    const next = await pool.run({ problem: FIVE, seed: 1, milliseconds: 1_000 }).outcome
    expect(next.kind).toBe('done')
    expect(pool.threads).toBe(1)
  })

  test('runs wait in line; one that waits is cancelled at once', async () => {
    const pool = poolOf(1)
    const first = pool.run({ problem: FIVE, seed: 1, milliseconds: 1_000 })
    const second = pool.run({ problem: LARGE, seed: 1, milliseconds: 60_000 })
    second.cancel()
    expect(await second.outcome).toEqual({ kind: 'cancelled' })
    expect((await first.outcome).kind).toBe('done')
  })

  test('a bad problem fails by name, its thread is thrown away, the next run gets a new one', async () => {
    const pool = poolOf(1)
    const bad = { ...FIVE, kerfUm: -1 }
    const outcome = await pool.run({ problem: bad, seed: 1, milliseconds: 1_000 }).outcome
    expect(outcome).toMatchObject({ kind: 'failed', message: expect.stringContaining('kerfUm') })
    expect(pool.threads).toBe(0)
    expect((await pool.run({ problem: FIVE, seed: 1, milliseconds: 1_000 }).outcome).kind).toBe('done')
  })

  test('a thread that dies, one that hears no cancel and one that overruns its time are ended', async () => {
    const dies = threadOf('process.exit(3)')
    expect(await poolOf(1, dies).run({ problem: FIVE, seed: 1, milliseconds: 100 }).outcome).toMatchObject({
      kind: 'failed',
    })
    const deaf = threadOf(
      `import { parentPort } from 'node:worker_threads'; parentPort.on('message', () => { while (true); })`,
    )
    const run = poolOf(1, deaf, 200).run({ problem: FIVE, seed: 1, milliseconds: 60_000 })
    setTimeout(run.cancel, 50)
    expect(await run.outcome).toEqual({ kind: 'cancelled' })
    const over = await poolOf(1, deaf, 100).run({ problem: FIVE, seed: 1, milliseconds: 100 }).outcome
    expect(over).toMatchObject({ kind: 'failed', message: expect.stringContaining('time') })
  })

  test('closing ends all', async () => {
    const pool = poolOf(1)
    const runs = [1, 2].map((seed) => pool.run({ problem: LARGE, seed, milliseconds: 60_000 }))
    await pool.close()
    expect(await Promise.all(runs.map((r) => r.outcome))).toEqual([
      { kind: 'cancelled' },
      { kind: 'cancelled' },
    ])
    expect(pool.threads).toBe(0)
  })
})
