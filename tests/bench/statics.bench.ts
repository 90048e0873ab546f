/** Strength of a bench of forty parts under all its load cases, and two thousand draws. Best and median: wall time, and time of the processor alone, since a machine may be shared. */
import { prepareFrame } from '#lib/core/statics/frame'
import { staticsFromModel } from '#lib/core/statics/from-model'
import { scatterOf } from '#lib/core/statics/monte-carlo'
import { runCases } from '#lib/core/statics/run-cases'
import { checkStrength } from '#lib/core/statics/strength'
import { longBench } from '../core/statics/models'

export const name = 'statics: 40 parts, all load cases (aim 50 ms); 2000 draws (aim 2 s)'

interface Times {
  readonly best: number
  readonly median: number
  readonly cpu: number
}

function timed(work: () => unknown, rounds: number): Times {
  for (let i = 0; i < 10; i++) work()
  const middle = (list: readonly number[]): number =>
    [...list].sort((a, b) => a - b)[Math.floor(list.length / 2)]
  const wall: number[] = []
  const cpu: number[] = []
  for (let i = 0; i < rounds; i++) {
    const [start, used] = [performance.now(), process.cpuUsage()]
    work()
    const { user, system } = process.cpuUsage(used)
    wall.push(performance.now() - start)
    cpu.push((user + system) / 1000)
  }
  return { best: Math.min(...wall), median: middle(wall), cpu: middle(cpu) }
}

const say = ({ best, median, cpu }: Times): string =>
  `best ${best.toFixed(1)} ms, median ${median.toFixed(1)} ms, of the processor ${cpu.toFixed(1)} ms`

export function run(print: (line: string) => void): void {
  const model = longBench()
  const statics = staticsFromModel(model, { grade: 'sound', factor: 2 })
  if (!statics.ok) throw new Error(statics.error)
  const frame = prepareFrame({ ...statics.value.frame, cases: [] })
  if (!frame.ok) throw new Error(frame.error.message)
  const { matrix } = frame.value.equations
  print(
    `${model.parts.length} parts, ${model.joints.length} joints, ${matrix.size} freedoms, ${matrix.values.length} stored`,
  )
  print(`frame from model: ${say(timed(() => staticsFromModel(model, { grade: 'sound', factor: 2 }), 40))}`)
  print(`equations and factor: ${say(timed(() => prepareFrame({ ...statics.value.frame, cases: [] }), 40))}`)
  print(
    `all load cases, parts and joints judged: ${say(timed(() => runCases(statics.value, frame.value), 40))}`,
  )
  print(`whole report: ${say(timed(() => checkStrength(model), 40))}`)
  const report = checkStrength(model)
  if (!report.ok) throw new Error(report.error)
  const { checks, residual, condition } = report.value
  print(
    `${report.value.cases.length} load cases, ${checks.length} checks, residual ${residual.toExponential(1)}, condition ${condition.toExponential(1)}`,
  )
  const start = performance.now()
  const [soft, stiff] = [0.5, 2].map((jointStiffness) => {
    const other = checkStrength(model, { jointStiffness })
    return other.ok ? other.value.checks : []
  })
  const scatter = scatterOf(checks, { seed: 1, draws: 2000, soft, stiff })
  print(
    `2000 draws with joints softer and stiffer: ${(performance.now() - start).toFixed(0)} ms, fails in ${(100 * scatter.anyFails).toFixed(1)} %`,
  )
}
