'use client'
import type { StrengthCheck } from '#lib/core/statics/checks'
import type { Cure } from '#lib/core/statics/cure'
import { marginWords } from '#lib/shop/strength-words'
import { Button } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { Going } from './going'
import { type Asked, type Desk, useQuestion } from './use-strength'
import { UseThis } from './use-this'

interface CureFinderProps {
  readonly buildId: string
  readonly desk: Desk
  readonly asked: Asked
  readonly mayChange: boolean
  readonly check: StrengthCheck
}

/** Looks for the one number of the design that would make a failing check pass; takes seconds, so on demand. */
export function CureFinder({ buildId, desk, asked, mayChange, check }: CureFinderProps) {
  const { asking, start, stop } = useQuestion<'cure'>(desk)
  const begin = () => start({ kind: 'cure', ...asked, checkId: check.id })
  const ask = (label: string) => (
    <Button className="justify-self-start" onClick={begin}>
      {label}
      <span className="sr-only">: {check.title}</span>
    </Button>
  )
  switch (asking.state) {
    case 'idle':
      return ask('What would cure it?')
    case 'going':
      return <Going label="Looking for a cure…" done={asking.done} counted="changes tried" stop={stop} />
    case 'cancelled':
      return (
        <div className="grid gap-2">
          <p role="status">Stopped. Nothing was changed.</p>
          {ask('Look again')}
        </div>
      )
    case 'done':
      return <Found {...asking.answer.report} {...{ buildId, mayChange }} />
    case 'refused':
      return <Notice level="caution">{asking.sentence}</Notice>
    case 'failed':
      return (
        <div className="grid gap-2">
          <Notice level="stop">The search failed; the fault is in the program.</Notice>
          {ask('Look again')}
        </div>
      )
  }
}

interface FoundProps {
  readonly cures: readonly Cure[]
  readonly tried: number
  readonly buildId: string
  readonly mayChange: boolean
}

function Found({ cures, tried, buildId, mayChange }: FoundProps) {
  if (cures.length === 0)
    return (
      <p role="status" className="max-w-[68ch]">
        No single number of the design cures it ({tried} changes tried). Two together may, or a stronger wood.
      </p>
    )
  return (
    <div className="grid w-full gap-2">
      <p role="status" className="font-medium">
        {cures.length === 1
          ? 'One change would cure it:'
          : `Any one of ${cures.length} changes would cure it, the best first:`}
      </p>
      <ul aria-label="Cures" className="grid max-w-3xl divide-y divide-hairline border-y border-hairline">
        {cures.map((cure) => (
          <li
            key={`${cure.parameter} ${cure.to}`}
            className="flex flex-wrap items-center justify-between gap-x-6 gap-y-1 py-2"
          >
            <p className="min-w-0 flex-1 basis-72">
              <strong>{cure.sentence}</strong> It then {marginWords(cure.margin)}. {left(cure)}
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

function left({ stillFailing, newlyFailing }: Cure): string {
  if (stillFailing === 0) return 'Nothing else that could hurt fails then.'
  const fresh = newlyFailing.length
  const words = `${stillFailing} ${stillFailing === 1 ? 'check that could hurt still fails' : 'checks that could hurt still fail'}`
  return fresh > 0 ? `But ${words}, ${fresh} of them new.` : `${words}.`
}
