'use client'
import { Plus, X } from 'lucide-react'
import { Button } from '../../ui/button'
import { type Bench, RecipeFields } from './recipe-field'
import type { Room } from './room-fields'

type Row = Readonly<Record<string, unknown>>

/** A name for a new row that no other row has. */
function freeName(room: Room, rows: readonly Row[], taken: ReadonlySet<string>): string {
  const base =
    { parameters: 'size', derived: 'value', parts: 'part', joints: 'joint', place: 'box' }[
      room.id as string
    ] ?? 'row'
  for (let k = rows.length + 1; ; k++) if (!taken.has(`${base}${k}`)) return `${base}${k}`
}

const under = (faults: Bench['faults'], path: string): readonly string[] =>
  Object.entries(faults).flatMap(([key, words]) =>
    key === path || key.startsWith(`${path}.`) ? [words] : [],
  )

/** One room of a recipe: its rows as lines that open into their fields. */
export function RoomTable({ room, bench }: { readonly room: Room; readonly bench: Bench }) {
  const { edit, readOnly } = bench
  const rows = (edit.recipe[room.id] ?? []) as unknown as readonly Row[]
  const all = [
    ...edit.recipe.parameters,
    ...edit.recipe.derived,
    ...edit.recipe.parts,
    ...edit.recipe.joints,
    ...(edit.recipe.place ?? []),
  ]
  const own = bench.faults[room.id]
  return (
    <div className="grid gap-3">
      <p className="max-w-[68ch] text-[0.95rem] text-ink-soft">{room.note}</p>
      {own ? <p className="font-medium text-stop">{own}</p> : null}
      {rows.length === 0 ? <p className="text-ink-soft">None.</p> : null}
      <ul className="divide-y divide-hairline border-y border-hairline empty:hidden">
        {rows.map((row, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: names are what is being typed
          <li key={i}>
            <RowLine {...{ room, bench, row }} at={`${room.id}.${i}`} />
          </li>
        ))}
      </ul>
      {readOnly ? null : (
        <div>
          <Button
            onClick={() => {
              const name = freeName(room, rows, new Set(all.map((r) => r.id)))
              edit.set(room.id, [...rows, room.fresh(edit.recipe, name)])
            }}
          >
            <Plus aria-hidden="true" className="size-4" />
            {room.add}
          </Button>
        </div>
      )}
    </div>
  )
}

interface LineProps {
  readonly room: Room
  readonly bench: Bench
  readonly row: Row
  readonly at: string
}

function RowLine({ room, bench, row, at }: LineProps) {
  const faults = under(bench.faults, at)
  return (
    <details className="group">
      <summary className="flex min-h-12 flex-wrap items-baseline gap-x-4 gap-y-0.5 py-2">
        <span className="font-medium wrap-anywhere before:mr-2 before:inline-block before:content-['▸'] group-open:before:rotate-90">
          {room.nameOf(row)}
        </span>
        <span className="formula min-w-0 flex-1 basis-40 text-[0.88rem] wrap-anywhere text-ink-soft">
          {room.shows
            .map((key) => said(bench, `${at}.${key}`))
            .filter(Boolean)
            .join(room.joins ?? ' × ')}
        </span>
        {bench.remarks[at] ? (
          <span className="basis-full text-[0.92rem] font-medium text-caution">{bench.remarks[at]}</span>
        ) : null}
        {faults.length > 0 ? (
          <span className="basis-full text-[0.92rem] font-medium text-stop">
            {faults.length === 1 ? faults[0] : `${faults.length} fields need another look.`}
          </span>
        ) : null}
      </summary>
      <div className="grid gap-3 pb-5">
        <RecipeFields fields={room.fields} at={at} bench={bench} />
        {bench.readOnly ? null : (
          <button
            type="button"
            className="inline-flex min-h-11 items-center gap-1.5 justify-self-start text-stop underline underline-offset-4"
            onClick={() => bench.edit.take(at)}
          >
            <X aria-hidden="true" className="size-4" />
            Take this row away<span className="sr-only">: {room.nameOf(row)}</span>
          </button>
        )}
      </div>
    </details>
  )
}

/** A field in a row's line: what it is worth, else what is written. */
function said(bench: Bench, path: string): string {
  const value = bench.edit.valueAt(path)
  if (value === undefined) return ''
  const worth = bench.worth[path]
  return worth && path.startsWith('derived') ? `${String(value)} = ${worth}` : (worth ?? String(value))
}
