/** One JSON a case: every one also mirrored at both ends and, where grain allows, turned by a quarter. */
import fs from 'node:fs'
import path from 'node:path'
import { expect, it } from 'vitest'
import { planCuts } from '#lib/core/cutting/plan-cuts'
import type { CutProblem } from '#lib/core/cutting/problem'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { BruteForce } from './brute-force'
import { mirrored } from './shops'

const folder = path.resolve(import.meta.dirname, '../../corpus/cutting')
const cases = fs.readdirSync(folder).filter((f) => f.endsWith('.json'))

/** Length and width change places everywhere, machines too. */
function turned(p: CutProblem): CutProblem | null {
  const { limits } = p
  if (limits.maxRipWidthUm !== undefined || limits.maxCrosscutWidthUm !== undefined) return null
  const swap = <T extends { lengthUm: number; widthUm: number }>(r: T): T => ({
    ...r,
    lengthUm: r.widthUm,
    widthUm: r.lengthUm,
  })
  return {
    ...p,
    boards: p.boards.map(swap),
    blanks: p.blanks.map(swap),
    zones: p.zones.map((z) => ({ ...swap(z), xUm: z.yUm, yUm: z.xUm })),
  }
}

it.each(cases)('%s', (file) => {
  const { problem, weight } = JSON.parse(fs.readFileSync(path.join(folder, file), 'utf8')) as {
    problem: CutProblem
    weight: number
  }
  if (problem.boards[0].lengthUm <= 10) expect(new BruteForce(problem).best().weight).toBe(weight)
  const quarter = turned(problem)
  for (const p of [
    problem,
    mirrored(problem, 'x'),
    mirrored(problem, 'y'),
    ...(quarter === null ? [] : [quarter]),
  ]) {
    const plan = planCuts(p, { seed: 1, budget: { maxSteps: 3_000 } })
    expect(verifyCutPlan(p, plan)).toEqual([])
    expect(plan.weightMade).toBe(weight)
  }
})

it('the corpus is not empty', () => {
  expect(cases.length).toBeGreaterThan(5)
})
