import type { ReactNode } from 'react'

interface DoorProps {
  readonly title: string
  readonly lead?: ReactNode
  readonly children: ReactNode
}

/** A page for who is not in yet: narrow, nothing around it. */
export function Door({ title, lead, children }: DoorProps) {
  return (
    <main id="content" tabIndex={-1} className="mx-auto grid max-w-md gap-7 px-5 pt-[9vh] pb-16 outline-none">
      <header className="border-b-2 border-ink pb-4">
        <p className="flex items-center gap-2.5 text-[1.05rem] font-semibold">
          <TwoBoards />
          Fellowbench
        </p>
        <h1 className="mt-6 text-[2.1rem] leading-[1.12] font-semibold tracking-[-0.01em]">{title}</h1>
        {lead ? <p className="mt-1.5 text-ink-soft">{lead}</p> : null}
      </header>
      {children}
    </main>
  )
}

function TwoBoards() {
  return (
    <svg viewBox="0 0 28 28" className="size-7 shrink-0" aria-hidden="true">
      <path d="M3 9h22v6H3z" fill="var(--wood)" stroke="var(--ink)" strokeWidth="1.6" />
      <path d="M10 3l4.5 0 3.5 22-4.5 0z" fill="var(--sheet)" stroke="var(--ink)" strokeWidth="1.6" />
      <path d="M11 9h4.6l0.9 6h-4.6z" fill="var(--accent)" />
    </svg>
  )
}
