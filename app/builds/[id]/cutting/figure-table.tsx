import type { LengthUnit } from '#lib/core/units/inches'
import { sayArea, sayPercent } from '#lib/format/amount'
import type { PlanFigures } from '#lib/shop/plan-compare'

interface Column {
  readonly head: string
  readonly figures: PlanFigures
}

interface Level {
  readonly label: string
  readonly say: (f: PlanFigures, units: LengthUnit) => string
  /** Higher is better; absent: only told. */
  readonly rank?: (f: PlanFigures) => number
}

const MM2_PER_M2 = 1e6

/** In the order in which plans are judged. */
const LEVELS: readonly Level[] = [
  { label: 'Parts made', say: (f) => `${f.made} of ${f.wanted}`, rank: (f) => f.made },
  {
    label: 'Short parts to be planed by hand',
    say: (f) => (f.byHand === 0 ? 'none' : `${f.byHand}`),
    rank: (f) => -f.byHand,
  },
  {
    label: 'Wood used up, scraps counted lightly',
    say: (f) => `${Math.round(f.cost).toLocaleString('en')} points`,
    rank: (f) => -f.cost,
  },
  {
    label: 'Could at best be less by',
    say: (f) => (f.gap === 0 ? 'nothing: proven' : `at most ${Math.ceil(f.gap * 100)} %`),
  },
  {
    label: 'Boards, and their area',
    say: (f, units) => `${f.boards}, ${sayArea(f.woodM2 * MM2_PER_M2, units)}`,
  },
  {
    label: 'Of that: parts, offcuts, waste',
    say: (f) => [f.shares.parts, f.shares.offcuts, f.shares.waste].map(sayPercent).join(', '),
  },
  {
    label: 'Offcuts kept, the largest',
    say: (f, units) =>
      f.offcuts === 0 ? 'none' : `${f.offcuts}, ${sayArea(f.largestOffcutM2 * MM2_PER_M2, units)}`,
  },
  {
    label: 'Worth of the offcuts: one large rest before many slivers',
    say: (f) => `${Math.round(f.offcutWorth * 1000)} points`,
    rank: (f) => f.offcutWorth,
  },
  {
    label: 'Different settings of stop, fence and sled',
    say: (f) => `${f.settings}`,
    rank: (f) => -f.settings,
  },
  { label: 'Parts glued up from staves', say: (f) => (f.panels === 0 ? 'none' : `${f.panels}`) },
]

const EVEN = 1e-9

function isBetter(level: Level, columns: readonly Column[], index: number): boolean {
  const { rank } = level
  if (!rank || columns.length < 2) return false
  return columns.every((c, i) => i === index || rank(columns[index].figures) - rank(c.figures) > EVEN)
}

/** What plans are judged by, a level a row, a plan a column. */
export function FigureTable({
  columns,
  units,
}: {
  readonly columns: readonly Column[]
  readonly units: LengthUnit
}) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a phone, by keyboard too
    <section tabIndex={0} aria-label="Levels" className="overflow-x-auto">
      <table className="w-full max-w-3xl border-collapse text-left tabular-nums">
        <thead>
          <tr className="border-b border-hairline-strong text-[0.9rem] text-ink-soft">
            <th scope="col" className="py-1.5 pr-4 font-medium">
              Level
            </th>
            {columns.map((c) => (
              <th key={c.head} scope="col" className="py-1.5 pr-4 font-medium">
                {c.head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {LEVELS.map((level) => (
            <tr key={level.label} className="border-b border-hairline align-top">
              <th scope="row" className="py-1.5 pr-4 font-normal">
                {level.label}
              </th>
              {columns.map((c, i) => (
                <td key={c.head} className="py-1.5 pr-4">
                  {isBetter(level, columns, i) ? (
                    <strong>{level.say(c.figures, units)} · better</strong>
                  ) : (
                    level.say(c.figures, units)
                  )}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
