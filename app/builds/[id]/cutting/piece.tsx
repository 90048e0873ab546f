'use client'
import { useMemo } from 'react'
import type { ParameterValues } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import ModelView from '../../../ui/model-view/model-view'
import { useDesign } from '../design/use-design'

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
  const { design, failed } = useDesign(designId)
  const model = useMemo(() => design?.build(parameters), [design, parameters])
  if (!design && !failed) return <p className="text-ink-soft">Drawing…</p>
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
