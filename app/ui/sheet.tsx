import type { ReactNode } from 'react'

export interface TitleCell {
  readonly label: string
  readonly value: ReactNode
}

interface PageProps {
  readonly title: string
  /** One line below the title. */
  readonly lead?: ReactNode
  /** Facts of the page in the cells of a drawing's title block. */
  readonly cells?: readonly TitleCell[]
  readonly actions?: ReactNode
  /** Above the title: where this page belongs. */
  readonly above?: ReactNode
  readonly children: ReactNode
}

/** A page: its title block, then its sections. */
export function Page({ title, lead, cells = [], actions, above, children }: PageProps) {
  return (
    <main
      id="content"
      tabIndex={-1}
      className="mx-auto w-full max-w-6xl px-4 pt-5 pb-28 outline-none sm:px-8 md:pb-16"
    >
      {above ? <div className="mb-1 text-[0.92rem]">{above}</div> : null}
      <header className="mb-8 border-b-2 border-ink">
        <div className="flex flex-wrap items-end justify-between gap-x-6 gap-y-3 pb-4">
          <div className="min-w-0">
            <h1 className="text-[1.9rem] leading-[1.12] font-semibold tracking-[-0.01em] sm:text-[2.35rem]">
              {title}
            </h1>
            {lead ? <p className="mt-1.5 max-w-[62ch] text-ink-soft">{lead}</p> : null}
          </div>
          {actions ? <div className="flex flex-wrap gap-2">{actions}</div> : null}
        </div>
        {cells.length > 0 ? (
          <dl className="grid grid-cols-2 border-t border-hairline sm:flex sm:flex-wrap">
            {cells.map((cell) => (
              <div
                key={cell.label}
                className="border-hairline py-2 pr-5 sm:border-l sm:pl-4 sm:first:border-l-0 sm:first:pl-0"
              >
                <dt className="caption">{cell.label}</dt>
                <dd className="max-w-[40ch] font-medium wrap-anywhere">{cell.value}</dd>
              </div>
            ))}
          </dl>
        ) : null}
      </header>
      <div className="grid gap-10">{children}</div>
    </main>
  )
}

interface SectionProps {
  readonly title: string
  readonly id?: string
  readonly note?: ReactNode
  readonly actions?: ReactNode
  readonly children: ReactNode
}

export function Section({ title, id, note, actions, children }: SectionProps) {
  return (
    <section id={id} aria-label={title} className="min-w-0 scroll-mt-20">
      <div className="mb-3 flex flex-wrap items-baseline justify-between gap-x-4 gap-y-1 border-b border-hairline pb-1.5">
        <h2 className="text-[1.25rem] font-semibold">{title}</h2>
        {actions ? <div className="-mr-2 flex flex-wrap items-center gap-1">{actions}</div> : null}
      </div>
      {note ? <p className="mb-3 max-w-[68ch] text-ink-soft">{note}</p> : null}
      {children}
    </section>
  )
}

interface EmptyProps {
  readonly title: string
  /** What to do next. */
  readonly children: ReactNode
  readonly action?: ReactNode
}

/** An empty list says what to do first. */
export function Empty({ title, children, action }: EmptyProps) {
  return (
    <div className="border border-dashed border-hairline-strong px-5 py-7">
      <p className="text-[1.1rem] font-semibold">{title}</p>
      <div className="mt-1 max-w-[60ch] text-ink-soft">{children}</div>
      {action ? <div className="mt-4 flex flex-wrap gap-2">{action}</div> : null}
    </div>
  )
}

/** Rows between hairlines. */
export function Rows({ children, label }: { readonly children: ReactNode; readonly label?: string }) {
  return (
    <ul aria-label={label} className="divide-y divide-hairline border-b border-hairline">
      {children}
    </ul>
  )
}

interface RowProps {
  readonly children: ReactNode
  /** At the right, below on a phone: state and buttons. */
  readonly aside?: ReactNode
}

export function Row({ children, aside }: RowProps) {
  return (
    <li className="flex flex-wrap items-center justify-between gap-x-5 gap-y-2 py-3">
      <div className="min-w-0 flex-1 basis-64">{children}</div>
      {aside ? <div className="flex flex-wrap items-center gap-2">{aside}</div> : null}
    </li>
  )
}

/** Facts as label and value, in as many columns as fit. `bare`: without hairlines, below one that is there already. */
export function Facts({ items, bare }: { readonly items: readonly TitleCell[]; readonly bare?: boolean }) {
  return (
    <dl className="grid grid-cols-[repeat(auto-fill,minmax(9.5rem,1fr))] gap-x-6 gap-y-3">
      {items.map((item) => (
        <div key={item.label} className={bare ? undefined : 'border-t border-hairline pt-1.5'}>
          <dt className="caption">{item.label}</dt>
          <dd className="font-medium">{item.value}</dd>
        </div>
      ))}
    </dl>
  )
}
