import Link from '#app/ui/link'
import type { LengthUnit } from '#lib/core/units/inches'
import { speciesById } from '#lib/core/wood/species'
import { sayArea, sayVolume } from '#lib/format/amount'
import { type WantedText, wantedHref } from './wanted'

interface Figures {
  readonly boards: number
  readonly areaM2: number
  readonly volumeM3: number
}

const area = (f: Figures, units: LengthUnit) => sayArea(f.areaM2 * 1e6, units)
const volume = (f: Figures, units: LengthUnit) => sayVolume(f.volumeM3 * 1e9, units)

/** Over all that is asked for. Volume as the boards lie there, rough. */
export const sumCells = (all: Figures, units: LengthUnit) => [
  { label: 'Boards', value: all.boards },
  { label: 'Face area', value: area(all, units) },
  { label: 'Wood, rough', value: volume(all, units) },
]

interface SumsProps {
  readonly byOwner: readonly (Figures & { readonly ownerId: string; readonly ownerName: string })[]
  readonly bySpecies: readonly (Figures & { readonly species: string })[]
  readonly units: LengthUnit
  readonly typed: WantedText
}

export function Sums({ byOwner, bySpecies, units, typed }: SumsProps) {
  return (
    <div className="grid items-start gap-8 lg:grid-cols-2">
      <SumTable
        caption="By owner"
        units={units}
        rows={byOwner.map((o) => ({
          ...o,
          name: o.ownerName,
          href: wantedHref(typed, { owner: o.ownerId }),
        }))}
      />
      <SumTable
        caption="By species"
        units={units}
        rows={bySpecies.map((s) => ({
          ...s,
          name: speciesById(s.species).name,
          href: wantedHref(typed, { species: s.species }),
        }))}
      />
    </div>
  )
}

interface TableProps {
  readonly caption: string
  readonly units: LengthUnit
  readonly rows: readonly (Figures & { readonly name: string; readonly href: string })[]
}

function SumTable({ caption, units, rows }: TableProps) {
  const number = 'py-1.5 pl-4 text-right whitespace-nowrap'
  return (
    <table className="w-full">
      <caption className="pb-1 text-left font-semibold">{caption}</caption>
      <thead className="caption border-b border-hairline-strong text-left">
        <tr>
          <th scope="col" className="py-1 font-normal">
            {caption === 'By owner' ? 'Owner' : 'Species'}
          </th>
          <th scope="col" className={`${number} font-normal`}>
            Boards
          </th>
          <th scope="col" className={`${number} font-normal`}>
            Area
          </th>
          <th scope="col" className={`${number} font-normal`}>
            Wood
          </th>
        </tr>
      </thead>
      <tbody className="divide-y divide-hairline">
        {rows.map((row) => (
          <tr key={row.href}>
            <th scope="row" className="text-left font-normal">
              <Link className="link inline-flex min-h-11 items-center" href={row.href}>
                {row.name}
              </Link>
            </th>
            <td className={number}>{row.boards}</td>
            <td className={number}>{area(row, units)}</td>
            <td className={number}>{volume(row, units)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}
