'use client'
import type { ReactNode } from 'react'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayInUnits } from '#lib/format/sentence'
import { Button } from '../../ui/button'
import { Notice } from '../../ui/notice'
import { Going } from './going'
import type { Asking } from './use-question'
import { UseThis } from './use-this'

interface CureSearchProps<Answer> {
  readonly asking: Asking<Answer>
  readonly start: () => void
  readonly stop: () => void
  /** On the button that begins it. */
  readonly ask: string
  /** Of what, for who cannot see where the button stands. */
  readonly of?: string
  /** While it goes on. */
  readonly label: string
  readonly found: (answer: Answer) => ReactNode
}

/** A search for the number of the design that would mend something: seconds, so on demand, and it can be stopped. */
export function CureSearch<Answer>(props: CureSearchProps<Answer>) {
  const { asking, start, stop } = props
  const button = (label: string) => (
    <Button className="justify-self-start" onClick={start}>
      {label}
      {props.of === undefined ? null : <span className="sr-only">: {props.of}</span>}
    </Button>
  )
  switch (asking.state) {
    case 'idle':
      return button(props.ask)
    case 'going':
      return <Going label={props.label} done={asking.done} counted="changes tried" stop={stop} />
    case 'done':
      return props.found(asking.answer)
    case 'cancelled':
      return (
        <div className="grid gap-2">
          <p role="status">Stopped. Nothing was changed.</p>
          {button('Look again')}
        </div>
      )
    case 'refused':
      return <Notice level="caution">{asking.sentence}</Notice>
    case 'failed':
      return (
        <div className="grid gap-2">
          <Notice level="stop">The search failed; the fault is in the program.</Notice>
          {button('Look again')}
        </div>
      )
  }
}

export interface CureRow {
  readonly parameter: string
  readonly label: string
  readonly to: number | string
  /** «Seat height: 610 mm instead of 620 mm.» */
  readonly sentence: string
  /** What else it does. */
  readonly more?: string
}

interface CureRowsProps {
  readonly cures: readonly CureRow[]
  /** Above them, where there are some. */
  readonly head: string
  /** In their place, where there are none. */
  readonly none: string
  readonly buildId: string
  readonly units: LengthUnit
  readonly mayChange: boolean
}

/** Changes of one number each, the best first, each with the way to try it in the design. */
export function CureRows({ cures, head, none, buildId, units, mayChange }: CureRowsProps) {
  if (cures.length === 0)
    return (
      <p role="status" className="max-w-[68ch]">
        {none}
      </p>
    )
  return (
    <div className="grid w-full gap-2">
      <p role="status" className="font-medium">
        {head}
      </p>
      <ul aria-label="Cures" className="grid max-w-3xl divide-y divide-hairline border-y border-hairline">
        {cures.map((cure) => (
          <li
            key={`${cure.parameter} ${cure.to}`}
            className="flex flex-wrap items-center justify-between gap-x-6 gap-y-1 py-2"
          >
            <p className="min-w-0 flex-1 basis-64">
              <strong>{sayInUnits(cure.sentence, units)}</strong> {cure.more}
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
