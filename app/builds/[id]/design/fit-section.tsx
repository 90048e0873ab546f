import { CircleCheck, Info, TriangleAlert } from 'lucide-react'
import type { FitLine } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'
import { sayInUnits } from '#lib/format/sentence'

const SIGN = {
  good: { Icon: CircleCheck, word: 'Suits', tone: 'text-good' },
  note: { Icon: Info, word: 'Look at it', tone: 'text-accent' },
  caution: { Icon: TriangleAlert, word: 'Caution', tone: 'text-caution' },
} as const

interface FitProps {
  readonly lines: readonly FitLine[] | undefined
  readonly units: LengthUnit
}

/** How the piece suits the people and the place: each size, what suits, whom it suits, from where it is measured. */
export function FitSection({ lines = [], units }: FitProps) {
  if (lines.length === 0) return null
  return (
    <section aria-labelledby="fit" className="mt-6">
      <h2 id="fit" className="font-semibold">
        How it fits
      </h2>
      <ul className="mt-1 divide-y divide-hairline border-y border-hairline">
        {lines.map((line) => (
          <Line key={line.id} line={line} units={units} />
        ))}
      </ul>
      <details className="caption mt-1">
        <summary className="flex min-h-11 cursor-pointer items-center">Where these figures come from</summary>
        <ul className="list-disc pb-2 pl-5">
          {[...new Set(lines.map(({ source }) => source))].map((source) => (
            <li key={source}>{sayInUnits(source, units)}</li>
          ))}
        </ul>
      </details>
    </section>
  )
}

function Line({ line, units }: { readonly line: FitLine; readonly units: LengthUnit }) {
  const { Icon, word, tone } = SIGN[line.level]
  const say = (mm: number) => sayLength(umFromMm(mm), units)
  const suits = suitsWords(line, say)
  const share = line.share === undefined ? '' : `${Math.round(100 * line.share)} % of adults`
  return (
    <li className="flex items-start gap-3 py-2">
      <Icon aria-hidden="true" className={`mt-0.5 size-5 shrink-0 ${tone}`} />
      <div className="min-w-0 flex-1">
        <div className="flex flex-wrap items-baseline justify-between gap-x-4">
          <span>
            <span className="sr-only">{word}: </span>
            {line.label}
          </span>
          <span className="tabular-nums">{line.valueMm === undefined ? line.words : say(line.valueMm)}</span>
        </div>
        <p className="caption">
          {[suits, share, sayInUnits(line.measured, units)].filter(Boolean).join(' · ')}
        </p>
      </div>
    </li>
  )
}

function suitsWords({ lowMm, highMm }: FitLine, say: (mm: number) => string): string {
  if (lowMm !== undefined && highMm !== undefined) return `${say(lowMm)} to ${say(highMm)} suits`
  if (lowMm !== undefined) return `${say(lowMm)} or more`
  return highMm === undefined ? '' : `${say(highMm)} or less`
}
