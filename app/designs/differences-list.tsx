import type { Difference } from '#lib/core/design/recipe/differences'

const MOST_SHOWN = 60
const MARK = { added: '+', removed: '−', changed: '~' } as const
const WORD = { added: 'New', removed: 'Gone', changed: 'Changed' } as const

/** What differs between two versions of a design, field by field. */
export function DifferencesList({ all }: { readonly all: readonly Difference[] }) {
  if (all.length === 0) return <p className="text-ink-soft">Nothing differs.</p>
  return (
    <ul aria-label="What differs" className="divide-y divide-hairline text-[0.95rem]">
      {all.slice(0, MOST_SHOWN).map((d) => (
        <li key={`${d.kind} ${d.path} ${d.label}`} className="grid grid-cols-[1.2rem_minmax(0,1fr)] py-1.5">
          <span aria-hidden="true" className="font-semibold">
            {MARK[d.kind]}
          </span>
          <span className="wrap-anywhere">
            <span className="sr-only">{WORD[d.kind]}: </span>
            {d.label}
            {d.before !== undefined ? (
              <>
                {': '}
                <del className="formula text-ink-soft">{d.before}</del>
              </>
            ) : null}
            {d.after !== undefined ? (
              <>
                {d.before === undefined ? ': ' : ' '}
                <ins className="formula no-underline">{d.after}</ins>
              </>
            ) : null}
          </span>
        </li>
      ))}
      {all.length > MOST_SHOWN ? <li className="py-1.5">and {all.length - MOST_SHOWN} more</li> : null}
    </ul>
  )
}
