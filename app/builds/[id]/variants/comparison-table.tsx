import { ArrowDown, ArrowUp } from 'lucide-react'
import { Fragment, type ReactNode } from 'react'
import type { ShownCell, ShownRow } from '#lib/shop/compare-variants'

interface TableProps {
  /** One a column. */
  readonly columns: readonly { readonly id: string; readonly head: ReactNode; readonly doings: ReactNode }[]
  readonly groups: readonly { readonly name: string; readonly rows: readonly ShownRow[] }[]
  /** Everything is worked out: what is empty stays so. */
  readonly isSettled: boolean
  /** Name of the first column, which the others are held against. */
  readonly base: string
}

/** The names of the rows, from the edge of a phone's screen on. */
const STUCK = 'sticky left-0 z-10 bg-paper pl-4 sm:pl-0'
const COLUMN = 'w-[11.5rem] min-w-[11.5rem] sm:w-[14rem] sm:min-w-[14rem]'

/** Columns side by side, sideways on a phone; the names of the rows stay in sight. */
export function ComparisonTable({ columns, groups, isSettled, base }: TableProps) {
  const isNothing = groups.every((g) => g.rows.length === 0)
  return (
    // It scrolls by itself; the links in its heads let a keyboard reach all of it.
    <section aria-label="Variants side by side" className="relative -mx-4 overflow-x-auto sm:mx-0">
      <table className="border-collapse text-[0.95rem]">
        <caption className="sr-only">What differs between the variants, held against {base}</caption>
        <thead>
          <tr className="align-top">
            <td className={`${STUCK} w-[7.5rem] min-w-[7.5rem] sm:w-[10rem] sm:min-w-[10rem]`} />
            {columns.map(({ id, head }) => (
              <th
                key={id}
                scope="col"
                className={`${COLUMN} border-l border-hairline px-3 pb-2 text-left font-normal`}
              >
                {head}
              </th>
            ))}
          </tr>
          <tr className="align-top">
            <td className={STUCK} />
            {columns.map(({ id, doings }) => (
              <td key={id} className={`${COLUMN} border-l border-hairline px-3 pb-4`}>
                {doings}
              </td>
            ))}
          </tr>
        </thead>
        {groups.map(({ name, rows }) =>
          rows.length === 0 ? null : (
            <tbody key={name} className="border-t-2 border-ink">
              <tr>
                <th scope="rowgroup" className={`${STUCK} py-2 text-left text-[1.05rem] font-semibold`}>
                  {name}
                </th>
                <td colSpan={columns.length} className="border-l border-hairline" />
              </tr>
              {rows.map((row) => (
                <tr key={row.id} className="border-t border-hairline align-top">
                  <th scope="row" className={`${STUCK} py-2 pr-2 text-left leading-snug font-medium`}>
                    {row.label}
                  </th>
                  {row.cells.map((cell, i) => (
                    <td key={columns[i].id} className={`${COLUMN} border-l border-hairline px-3 py-2`}>
                      <CellText cell={cell} isSettled={isSettled} />
                    </td>
                  ))}
                </tr>
              ))}
            </tbody>
          ),
        )}
      </table>
      {isNothing && isSettled && columns.length > 1 ? (
        <p className="py-4 text-ink-soft">
          They are alike in every number. Change one to see what that comes to.
        </p>
      ) : null}
    </section>
  )
}

function CellText({ cell, isSettled }: { cell: ShownCell; isSettled: boolean }) {
  if (cell.text === null)
    return <span className="text-ink-soft">{isSettled ? '–' : <span className="animate-pulse">…</span>}</span>
  const { against } = cell
  return (
    <Fragment>
      <span className={against ? 'font-semibold' : undefined}>{cell.text}</span>
      {against && against.way !== 'other' ? (
        <span className="mt-0.5 flex items-center gap-1 text-[0.85rem] text-ink-soft">
          {against.way === 'more' ? (
            <ArrowUp aria-hidden="true" strokeWidth={2.4} className="size-3.5 shrink-0" />
          ) : (
            <ArrowDown aria-hidden="true" strokeWidth={2.4} className="size-3.5 shrink-0" />
          )}
          {against.text}
        </span>
      ) : null}
    </Fragment>
  )
}
