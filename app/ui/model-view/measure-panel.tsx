'use client'
/** What is measured, said in words; and measuring by list for who does not point: any two faces of any two parts. */
import { useState } from 'react'
import { featureOfFace } from '#lib/core/design/measure'
import type { FaceName, Model } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { FACE_WORDS, sayFeature, sayMeasured } from './say-measure'
import type { Measuring, ViewState } from './use-view-state'

function said(model: Model, { features, result }: Measuring, units: LengthUnit): string {
  const [a, b] = features
  if (a === undefined) return 'Touch a face, an arris or a corner of a part, then a second one.'
  if (b === undefined || result === undefined)
    return `From ${sayFeature(model, a, units)} to: touch the second.`
  return `${sayFeature(model, a, units)} to ${sayFeature(model, b, units)}`
}

const FACES = Object.keys(FACE_WORDS) as FaceName[]
interface Choice {
  readonly partId: string
  readonly face: FaceName
}

function FaceChoice({
  model,
  which,
  choice,
  onChange,
}: {
  model: Model
  which: 'First' | 'Second'
  choice: Choice
  onChange: (choice: Choice) => void
}) {
  return (
    <div className="grid grid-cols-[minmax(0,1fr)_7.5rem] gap-2">
      <select
        aria-label={`${which} part`}
        className="control min-h-11 min-w-0"
        value={choice.partId}
        onChange={(event) => onChange({ ...choice, partId: event.target.value })}
      >
        {model.parts.map(({ id, name }) => (
          <option key={id} value={id}>
            {name}
          </option>
        ))}
      </select>
      <select
        aria-label={`${which} part's face`}
        className="control min-h-11"
        value={choice.face}
        onChange={(event) => onChange({ ...choice, face: event.target.value as FaceName })}
      >
        {FACES.map((face) => (
          <option key={face} value={face}>
            {FACE_WORDS[face]}
          </option>
        ))}
      </select>
    </div>
  )
}

function MeasureByList({ model, setFeatures }: { model: Model; setFeatures: ViewState['setFeatures'] }) {
  const first = model.parts[0].id
  const [choices, setChoices] = useState<readonly [Choice, Choice]>([
    { partId: first, face: 'endA' },
    { partId: first, face: 'endB' },
  ])
  const pick = (next: readonly [Choice, Choice]): void => {
    setChoices(next)
    setFeatures(
      next.flatMap(({ partId, face }) => {
        const part = model.parts.find(({ id }) => id === partId)
        return (part && featureOfFace(part, face)) ?? []
      }),
    )
  }
  return (
    <details className="mt-1" onToggle={(event) => event.currentTarget.open && pick(choices)}>
      <summary className="min-h-11 py-2.5 text-accent">Choose from lists instead</summary>
      <div className="grid gap-2 pb-2 sm:grid-cols-2">
        <FaceChoice model={model} which="First" choice={choices[0]} onChange={(c) => pick([c, choices[1]])} />
        <FaceChoice
          model={model}
          which="Second"
          choice={choices[1]}
          onChange={(c) => pick([choices[0], c])}
        />
      </div>
    </details>
  )
}

interface PanelProps {
  readonly model: Model
  readonly state: ViewState
  readonly units: LengthUnit
}

export function MeasurePanel({ model, state, units }: PanelProps) {
  const { measuring } = state
  if (!measuring.isOn) return null
  return (
    <div className="border-t border-hairline pt-2">
      <output aria-live="polite" className="block min-h-12">
        {measuring.result ? (
          <strong className="block text-[1.4rem] leading-tight font-semibold">
            {sayMeasured(measuring.result, units)}
          </strong>
        ) : null}
        <span className="text-[0.95rem] text-ink-soft first-letter:uppercase">
          {said(model, measuring, units)}
        </span>
      </output>
      <MeasureByList key={model.parts[0].id} model={model} setFeatures={state.setFeatures} />
    </div>
  )
}
