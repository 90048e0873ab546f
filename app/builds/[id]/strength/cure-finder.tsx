'use client'
import type { StrengthCheck } from '#lib/core/statics/checks'
import type { Cure, CureReport } from '#lib/core/statics/cure'
import { marginWords } from '#lib/shop/strength-words'
import { CureRows, CureSearch } from '../cure-search'
import { useUnits } from './say'
import { type Asked, type Desk, useStrength } from './use-strength'

interface CureFinderProps {
  readonly buildId: string
  readonly desk: Desk
  readonly asked: Asked
  readonly mayChange: boolean
  readonly check: StrengthCheck
}

/** Looks for the one number of the design that would make a failing check pass. */
export function CureFinder({ buildId, desk, asked, mayChange, check }: CureFinderProps) {
  const units = useUnits()
  const { asking, start, stop } = useStrength<'cure'>(desk)
  return (
    <CureSearch
      {...{ asking, stop }}
      start={() => start({ kind: 'cure', ...asked, checkId: check.id })}
      ask="What would cure it?"
      of={check.title}
      label="Looking for a cure…"
      found={({ report: { cures, tried } }) => (
        <CureRows
          {...{ buildId, units, mayChange }}
          cures={cures.map((cure) => ({ ...cure, more: after(cure) }))}
          head={headOf(cures)}
          none={`No single number of the design cures it (${tried} changes tried). Two together may, or a stronger wood.`}
        />
      )}
    />
  )
}

const headOf = ({ length }: CureReport['cures']): string =>
  length === 1 ? 'One change would cure it:' : `Any one of ${length} changes would cure it, the best first:`

function after({ margin, stillFailing, newlyFailing }: Cure): string {
  const then = `It then ${marginWords(margin)}.`
  if (stillFailing === 0) return `${then} Nothing else that could hurt fails then.`
  const fresh = newlyFailing.length
  const words = `${stillFailing} ${stillFailing === 1 ? 'check that could hurt still fails' : 'checks that could hurt still fail'}`
  return `${then} ${fresh > 0 ? `But ${words}, ${fresh} of them new.` : `${words}.`}`
}
