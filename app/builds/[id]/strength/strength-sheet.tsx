'use client'
import { useEffect, useMemo, useRef, useState } from 'react'
import type { ParameterValues } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { strengthDesk } from '#lib/engine/strength-client'
import type { StrengthSheet as Sheet } from '#lib/engine/strength-run'
import { sayStrengthInUnits } from '#lib/format/sentence'
import { type AskFaults, askQuery, readAsk, type TypedAsk, USUAL_ASK } from '#lib/shop/strength-ask'
import { Notice } from '../../../ui/notice'
import { Section } from '../../../ui/sheet'
import { useDesk } from '../use-question'
import { Checks } from './checks'
import { Inputs, type Wood } from './inputs'
import { MovementSection } from './movement-section'
import { Units, useSay } from './say'
import { ScatterSection } from './scatter-section'
import { TippingSection } from './tipping-section'
import { type Asked, type Desk, useStrength } from './use-strength'
import { VerdictSection } from './verdict-section'
import { WaysSection } from './ways-section'
import { WoodsSection } from './woods-section'

interface StrengthSheetProps {
  readonly buildId: string
  readonly designId: string
  readonly parameters: ParameterValues
  readonly grades: readonly { readonly value: string; readonly label: string }[]
  readonly wood: Wood
  readonly mayChange: boolean
  readonly units: LengthUnit
}

/** Typing is let finish. */
const WAIT_MS = 300

/** What is asked now, or null while it cannot be read. */
function useAsked({ designId, parameters }: StrengthSheetProps, typed: TypedAsk) {
  return useMemo((): { readonly asked: Asked | null; readonly faults: AskFaults } => {
    const read = readAsk(typed)
    return read.ok
      ? { asked: { designId, parameters, options: read.value }, faults: {} }
      : { asked: null, faults: read.error }
  }, [designId, parameters, typed])
}

/** Everything about strength that is worked out in the browser, in a worker of the page's own. */
export function StrengthSheet(props: StrengthSheetProps) {
  const [typed, setTyped] = useState(USUAL_ASK)
  const { asked, faults } = useAsked(props, typed)
  const desk = useDesk(strengthDesk)
  const { asking, start } = useStrength<'study'>(desk)
  const [last, setLast] = useState<{ readonly sheet: Sheet; readonly asked: Asked } | null>(null)
  const judged = useRef<Asked | null>(null)
  useEffect(() => {
    if (!asked) return
    const begin = () => {
      judged.current = asked
      start({ kind: 'study', ...asked })
    }
    const timer = setTimeout(begin, judged.current ? WAIT_MS : 0)
    return () => clearTimeout(timer)
  }, [asked, start])
  useEffect(() => {
    if (asking.state === 'done' && judged.current)
      setLast({ sheet: asking.answer.sheet, asked: judged.current })
  }, [asking])
  const isRefused = asking.state === 'refused' || asking.state === 'failed'
  return (
    <Units value={props.units}>
      {asking.state === 'refused' ? (
        <Notice level="stop" title="It cannot be judged" role="alert">
          {sayStrengthInUnits(asking.sentence, props.units)}
        </Notice>
      ) : null}
      {asking.state === 'failed' ? (
        <Notice level="stop" title="The calculation failed" role="alert">
          The fault is in the program, not in your design. Reload the page; if it fails again, tell your
          admin.
        </Notice>
      ) : null}
      {last && !isRefused ? (
        <VerdictSection
          sheet={last.sheet}
          isCurrent={asking.state === 'done'}
          pdf={`/builds/${props.buildId}/strength/report.pdf?${askQuery(typed)}`}
        />
      ) : null}
      {!last && !isRefused ? (
        <p role="status" className="min-h-40 text-[1.35rem] font-semibold">
          Working it out…
        </p>
      ) : null}
      <Section title="What it is judged for">
        <Inputs
          {...{ typed, setTyped, faults }}
          grades={props.grades}
          wood={props.wood}
          buildId={props.buildId}
        />
      </Section>
      {last && !isRefused ? <Answers {...props} desk={desk} {...last} /> : null}
    </Units>
  )
}

interface AnswersProps extends StrengthSheetProps {
  readonly desk: Desk
  readonly sheet: Sheet
  readonly asked: Asked
}

function Answers({ buildId, wood, mayChange, desk, sheet, asked }: AnswersProps) {
  const say = useSay()
  const { report } = sheet
  // Where the wood is left open it is the first question.
  const woods = <WoodsSection {...{ buildId, wood, mayChange, desk, sheet, asked }} />
  return (
    <>
      {sheet.woods.length > 0 ? woods : null}
      <Checks {...{ buildId, mayChange, desk, sheet, asked }} />
      {sheet.woods.length > 0 ? null : woods}
      {report.tipping ? <TippingSection tipping={report.tipping} /> : null}
      <WaysSection {...{ desk, asked }} />
      <MovementSection sheet={sheet} />
      <ScatterSection {...{ desk, asked }} />
      <Section title="Good to know">
        <ul className="grid max-w-[72ch] list-disc gap-1.5 pl-5">
          {report.notes.map((note) => (
            <li key={note}>{say(note)}</li>
          ))}
        </ul>
      </Section>
    </>
  )
}
