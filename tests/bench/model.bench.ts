/** Parameter change to a new model and its drawings, on one core. Prints; fails on nothing. */
import { bookcase } from '#lib/core/design/designs/bookcase/bookcase'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { drawView, viewsOf } from '#lib/core/design/drawing/draw-model'
import type { Design, ParameterValues } from '#lib/core/design/model'
import { outlineMeshes } from '#lib/core/design/part-solid'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { seededRng } from '#lib/core/units/rng'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

export const name = 'parameter change to model and drawings'

const WARM = 60
const ROUNDS = 300
const STAGES = ['build', 'solids', 'hidden lines', 'dimensions'] as const

interface Subject {
  readonly called: string
  readonly design: Design
  /** Another set of numbers each time, so that nothing can be kept from the last. */
  readonly values: (next: () => number) => ParameterValues
}

const SUBJECTS: readonly Subject[] = [
  {
    called: 'counter seat, edges rounded',
    design: counterSeat,
    values: (next) => ({
      abreast: 2,
      edgeRadius: 3,
      rake: 4 + 6 * next(),
      kneeClearance: 260 + 40 * next(),
      seatDepth: 340 + 40 * next(),
      legWidth: 42 + 6 * next(),
    }),
  },
  {
    called: 'bookcase in a niche',
    design: bookcase,
    values: (next) => ({
      shelves: 6,
      shelfBoards: 4,
      rails: 4,
      standsAt: 'niche',
      offWall: 15,
      height: 1750 + 100 * next(),
      width: 740 + 60 * next(),
      depth: 270 + 30 * next(),
    }),
  },
]

const quantile = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))]

function line(label: string, list: readonly number[]): string {
  const sorted = [...list].sort((a, b) => a - b)
  const [median, p99] = [quantile(sorted, 0.5), quantile(sorted, 0.99)]
  return `${label.padEnd(16)} median ${median.toFixed(2)} ms   99th percentile ${p99.toFixed(2)} ms`
}

function measure(
  kernel: SolidKernel,
  { called, design, values }: Subject,
  print: (line: string) => void,
): void {
  const rng = seededRng(7)
  const times: number[][] = STAGES.map(() => [])
  const [totals, processor]: [number[], number[]] = [[], []]
  let [checksum, parts] = [0, 0]
  for (let round = 0; round < WARM + ROUNDS; round++) {
    const parameters = values(() => rng.next())
    const cpuFrom = process.cpuUsage()
    const marks = [performance.now()]
    const built = design.build(parameters)
    if (!built.ok) throw new Error(built.error[0].message)
    const model = built.value
    marks.push(performance.now())
    const drawn = model.parts.filter((part) => part.unit === undefined || part.unit === 1)
    const meshes = outlineMeshes(kernel, drawn)
    marks.push(performance.now())
    const views = viewsOf(meshes, model)
    marks.push(performance.now())
    const drawings = views.map((view) => drawView(model, view, { textMm: 14 }))
    marks.push(performance.now())
    const { user, system } = process.cpuUsage(cpuFrom)
    checksum += drawings.reduce((sum, drawing) => sum + drawing.lines.length + drawing.texts.length, 0)
    parts = meshes.length
    if (round < WARM) continue
    for (let i = 0; i < STAGES.length; i++) times[i].push(marks[i + 1] - marks[i])
    totals.push(marks[STAGES.length] - marks[0])
    processor.push((user + system) / 1000)
  }
  print(`${called}: ${parts} parts drawn, ${ROUNDS} changes, checksum ${checksum}`)
  STAGES.forEach((stage, i) => {
    print(line(stage, times[i]))
  })
  print(line('all, by the clock', totals))
  // What it costs when other programs share the processor.
  print(line('processor time', processor))
}

export async function run(print: (line: string) => void): Promise<void> {
  const kernel = await loadSolidKernel()
  for (const subject of SUBJECTS) measure(kernel, subject, print)
}
