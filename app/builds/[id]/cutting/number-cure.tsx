'use client'
import { useEffect, useRef, useState } from 'react'
import type { ParameterSpec } from '#lib/core/design/model'
import type { Outcome, Run } from '#lib/engine/browser-worker'
import { type PlanCureAsk, planCureDesk } from '#lib/engine/plan-cure-client'
import type { ParameterCure, ParameterCures } from '#lib/shop/parameter-cure'
import { Button } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { Going } from '../strength/going'
import { UseThis } from '../strength/use-this'

interface Props {
  readonly buildId: string
  readonly ask: PlanCureAsk
  readonly mayChange: boolean
}

type State =
  | { readonly kind: 'idle' }
  | { readonly kind: 'going'; readonly tried: number }
  | Outcome<ParameterCures>

/** Looks for the one number of the design that would let every part come out of the pool; seconds, so on demand. */
export function NumberCure({ buildId, ask, mayChange }: Props) {
  const [state, setState] = useState<State>({ kind: 'idle' })
  const [desk] = useState(planCureDesk)
  const run = useRef<Run<ParameterCures> | null>(null)
  useEffect(() => () => desk.close(), [desk])
  const start = () => {
    setState({ kind: 'going', tried: 0 })
    const mine = desk.ask(ask, (tried) => setState({ kind: 'going', tried }))
    run.current = mine
    mine.outcome.then(setState)
  }
  switch (state.kind) {
    case 'idle':
      return <Button onClick={start}>Would another number of the design do?</Button>
    case 'going':
      return (
        <Going
          label="Looking for the smallest change…"
          done={state.tried}
          counted="changes tried"
          stop={() => run.current?.cancel()}
        />
      )
    case 'done':
      return <Found cures={state.answer.cures} tried={state.answer.tried} {...{ buildId, mayChange }} />
    case 'cancelled':
      return (
        <div className="grid justify-items-start gap-2">
          <p role="status">Stopped. Nothing was changed.</p>
          <Button onClick={start}>Look again</Button>
        </div>
      )
    case 'refused':
      return <Notice level="caution">{state.sentence}</Notice>
    case 'failed':
      return <Notice level="stop">The search failed; the fault is in the program.</Notice>
  }
}

const SIGN: Readonly<Record<ParameterSpec['unit'], string>> = { mm: ' mm', deg: '°', count: '', choice: '' }
const valueText = (value: number, unit: ParameterSpec['unit']) =>
  `${Number(value.toFixed(2)).toLocaleString('en')}${SIGN[unit]}`

const MOST_SHOWN = 6

function Found({
  cures,
  tried,
  buildId,
  mayChange,
}: {
  cures: readonly ParameterCure[]
  tried: number
  buildId: string
  mayChange: boolean
}) {
  if (cures.length === 0)
    return (
      <p role="status" className="max-w-[68ch]">
        No single number of the design would do ({tried} changes tried). A board more, or two numbers at once,
        may.
      </p>
    )
  return (
    <div className="grid gap-2">
      <p role="status" className="font-medium">
        {cures.length === 1
          ? 'With this change every part comes out of the pool:'
          : 'With any one of these changes every part comes out of the pool, the smallest first:'}
      </p>
      <ul
        aria-label="Changes that would do"
        className="grid max-w-3xl divide-y divide-hairline border-y border-hairline"
      >
        {cures.slice(0, MOST_SHOWN).map((cure) => (
          <li
            key={`${cure.parameter} ${cure.to}`}
            className="flex flex-wrap items-center justify-between gap-x-6 gap-y-1 py-2"
          >
            <p>
              <strong>{cure.label}</strong>: {valueText(cure.from, cure.unit)} →{' '}
              {valueText(cure.to, cure.unit)}
            </p>
            {mayChange ? (
              <UseThis buildId={buildId} values={{ [cure.parameter]: cure.to }} of={cure.label} />
            ) : null}
          </li>
        ))}
      </ul>
    </div>
  )
}
