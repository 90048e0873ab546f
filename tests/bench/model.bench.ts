/** Parameter change to a new model and its drawings, on one core. Prints; fails on nothing. */
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { drawView, viewsOf } from '#lib/core/design/drawing/draw-model'
import type { Model, ParameterValues } from '#lib/core/design/model'
import { outlineMeshes } from '#lib/core/design/part-solid'
import { seededRng } from '#lib/core/units/rng'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

export const name = 'parameter change to model and drawings'

const WARM = 40
const ROUNDS = 200
const STAGES = ['build', 'solids', 'hidden lines', 'dimensions'] as const

/** Another seat each time, so that nothing can be kept from the last. */
function parametersFrom(next: () => number): ParameterValues {
  return {
    abreast: 2,
    rake: 4 + 6 * next(),
    kneeClearance: 260 + 40 * next(),
    seatDepth: 340 + 40 * next(),
    legWidth: 42 + 6 * next(),
  }
}

const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]

export async function run(print: (line: string) => void): Promise<void> {
  const kernel = await loadSolidKernel()
  const rng = seededRng(7)
  const times: number[][] = STAGES.map(() => [])
  const totals: number[] = []
  let checksum = 0
  let parts = 0
  let cpuFrom = process.cpuUsage()
  for (let round = 0; round < WARM + ROUNDS; round++) {
    if (round === WARM) cpuFrom = process.cpuUsage()
    const values = parametersFrom(() => rng.next())
    const marks = [performance.now()]
    const built = counterSeat.build(values)
    if (!built.ok) throw new Error(built.error[0].message)
    const model: Model = built.value
    marks.push(performance.now())
    const meshes = outlineMeshes(
      kernel,
      model.parts.filter((part) => part.unit === 1),
    )
    marks.push(performance.now())
    const views = viewsOf(meshes, model)
    marks.push(performance.now())
    const drawings = views.map((view) => drawView(model, view, { textMm: 14 }))
    marks.push(performance.now())
    checksum += drawings.reduce((sum, drawing) => sum + drawing.lines.length + drawing.texts.length, 0)
    parts = meshes.length
    if (round < WARM) continue
    for (let i = 0; i < STAGES.length; i++) times[i].push(marks[i + 1] - marks[i])
    totals.push(marks[STAGES.length] - marks[0])
  }
  const line = (label: string, list: number[]): string => {
    const sorted = [...list].sort((a, b) => a - b)
    const [median, p99] = [quantile(sorted, 0.5), quantile(sorted, 0.99)]
    return `${label.padEnd(14)} median ${median.toFixed(2)} ms   99th percentile ${p99.toFixed(2)} ms`
  }
  print(`counter seat, ${parts} parts drawn, ${ROUNDS} changes, checksum ${checksum}`)
  STAGES.forEach((stage, i) => {
    print(line(stage, times[i]))
  })
  print(line('all', totals))
  // Beside the clock: what it costs when other programs share the processor.
  const { user, system } = process.cpuUsage(cpuFrom)
  print(`processor time, mean ${((user + system) / 1000 / ROUNDS).toFixed(2)} ms a change`)
}
