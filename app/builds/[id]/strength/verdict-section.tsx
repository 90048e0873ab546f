'use client'
import clsx from 'clsx'
import { CircleCheck, FileText, OctagonX, Printer, TriangleAlert } from 'lucide-react'
import type { StrengthSheet } from '#lib/engine/strength-run'
import { verdictOf } from '#lib/shop/strength-words'
import { Button, buttonClass } from '../../../ui/button'
import { useSay } from './say'
import { ShapeView } from './shape-view'

const LOOK = {
  good: { Icon: CircleCheck, look: 'border-good', tone: 'text-good' },
  caution: { Icon: TriangleAlert, look: 'border-caution', tone: 'text-caution' },
  stop: { Icon: OctagonX, look: 'border-stop', tone: 'text-stop' },
} as const

interface VerdictSectionProps {
  readonly sheet: StrengthSheet
  readonly isCurrent: boolean
  /** Address of the same as a document. */
  readonly pdf: string
}

/** What governs, whether it passes, and by how much: the first thing to read, with where it hurts beside it. */
export function VerdictSection({ sheet, isCurrent, pdf }: VerdictSectionProps) {
  const say = useSay()
  const { checks } = sheet.report
  const verdict = verdictOf(checks, sheet.woods)
  const { Icon, look, tone } = LOOK[verdict.level]
  return (
    <section
      aria-label="Verdict"
      aria-busy={!isCurrent}
      className="grid gap-x-10 gap-y-6 lg:grid-cols-[minmax(0,1fr)_minmax(0,24rem)]"
    >
      <div className={clsx('self-start border-l-8 pl-5', look)}>
        <div role="status">
          <h2 className="flex items-center gap-3 text-[1.7rem] leading-[1.15] font-semibold sm:text-[2.1rem]">
            <Icon aria-hidden="true" className={clsx('size-9 shrink-0', tone)} />
            {verdict.title}
          </h2>
          <p className="mt-3 text-[1.25rem] leading-snug font-medium">{say(verdict.margin)}</p>
        </div>
        <p className="mt-3 max-w-[62ch]">{say(checks[0].sentence)}</p>
        <p className="mt-2 max-w-[62ch] text-ink-soft">{say(verdict.count)}</p>
        <div className="mt-4 flex flex-wrap gap-3 print:hidden">
          <a className={buttonClass()} href={pdf}>
            <FileText aria-hidden="true" className="size-5" />
            Report as PDF
          </a>
          <Button onClick={() => window.print()}>
            <Printer aria-hidden="true" className="size-5" />
            Print this page
          </Button>
        </div>
      </div>
      <ShapeView sheet={sheet} check={checks[0]} />
    </section>
  )
}
