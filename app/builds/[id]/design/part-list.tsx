'use client'
import clsx from 'clsx'
import type { Model, Part } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'

interface Line {
  readonly key: string
  readonly name: string
  readonly partIds: readonly string[]
  readonly sizes: readonly [string, string, string]
}

const sizesOf = ({ blank }: Part, units: LengthUnit) =>
  [blank.lengthMm, blank.widthMm, blank.thicknessMm].map((mm) => sayLength(umFromMm(mm), units)) as [
    string,
    string,
    string,
  ]

/** Parts of one kind and size together, in the order of the model. */
function linesOf(model: Model, units: LengthUnit): Line[] {
  const lines = new Map<string, Line>()
  for (const part of model.parts) {
    const sizes = sizesOf(part, units)
    const key = [part.kind, ...sizes].join(' ')
    const line = lines.get(key)
    lines.set(key, { key, name: part.kind, sizes, partIds: [...(line?.partIds ?? []), part.id] })
  }
  return [...lines.values()]
}

const COLUMNS = ['Part', 'Count', 'Length', 'Width', 'Thickness']

interface PartListProps {
  readonly model: Model
  readonly units: LengthUnit
  /** Marked parts; a line's name marks all of its parts. Absent: a plain list. */
  readonly chosen?: readonly string[]
  readonly onChoose?: (partIds: readonly string[]) => void
}

function LineName({
  line,
  chosen = [],
  onChoose,
}: { readonly line: Line } & Pick<PartListProps, 'chosen' | 'onChoose'>) {
  const isChosen = line.partIds.some((id) => chosen.includes(id))
  if (!onChoose) return line.name
  return (
    <button
      type="button"
      aria-pressed={isChosen}
      onClick={() => onChoose(isChosen ? [] : line.partIds)}
      className={clsx(
        'min-h-11 w-full border-l-[3px] pl-2 text-left first-letter:uppercase hover:border-hairline-strong',
        isChosen ? 'border-accent! bg-accent-wash font-semibold' : 'border-transparent',
      )}
    >
      {line.name}
    </button>
  )
}

/** What the piece is made of: blanks at their finished size, and screws. */
export function PartList({ model, units, chosen, onChoose }: PartListProps) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reached by the keyboard
    <section aria-label="Parts" tabIndex={0} className="overflow-x-auto">
      <table className="w-full min-w-[21rem] text-[0.95rem]">
        <caption className="sr-only">Parts at their finished size, before end cuts</caption>
        <thead>
          <tr className="border-b border-hairline-strong text-left">
            {COLUMNS.map((name, i) => (
              <th
                key={name}
                scope="col"
                className={`caption py-1.5 pr-3 font-medium ${i > 0 ? 'text-right' : ''}`}
              >
                {name}
              </th>
            ))}
          </tr>
        </thead>
        <tbody className="divide-y divide-hairline">
          {linesOf(model, units).map((line) => (
            <tr key={line.key}>
              <th
                scope="row"
                className={clsx(
                  'pr-3 text-left font-medium first-letter:uppercase',
                  onChoose ? 'py-0' : 'py-2',
                )}
              >
                <LineName {...{ line, chosen, onChoose }} />
              </th>
              <td className="pr-3 text-right">{line.partIds.length}</td>
              {line.sizes.map((size, i) => (
                <td key={COLUMNS[i + 2]} className="pr-3 text-right whitespace-nowrap">
                  {size}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
        <tbody className="divide-y divide-hairline border-t border-hairline-strong">
          {model.hardware.map((h) => (
            <tr key={`${h.kind} ${h.size}`}>
              <th scope="row" className="py-2 pr-3 text-left font-medium">
                Screw
              </th>
              <td className="pr-3 text-right">{h.count}</td>
              <td className="pr-3 text-right" colSpan={3}>
                {h.size}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  )
}
