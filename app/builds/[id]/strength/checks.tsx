'use client'
import clsx from 'clsx'
import { useState } from 'react'
import type { StrengthCheck } from '#lib/core/statics/checks'
import type { StrengthSheet } from '#lib/engine/strength-run'
import { type AlikeChecks, alikeChecks, barOf, checkMarginWords } from '#lib/shop/strength-words'
import { Section } from '../../../ui/sheet'
import { Tag } from '../../../ui/tag'
import { CureFinder } from './cure-finder'
import { useSay } from './say'
import { ShapeView } from './shape-view'
import { SourceOf } from './source-of'
import type { Asked, Desk } from './use-strength'

interface ChecksProps {
  readonly buildId: string
  readonly mayChange: boolean
  readonly desk: Desk
  readonly sheet: StrengthSheet
  readonly asked: Asked
}

/** Lines that are shown at once; the rest on demand. */
const SHOWN = 5

/** Every check, the governing one first; parts of one kind share a line. */
export function Checks(props: ChecksProps) {
  const { sheet } = props
  const kinds = new Map(sheet.parts.map(({ partId, kind }) => [partId, kind]))
  const lines = alikeChecks(sheet.report.checks, (id) => kinds.get(id) ?? id)
  const failing = lines.filter(({ worst }) => !worst.passes)
  const passing = lines.filter(({ worst }) => worst.passes)
  const list = (label: string, of: readonly AlikeChecks[]) => (
    <ul aria-label={label} className="divide-y divide-hairline border-b border-hairline">
      {of.map((line) => (
        <CheckLine key={line.worst.id} line={line} {...props} />
      ))}
    </ul>
  )
  return (
    <Section
      title="Checks"
      note="The upright line is what is asked; the bar is what the piece bears of it. A bar to the end is twice that or more."
    >
      {[
        { label: 'Checks that fail', more: 'more that fail', of: failing },
        { label: 'Checks that pass', more: 'more that pass, with more to spare', of: passing },
      ].map(({ label, more, of }) => (
        <div key={label}>
          {of.length > 0 ? list(label, of.slice(0, SHOWN)) : null}
          {of.length > SHOWN ? (
            <details className="print-open mb-2">
              <summary className="min-h-11 py-2.5 font-medium text-accent">
                {of.length - SHOWN} {more}
              </summary>
              {list(`${label}, the rest`, of.slice(SHOWN))}
            </details>
          ) : null}
        </div>
      ))}
    </Section>
  )
}

function CheckLine({
  line: { worst, others },
  buildId,
  mayChange,
  desk,
  sheet,
  asked,
}: ChecksProps & { line: AlikeChecks }) {
  const [isSeen, setSeen] = useState(false)
  const say = useSay()
  return (
    <li className="grid gap-x-8 gap-y-2 py-4 md:grid-cols-[minmax(0,1fr)_minmax(0,19rem)]">
      <div className="min-w-0">
        <div className="flex flex-wrap items-baseline gap-x-4 gap-y-1">
          <h3 className="text-[1.05rem] font-semibold">{worst.title}</h3>
          <Outcome check={worst} />
        </div>
        <p className="mt-1 max-w-[68ch]">{say(worst.sentence)}</p>
        {others.length > 0 ? (
          <p className="mt-1 text-[0.92rem] text-ink-soft">
            The worst of {others.length + 1} alike{worst.unit === 'mm' ? '' : `; ${checkRange(others)}`}.
          </p>
        ) : null}
        <p className="mt-1.5 max-w-[78ch] text-[0.85rem] text-ink-soft">
          <span className="sr-only">Sources: </span>
          {worst.sources.map(({ source, tag }, i) => (
            <span key={source}>
              {i > 0 ? ' · ' : ''}
              <SourceOf source={{ source, tag }} />
            </span>
          ))}
        </p>
      </div>
      <div className="min-w-0">
        {worst.kind === 'wall' ? null : <Bar check={worst} />}
        <p className="mt-1.5 text-[0.92rem]">{say(checkMarginWords(worst))}</p>
      </div>
      <div className="flex min-w-0 flex-wrap items-start gap-x-5 gap-y-2 md:col-span-2 print:hidden">
        {worst.passes || worst.condition !== undefined ? null : (
          <CureFinder {...{ buildId, mayChange, desk, asked }} check={worst} />
        )}
        <button
          type="button"
          aria-expanded={isSeen}
          onClick={() => setSeen(!isSeen)}
          className="link min-h-11"
        >
          {isSeen ? 'Hide where' : 'See where'}
          <span className="sr-only">: {worst.title}</span>
        </button>
        {isSeen ? (
          <div className="w-full max-w-xl">
            <ShapeView sheet={sheet} check={worst} />
          </div>
        ) : null}
      </div>
    </li>
  )
}

/** @example checkRange([{ margin: 0.3 }, { margin: 0.4 }]) //=> 'the others bear 0.30 to 0.40 times what is asked' */
function checkRange(others: readonly StrengthCheck[]): string {
  const margins = others.map(({ margin }) => Math.min(99, margin).toFixed(2))
  const [low, high] = [margins[0], margins[margins.length - 1]]
  const who = others.length === 1 ? 'the other bears' : 'the others bear'
  return `${who} ${low === high ? low : `${low} to ${high}`} times what is asked`
}

function Outcome({ check: { passes, weight, condition } }: { check: StrengthCheck }) {
  if (passes) return <Tag tone="good">passes</Tag>
  if (weight === 'safety') return <Tag tone="stop">fails</Tag>
  return <Tag tone="caution">{condition === undefined ? 'fails, for comfort' : `safe ${condition}`}</Tag>
}

const HATCH = 'repeating-linear-gradient(135deg, var(--stop) 0 3px, var(--stop-wash) 3px 8px)'

function Bar({ check }: { check: StrengthCheck }) {
  const { bears, asked } = barOf(check)
  return (
    <div
      aria-hidden="true"
      className="relative h-6 border border-hairline-strong bg-sheet [print-color-adjust:exact]"
    >
      <div
        className={clsx('h-full', check.passes && 'bg-good-wash')}
        style={{ width: `${bears * 100}%`, ...(check.passes ? {} : { background: HATCH }) }}
      />
      <div
        className="absolute -inset-y-1.5 w-[3px] -translate-x-1/2 bg-ink"
        style={{ left: `${asked * 100}%` }}
      />
    </div>
  )
}
