'use client'
import { useState } from 'react'
import type { ParameterSpec } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayParameter } from '#lib/shop/typed-parameters'
import { ParameterField } from './parameter-field'
import type { Numbers } from './use-numbers'
import type { WhatIf } from './use-what-if'

interface Props {
  readonly name: string
  readonly specs: readonly ParameterSpec[]
  readonly isFirst: boolean
  readonly numbers: Numbers
  readonly faults: Readonly<Record<string, string>>
  readonly units: LengthUnit
  readonly mayChange: boolean
  readonly whatIf: Pick<WhatIf, 'stops' | 'take'>
}

/**
 * Numbers that belong together. The place where the piece will stand comes first and is open; the others say in one
 * line what they are and open at a tap. Where a number needs another look
 * the group opens by itself, and stays so.
 */
export function ParameterGroup({ name, specs, isFirst, numbers, faults, units, mayChange, whatIf }: Props) {
  const [isOpen, setOpen] = useState(isFirst)
  const isFaulty = specs.some((s) => faults[s.id])
  if (isFaulty && !isOpen) setOpen(true)
  return (
    <details
      open={isOpen}
      onToggle={({ currentTarget: details }) => {
        if (isFaulty) details.open = true
        setOpen(details.open)
      }}
      className="border-b border-hairline-strong first:border-t"
    >
      <summary className="min-h-12 py-2.5">
        <h2 className="inline text-[1.15rem] font-semibold">{name}</h2>
        {isOpen ? null : (
          <span className="mt-0.5 block truncate pl-4.5 text-[0.92rem] text-ink-soft">
            {inOneLine(specs, numbers, units)}
          </span>
        )}
      </summary>
      <fieldset aria-label={name} className="min-w-0 divide-y divide-hairline pb-2">
        {specs.map((spec) => (
          <ParameterField
            key={spec.id}
            spec={spec}
            text={numbers.textOf(spec)}
            value={numbers.values[spec.id]}
            fault={faults[spec.id]}
            units={units}
            readOnly={!mayChange}
            type={numbers.type}
            savedValue={numbers.base.parameters[spec.id] ?? spec.default}
            stops={whatIf.stops?.id === spec.id ? whatIf.stops.stops : null}
            take={whatIf.take}
          />
        ))}
      </fieldset>
    </details>
  )
}

const inOneLine = (specs: readonly ParameterSpec[], { values }: Numbers, units: LengthUnit): string =>
  specs.map((s) => `${s.label} ${sayParameter(s, values[s.id] ?? s.default, units)}`).join(', ')
