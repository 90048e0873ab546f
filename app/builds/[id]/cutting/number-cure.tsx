'use client'
import type { ParameterSpec } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { type PlanCureAsk, planCureDesk } from '#lib/engine/plan-cure-client'
import type { ParameterCure } from '#lib/shop/parameter-cure'
import { CureRows, CureSearch } from '../cure-search'
import { useDesk, useQuestion } from '../use-question'

interface Props {
  readonly buildId: string
  readonly ask: PlanCureAsk
  readonly units: LengthUnit
  readonly mayChange: boolean
}

const MOST_SHOWN = 6

/** Looks for the one number of the design that would let every part come out of the pool. */
export function NumberCure({ buildId, ask, units, mayChange }: Props) {
  const { asking, start, stop } = useQuestion(useDesk(planCureDesk))
  return (
    <CureSearch
      {...{ asking, stop }}
      start={() => start(ask)}
      ask="Would another number of the design do?"
      label="Looking for the smallest change…"
      found={({ cures, tried }) => (
        <CureRows
          {...{ buildId, units, mayChange }}
          cures={cures.slice(0, MOST_SHOWN).map((cure) => ({ ...cure, sentence: sentenceOf(cure) }))}
          head={
            cures.length === 1
              ? 'With this change every part comes out of the pool:'
              : 'With any one of these changes every part comes out of the pool, the smallest first:'
          }
          none={`No single number of the design would do (${tried} changes tried). A board more, or two numbers at once, may.`}
        />
      )}
    />
  )
}

const SIGN: Readonly<Record<ParameterSpec['unit'], string>> = { mm: ' mm', deg: '°', count: '', choice: '' }

function sentenceOf({ label, from, to, unit }: ParameterCure): string {
  const say = (value: number) => `${Number(value.toFixed(2))}${SIGN[unit]}`
  return `${label}: ${say(to)} instead of ${say(from)}.`
}
