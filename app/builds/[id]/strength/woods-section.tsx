'use client'
import type { WoodVerdict } from '#lib/core/statics/compare-woods'
import type { StrengthSheet } from '#lib/engine/strength-run'
import { marginWords, woodsWords } from '#lib/shop/strength-words'
import { Button } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { Section } from '../../../ui/sheet'
import { Tag } from '../../../ui/tag'
import { UseThis } from '../use-this'
import type { Wood } from './inputs'
import { type Asked, type Desk, useStrength } from './use-strength'

interface WoodsSectionProps {
  readonly buildId: string
  readonly wood: Wood
  readonly mayChange: boolean
  readonly desk: Desk
  readonly sheet: StrengthSheet
  readonly asked: Asked
}

/** Lines that are shown at once. */
const SHOWN = 6

/** Every wood that the table knows, and whether the piece would hold in it: at once where the wood is left open. */
export function WoodsSection(props: WoodsSectionProps) {
  const { desk, sheet, asked } = props
  const { asking, start } = useStrength<'woods'>(desk)
  const woods = sheet.woods.length > 0 ? sheet.woods : asking.state === 'done' ? asking.answer.woods : []
  return (
    <Section
      title="Woods that would do"
      note="The whole piece of one wood, picked as chosen above. Safety alone."
    >
      {woods.length > 0 ? <Woods {...props} woods={woods} /> : null}
      {sheet.woods.length === 0 && (asking.state === 'idle' || asking.state === 'cancelled') ? (
        <Button className="print:hidden" onClick={() => start({ kind: 'woods', ...asked })}>
          Try every wood
        </Button>
      ) : null}
      {asking.state === 'going' ? <p role="status">Trying every wood…</p> : null}
      {asking.state === 'refused' ? <Notice level="caution">{asking.sentence}</Notice> : null}
      {asking.state === 'failed' ? (
        <Notice level="stop">The calculation failed; the fault is in the program.</Notice>
      ) : null}
    </Section>
  )
}

function Woods({ buildId, wood, mayChange, woods }: WoodsSectionProps & { woods: readonly WoodVerdict[] }) {
  const list = (label: string, of: readonly WoodVerdict[]) => (
    <ul aria-label={label} className="max-w-3xl divide-y divide-hairline border-b border-hairline">
      {of.map((one) => (
        <li
          key={one.speciesId}
          className="flex min-h-14 flex-wrap items-center justify-between gap-x-6 py-1.5"
        >
          <p className="min-w-0 flex-1 basis-64">
            <strong>{one.name}</strong>{' '}
            <Tag tone={one.passes ? 'good' : 'stop'}>{one.passes ? 'holds' : 'fails'}</Tag>{' '}
            <span className="text-ink-soft">
              {one.title}: {marginWords(one.margin)}.
            </span>
          </p>
          {mayChange && one.passes && one.speciesId !== wood.id && wood.choices.includes(one.speciesId) ? (
            <span className="print:hidden">
              <UseThis buildId={buildId} values={{ species: one.speciesId }} of={one.name} />
            </span>
          ) : null}
        </li>
      ))}
    </ul>
  )
  return (
    <>
      <p className="max-w-[68ch] text-[1.1rem] font-medium">{woodsWords(woods)}</p>
      {list('Woods', woods.slice(0, SHOWN))}
      {woods.length > SHOWN ? (
        <details className="print-open">
          <summary className="min-h-11 py-2.5 font-medium text-accent">
            {woods.length - SHOWN} more woods
          </summary>
          {list('Woods, the rest', woods.slice(SHOWN))}
        </details>
      ) : null}
    </>
  )
}
