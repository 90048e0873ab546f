'use client'
import type { StrengthCheck } from '#lib/core/statics/checks'
import type { Cure } from '#lib/core/statics/cure'
import { marginWords } from '#lib/shop/strength-words'
import { Button, ButtonLink } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { Going } from './going'
import { type Asked, type Desk, useQuestion } from './use-strength'

interface CureFinderProps {
  readonly buildId: string
  readonly desk: Desk
  readonly asked: Asked
  readonly check: StrengthCheck
}

/** Looks for the one number of the design that would make a failing check pass; takes seconds, so on demand. */
export function CureFinder({ buildId, desk, asked, check }: CureFinderProps) {
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
      return <Found cures={asking.answer.report.cures} tried={asking.answer.report.tried} buildId={buildId} />
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
}

function Found({ cures, tried, buildId }: FoundProps) {
  if (cures.length === 0)
    return (
      <p role="status" className="max-w-[68ch]">
        No single number of the design cures it ({tried} changes tried). Two together may, or a stronger wood:
        the design asks for the wood.
      </p>
    )
  return (
    <div className="grid gap-3">
      <p role="status" className="font-medium">
        {cures.length === 1
          ? 'One change would cure it:'
          : `Any one of ${cures.length} changes would cure it, the least first:`}
      </p>
      <ul aria-label="Cures" className="grid max-w-[68ch] list-disc gap-1.5 pl-5">
        {cures.map((cure) => (
          <li key={`${cure.parameter} ${cure.to}`}>
            <strong>{cure.sentence}</strong> It then {marginWords(cure.margin)}. {left(cure)}
          </li>
        ))}
      </ul>
      <ButtonLink className="justify-self-start" href={`/builds/${buildId}/design`}>
        Go to the design’s numbers
      </ButtonLink>
    </div>
  )
}

function left({ stillFailing, newlyFailing }: Cure): string {
  if (stillFailing === 0) return 'Nothing else that could hurt fails then.'
  const fresh = newlyFailing.length
  const words = `${stillFailing} ${stillFailing === 1 ? 'check that could hurt still fails' : 'checks that could hurt still fail'}`
  return fresh > 0 ? `But ${words}, ${fresh} of them new.` : `${words}.`
}
