// The queue worker as a real process on the test's database: works plans out, hears a cancel, survives kill -9.
import { type ChildProcess, spawn } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { database } from '#lib/data/client'
import { cancel } from '#lib/data/cut-plans'
import { hold } from '#lib/data/holds'
import type { PlanInput } from '#lib/shop/plan-input'
import type { PlanResult } from '#lib/shop/plan-result'
import { board, build, member, seatBoards, shop, variant } from './arrange'
import { askForPlan } from './work-out'

const root = path.resolve(import.meta.dirname, '../..')
const folder = `test-queue-${process.pid}`
let program: string
const workers = new Set<ChildProcess>()

beforeAll(async () => {
  await shop()
  const { bundle, QUEUE_PROGRAMS } = await import('../../lib/start/bundle.mjs')
  const files = await bundle(QUEUE_PROGRAMS, folder)
  program = files[0]
})
const died = (child: ChildProcess) =>
  child.exitCode !== null || child.signalCode !== null
    ? Promise.resolve()
    : new Promise<void>((resolve) => child.once('exit', () => resolve()))
afterEach(async () => {
  for (const worker of workers) worker.kill('SIGKILL')
  await Promise.all([...workers].map(died))
  workers.clear()
})
afterAll(() => fs.rmSync(path.join(root, 'build', folder), { recursive: true, force: true }))

async function startWorker(): Promise<ChildProcess> {
  const child = spawn(process.execPath, [program], {
    env: { ...process.env, FELLOWBENCH_SOLVER_THREADS: '1' },
    stdio: ['ignore', 'ignore', 'inherit', 'ipc'],
  })
  workers.add(child)
  await new Promise<void>((resolve, reject) => {
    child.once('message', () => resolve())
    child.once('exit', (code) => reject(new Error(`the worker ended with ${code}`)))
  })
  return child
}

const rowOf = (id: string) => database().cutPlan.findUniqueOrThrow({ where: { id } })
type Row = Awaited<ReturnType<typeof rowOf>>

async function until(planId: string, is: (row: Row) => boolean, seconds = 30): Promise<Row> {
  for (const end = Date.now() + seconds * 1000; Date.now() < end; ) {
    const row = await rowOf(planId)
    if (is(row)) return row
    await new Promise((resolve) => setTimeout(resolve, 50))
  }
  throw new Error(`waited too long: ${(await rowOf(planId)).status}`)
}

const made = (row: Row) => (row.result as unknown as PlanResult | null)?.plan.weightMade ?? 0

function expectSound(row: Row): void {
  const { plan } = row.result as unknown as PlanResult
  expect(verifyCutPlan((row.input as unknown as PlanInput).pool.problem, plan)).toEqual([])
}

async function seat() {
  const maker = await member('member', 'Ada')
  const { id: buildId } = await build(maker)
  await variant(buildId)
  return { maker, buildId }
}

/** Far more parts than boards: no search comes to its end, and the time asked for is used. */
async function largeBuild() {
  const { maker, buildId } = await seat()
  await database().variant.updateMany({
    where: { buildId },
    data: { parameters: { abreast: 3, counterLength: 2000 } },
  })
  for (let i = 0; i < 30; i++)
    await board(maker, {
      lengthUm: 640_000 + i * 17_000,
      widthUm: 70_000 + i * 3_700,
      thicknessUm: i % 2 ? 42_000 : 22_000,
    })
  return { maker, buildId }
}
const ask = async (maker: Parameters<typeof askForPlan>[0], buildId: string, seconds: number) => {
  const planId = await askForPlan(maker, buildId)
  await database().cutPlan.update({ where: { id: planId }, data: { seconds } })
  return planId
}

describe('the queue worker', () => {
  test('works a plan out, and sweeps holds that have run out', async () => {
    const { maker, buildId } = await seat()
    const [legs] = await seatBoards(maker)
    const old = await board(maker, { thicknessUm: 22_000 })
    await hold(maker, { buildId, boards: [{ boardId: old.id, version: old.version }] })
    await database().hold.updateMany({
      where: { boardId: old.id },
      data: { createdAt: new Date(0), expiresAt: new Date(1) },
    })
    const planId = await askForPlan(maker, buildId)
    await startWorker()
    const row = await until(planId, (r) => r.status === 'done')
    expect(made(row)).toBe(14)
    expectSound(row)
    expect((row.input as unknown as PlanInput).boards.map((b) => b.id)).toContain(legs.id)
    expect((await database().hold.findFirstOrThrow({ where: { boardId: old.id } })).status).toBe('lapsed')
  })

  test('a cancel is heard while it runs; the best plan stays', async () => {
    const { maker, buildId } = await largeBuild()
    const planId = await ask(maker, buildId, 600)
    await startWorker()
    const running = await until(planId, (r) => r.status === 'running' && made(r) > 0)
    await cancel(maker, { planId })
    const row = await until(planId, (r) => r.status !== 'running', 10)
    expect(row.status).toBe('cancelled')
    expect(made(row)).toBeGreaterThanOrEqual(made(running))
    expectSound(row)
  })

  test('kill -9 in the middle: what was found stays, the next worker goes on and finishes', async () => {
    const { maker, buildId } = await largeBuild()
    const planId = await ask(maker, buildId, 600)
    const first = await startWorker()
    const running = await until(planId, (r) => r.status === 'running' && made(r) > 0)
    first.kill('SIGKILL')
    await died(first)
    const left = await rowOf(planId)
    expect(left.status).toBe('running')
    expect(made(left)).toBeGreaterThanOrEqual(made(running))
    expectSound(left)
    // Nobody waits out the silence in a test: the last heartbeat is moved into the past, and the time cut short.
    await database().cutPlan.update({
      where: { id: planId },
      data: { heartbeatAt: new Date(Date.now() - 20_000), seconds: 1 },
    })
    await startWorker()
    const row = await until(planId, (r) => r.status === 'done')
    expect(row.attempt).toBe(2)
    expect(made(row)).toBeGreaterThanOrEqual(made(left))
    expectSound(row)
  })

  test('killed at its last attempt: reported as interrupted, the best plan kept', async () => {
    const { maker, buildId } = await largeBuild()
    const planId = await ask(maker, buildId, 600)
    const first = await startWorker()
    await until(planId, (r) => r.status === 'running' && made(r) > 0)
    first.kill('SIGKILL')
    await died(first)
    const left = await rowOf(planId)
    await database().cutPlan.update({
      where: { id: planId },
      data: { heartbeatAt: new Date(Date.now() - 20_000), attempt: 3 },
    })
    await startWorker()
    const row = await until(planId, (r) => r.status !== 'running')
    expect(row.status).toBe('interrupted')
    expect(made(row)).toBe(made(left))
  })

  test('stopped in good order: the plan is handed back and goes on elsewhere, no attempt is lost', async () => {
    const { maker, buildId } = await largeBuild()
    const planId = await ask(maker, buildId, 600)
    const first = await startWorker()
    const running = await until(planId, (r) => r.status === 'running' && made(r) > 0)
    first.kill('SIGTERM')
    await died(first)
    const back = await rowOf(planId)
    expect([back.status, back.attempt]).toEqual(['queued', 0])
    expect(made(back)).toBeGreaterThanOrEqual(made(running))
    await database().cutPlan.update({ where: { id: planId }, data: { seconds: 1 } })
    await startWorker()
    expect((await until(planId, (r) => r.status === 'done')).attempt).toBe(1)
  })

  test('a problem that makes the engine throw ends as failed with a reference, nothing internal', async () => {
    const { maker, buildId } = await seat()
    await seatBoards(maker)
    const planId = await askForPlan(maker, buildId)
    const { input } = await rowOf(planId)
    const broken = structuredClone(input) as unknown as { pool: { problem: { kerfUm: number } } }
    broken.pool.problem.kerfUm = -5
    await database().cutPlan.update({ where: { id: planId }, data: { input: broken as never } })
    await startWorker()
    const row = await until(planId, (r) => r.status === 'failed')
    expect(row.failure).toMatch(/^Reference [0-9a-f]{8}\.$/)
  })
})
