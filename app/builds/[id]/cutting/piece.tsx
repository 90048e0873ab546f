'use client'
import { useMemo } from 'react'
import { designById } from '#lib/core/design/designs/registry'
import type { ParameterValues } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import ModelView from '../../../ui/model-view/model-view'

interface Props {
  readonly designId: string
  readonly parameters: ParameterValues
  readonly title: string
  readonly units: LengthUnit
  readonly chosen: string | null
  readonly onPick: (partId: string | null) => void
  readonly onHover: (partId: string | null) => void
}

const NONE: readonly string[] = []

/** The piece as it was planned, one part marked. */
export default function Piece({ designId, parameters, title, units, chosen, onPick, onHover }: Props) {
  const model = useMemo(() => designById(designId)?.build(parameters), [designId, parameters])
  if (!model?.ok) return <p>The design cannot be drawn just now.</p>
  return (
    <ModelView
      model={model.value}
      {...{ title, units, onPick, onHover }}
      isBare
      className="h-[min(38vh,20rem)]"
      chosenPartIds={chosen === null ? NONE : [chosen]}
    />
  )
}
