import type { ReactNode } from 'react'
import { Mark } from '../ui/mark'

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
          <Mark />
          Fellowbench
        </p>
        <h1 className="mt-6 text-[2.1rem] leading-[1.12] font-semibold tracking-[-0.01em]">{title}</h1>
        {lead ? <p className="mt-1.5 text-ink-soft">{lead}</p> : null}
      </header>
      {children}
    </main>
  )
}
