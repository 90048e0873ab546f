'use client'
import { useCallback, useMemo, useState } from 'react'
import type { Design, Model, ParameterSpec, ParameterValues } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import type { VariantSum } from '#lib/engine/variant-run'
import { type ChangedParts, changedParts, type ShownRow, shownRow } from '#lib/shop/compare-variants'
import type { SliderStops } from '#lib/shop/slider-stops'
import type { VariantShop } from '#lib/shop/variant-figures'
import { sumRows } from '../variants/comparison-rows'
import { useAnswers, useLatestAnswer, useVariantDesk } from '../variants/use-answers'

export interface WhatIf {
  /** What moves against the saved numbers; empty while nothing does. */
  readonly rows: readonly ShownRow[]
  readonly parts: readonly ChangedParts[]
  /** The rows are of what stands in the fields now. */
  readonly isCurrent: boolean
  /** How far the number whose slider is in use may go, the others staying. */
  readonly stops: { readonly id: string; readonly stops: SliderStops } | null
  /** A slider is taken up. */
  readonly take: (parameterId: string) => void
}

interface Asked {
  readonly designId: string
  readonly design: Design | null
  readonly specs: readonly ParameterSpec[]
  readonly saved: ParameterValues
  /** Of the last numbers that make a piece. */
  readonly model: Model | null
  readonly isDirty: boolean
  readonly shop: VariantShop
  readonly units: LengthUnit
}

function rowsOf(sums: readonly (VariantSum | null)[], { specs, shop, units }: Asked): ShownRow[] {
  const columns = sums.map((sum) => ({ name: '', specs, parameters: {}, sum, pool: '' }))
  return sumRows(columns, units, shop.prices.currency)
    .map(shownRow)
    .filter((row) => row.differs)
}

/** What the numbers in the fields come to against those that are saved, worked out in a worker as they move. */
export function useWhatIf(asked: Asked): WhatIf {
  const { designId, design, saved, model, isDirty, shop } = asked
  const desk = useVariantDesk()
  const figures = (parameters: ParameterValues) => ({ kind: 'figures' as const, designId, parameters, shop })
  const [before] = useAnswers(desk, isDirty ? [figures(saved)] : [])
  const after = useLatestAnswer(desk, isDirty && model ? figures(model.parameters) : null)
  const savedModel = useMemo(() => {
    const built = isDirty && design ? design.build(saved) : null
    return built?.ok ? built.value : null
  }, [design, saved, isDirty])
  const parts = useMemo(
    () => (savedModel && model && isDirty ? changedParts(savedModel, model) : []),
    [savedModel, model, isDirty],
  )
  const beforeSum = before?.state === 'done' ? before.answer.sum : null
  const afterSum = isDirty ? (after.answer?.sum ?? null) : null
  // biome-ignore lint/correctness/useExhaustiveDependencies: specs, shop and units come with the page
  const rows = useMemo(
    () => (beforeSum && afterSum ? rowsOf([beforeSum, afterSum], asked) : []),
    [beforeSum, afterSum],
  )
  const { stops, take } = useStops(desk, designId, model)
  return { rows, parts, isCurrent: after.isCurrent && beforeSum !== null, stops, take }
}

/** Asked for when a slider is taken up: where the numbers were good last. */
function useStops(desk: ReturnType<typeof useVariantDesk>, designId: string, model: Model | null) {
  const [held, setHeld] = useState<{ id: string; values: ParameterValues } | null>(null)
  const take = useCallback(
    (id: string) => {
      if (model) setHeld({ id, values: model.parameters })
    },
    [model],
  )
  const [found] = useAnswers(
    desk,
    held ? [{ kind: 'stops' as const, designId, parameters: held.values, parameterId: held.id }] : [],
  )
  const stops = found?.state === 'done' ? found.answer.stops : null
  return { stops: held && stops ? { id: held.id, stops } : null, take }
}
