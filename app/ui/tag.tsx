import clsx from 'clsx'
import { Check, Circle, CircleDashed, Clock, Lock, type LucideIcon, TriangleAlert, X } from 'lucide-react'

export type TagTone = 'plain' | 'busy' | 'good' | 'caution' | 'stop' | 'waiting' | 'held'

const TONE: Record<TagTone, { Icon: LucideIcon; look: string }> = {
  plain: { Icon: Circle, look: 'text-ink-soft' },
  waiting: { Icon: Clock, look: 'text-caution' },
  busy: { Icon: CircleDashed, look: 'text-accent' },
  held: { Icon: Lock, look: 'text-accent' },
  good: { Icon: Check, look: 'text-good' },
  caution: { Icon: TriangleAlert, look: 'text-caution' },
  stop: { Icon: X, look: 'text-stop' },
}

/** A state: an icon and a word, and a colour beside them. */
export function Tag({ tone = 'plain', children }: { readonly tone?: TagTone; readonly children: string }) {
  const { Icon, look } = TONE[tone]
  return (
    <span
      className={clsx('inline-flex items-center gap-1.5 text-[0.92rem] font-medium whitespace-nowrap', look)}
    >
      <Icon aria-hidden="true" strokeWidth={2.4} className="size-4 shrink-0" />
      {children}
    </span>
  )
}
