'use client'
import { type FormEvent, useMemo } from 'react'
import type { ParameterSpec } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayParameter } from '#lib/shop/typed-parameters'
import type { VariantShop } from '#lib/shop/variant-figures'
import { Notice } from '../../../ui/notice'
import { FitSection } from './fit-section'
import { inReadersUnits } from './in-readers-units'
import { ModelPanel } from './model-panel'
import { ParameterGroup } from './parameter-group'
import { SaveBar } from './save-bar'
import { useDesign, useModel } from './use-design'
import { type SavedNumbers, useNumbers } from './use-numbers'
import { useSaving } from './use-saving'
import { useWhatIf } from './use-what-if'
import { WhatMoves } from './what-moves'

interface DesignSheetProps {
  /** Of the piece, over its pictures. */
  readonly title: string
  readonly designId: string
  readonly specs: readonly ParameterSpec[]
  readonly saved: SavedNumbers
  readonly shop: VariantShop
  readonly buildId: string
  readonly units: LengthUnit
  readonly mayChange: boolean
  /** Neither finished nor given up. */
  readonly isOpen: boolean
  /** Numbers that a link offers, as they would be typed. */
  readonly offer: Readonly<Record<string, string>>
}

const groupsOf = (specs: readonly ParameterSpec[]) =>
  [...new Set(specs.map((s) => s.group))].map((name) => ({
    name,
    specs: specs.filter((s) => s.group === name),
  }))

/** The numbers of a design and the piece that they make, side by side; every change is seen at once. */
export function DesignSheet(props: DesignSheetProps) {
  const { title, buildId, designId, specs, saved, shop, units, mayChange, isOpen, offer } = props
  const numbers = useNumbers(specs, saved, units, offer)
  const { design, failed } = useDesign(designId)
  const isReadable = Object.keys(numbers.faults).length === 0
  const live = useModel(design, isReadable ? numbers.values : null, saved.parameters)
  const saving = useSaving(numbers)
  const whatIf = useWhatIf({
    ...{ designId, design, specs, shop, units },
    saved: numbers.base.parameters,
    model: live.model,
    isDirty: numbers.isDirty,
  })
  const faults: Readonly<Record<string, string>> = useMemo(
    () => inReadersUnits({ ...saving.fields, ...live.refusals, ...numbers.faults }, units),
    [saving.fields, live.refusals, numbers.faults, units],
  )
  const loose = Object.entries(faults).filter(([id]) => !specs.some((s) => s.id === id))
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    if (live.isCurrent) saving.save()
    else event.currentTarget.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus()
  }
  return (
    <div className="grid gap-x-10 gap-y-8 lg:grid-cols-[minmax(0,24rem)_minmax(0,1fr)]">
      <div
        id="piece"
        className="min-w-0 scroll-mt-4 self-start lg:sticky lg:top-0 lg:order-2 lg:max-h-dvh lg:overflow-y-auto lg:py-4"
      >
        {failed ? (
          <Notice level="stop">
            The design could not be fetched. Look whether you are online, and reload.
          </Notice>
        ) : (
          <div className="grid gap-3">
            <ModelPanel
              {...{ title, live, units }}
              fault={Object.values(faults)[0]}
              shown={isOpen ? { ...numbers.base, buildId, isSaved: !numbers.isDirty } : undefined}
            />
            {/* Where the piece stands above the numbers it would push them away: see the save bar. */}
            {numbers.isDirty && live.isCurrent ? (
              <div className="hidden lg:block">
                <WhatMoves whatIf={whatIf} units={units} />
              </div>
            ) : null}
          </div>
        )}
        <FitSection lines={live.model?.fit} units={units} />
      </div>
      <form
        aria-label="Numbers of the design"
        noValidate
        className="grid min-w-0 grid-cols-[minmax(0,1fr)] gap-7 lg:order-1 lg:pt-4"
        onSubmit={submit}
      >
        {numbers.offered.length > 0 ? (
          <Notice title="Offered, not saved">
            {numbers.offered
              .map((s) => `${s.label}: ${sayParameter(s, numbers.values[s.id] ?? s.default, units)}`)
              .join('; ')}
            . Look at what it makes of the piece, then save it or put it back.
          </Notice>
        ) : null}
        {loose.map(([id, sentence]) => (
          <Notice key={id} level="stop">
            {sentence}
          </Notice>
        ))}
        <div>
          {groupsOf(specs).map((group, i) => (
            <ParameterGroup
              key={group.name}
              name={group.name}
              specs={group.specs}
              isFirst={i === 0}
              numbers={numbers}
              faults={faults}
              units={units}
              mayChange={mayChange}
              whatIf={whatIf}
            />
          ))}
        </div>
        {mayChange ? <SaveBar {...{ numbers, saved, saving, live, units, whatIf, buildId }} /> : null}
      </form>
    </div>
  )
}
