import clsx from 'clsx'
import { CircleCheck, Info, OctagonX, TriangleAlert } from 'lucide-react'
import type { ReactNode } from 'react'

export type NoticeLevel = 'note' | 'good' | 'caution' | 'stop'

const LEVEL = {
  note: { Icon: Info, word: 'Note', look: 'border-accent bg-accent-wash' },
  good: { Icon: CircleCheck, word: 'Done', look: 'border-good bg-good-wash' },
  caution: { Icon: TriangleAlert, word: 'Caution', look: 'border-caution bg-caution-wash' },
  stop: { Icon: OctagonX, word: 'Stop', look: 'border-stop bg-stop-wash' },
} as const

const TONE = { note: 'text-accent', good: 'text-good', caution: 'text-caution', stop: 'text-stop' } as const

interface NoticeProps {
  readonly level?: NoticeLevel
  readonly title?: string
  readonly children: ReactNode
  readonly role?: 'alert' | 'status' | 'note'
}

/** A sentence that must not be missed: told by icon, word and colour. */
export function Notice({ level = 'note', title, children, role }: NoticeProps) {
  const { Icon, word, look } = LEVEL[level]
  return (
    <div role={role} className={clsx('flex items-start gap-3 border-l-4 px-3 py-2.5', look)}>
      <Icon aria-hidden="true" className={clsx('mt-0.5 size-5 shrink-0', TONE[level])} />
      <div className="min-w-0">
        <span className={title ? clsx('font-semibold', TONE[level]) : 'sr-only'}>{title ?? word}: </span>
        {children}
      </div>
    </div>
  )
}
