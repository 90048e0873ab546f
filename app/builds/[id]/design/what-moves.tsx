'use client'
import type { LengthUnit } from '#lib/core/units/inches'
import { saySize } from '#lib/format/length'
import type { ChangedParts, ShownRow } from '#lib/shop/compare-variants'
import type { WhatIf } from './use-what-if'

/** The first to be read where there is little room. */
const FIRST = ['strength', 'height', 'width', 'depth', 'weight', 'cost', 'area', 'hours']
const MOST_IN_A_LINE = 3

/** What the numbers in the fields change, against those that are saved. */
export function WhatMoves({ whatIf, units }: { whatIf: WhatIf; units: LengthUnit }) {
  const { rows, parts, isCurrent } = whatIf
  return (
    <section
      aria-label="What moves"
      aria-busy={!isCurrent}
      className="border border-hairline bg-sheet px-4 py-3"
    >
      <h2 className="text-[1.05rem] font-semibold">What moves</h2>
      {rows.length === 0 ? (
        <p className="mt-1 text-[0.95rem] text-ink-soft">
          {isCurrent ? 'Nothing that is reckoned here.' : 'Working it out…'}
        </p>
      ) : (
        <dl className="mt-2 grid grid-cols-[minmax(0,1fr)_auto] gap-x-4 gap-y-1 text-[0.95rem]">
          {rows.map((row) => (
            <Moved key={row.id} row={row} />
          ))}
        </dl>
      )}
      {parts.length > 0 ? <Changed parts={parts} units={units} /> : null}
    </section>
  )
}

function Moved({ row: { label, cells } }: { row: ShownRow }) {
  const [was, now] = cells
  return (
    <>
      <dt>{label}</dt>
      <dd className="text-right">
        <span className="text-ink-soft">{was.text}</span> → <strong>{now.text}</strong>
        {now.against && now.against.way !== 'other' ? (
          <span className="block text-[0.85rem] text-ink-soft">{now.against.text}</span>
        ) : null}
      </dd>
    </>
  )
}

function Changed({ parts, units }: { parts: readonly ChangedParts[]; units: LengthUnit }) {
  const count = parts.reduce((sum, p) => sum + p.count, 0)
  return (
    <details className="mt-2 border-t border-hairline pt-1">
      <summary className="min-h-11 py-2 text-[0.95rem] font-medium">
        {count === 1 ? '1 part changes' : `${count} parts change`}
      </summary>
      <ul className="grid gap-1.5 pb-1 text-[0.92rem]">
        {parts.map((p) => (
          <li key={JSON.stringify(p)}>
            <span className="font-medium">
              {p.count} × {p.kind}
            </span>
            <span className="block text-ink-soft">{howWords(p, units)}</span>
          </li>
        ))}
      </ul>
    </details>
  )
}

function howWords({ how, beforeUm, afterUm }: ChangedParts, units: LengthUnit): string {
  if (how === 'new') return `new: ${saySize(afterUm!, units)}`
  if (how === 'gone') return `gone: ${saySize(beforeUm!, units)}`
  if (how === 'cuts') return 'same size, other cuts or holes'
  return `${saySize(beforeUm!, units)} → ${saySize(afterUm!, units)}`
}

/** The most telling of it in one line, for beside the thumb that moves a slider. */
export function MovesInLine({ whatIf }: { whatIf: WhatIf }) {
  const told = FIRST.flatMap((id) => whatIf.rows.find((row) => row.id === id) ?? [])
  if (told.length === 0) return null
  return (
    <span className="text-[0.88rem] leading-snug">
      {told.slice(0, MOST_IN_A_LINE).map((row, i) => (
        <span key={row.id}>
          {i > 0 ? '; ' : ''}
          {row.label.toLowerCase()} <strong>{row.cells[1].text}</strong>
          {row.cells[1].against && row.cells[1].against.way !== 'other'
            ? ` (${row.cells[1].against.text})`
            : ''}
        </span>
      ))}
    </span>
  )
}
