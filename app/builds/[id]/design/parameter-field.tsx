'use client'
import clsx from 'clsx'
import { Minus, Plus } from 'lucide-react'
import { type KeyboardEvent, memo, useId } from 'react'
import type { ParameterSpec } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayInUnits } from '#lib/format/sentence'
import { hasSlider, type SliderStops } from '#lib/shop/slider-stops'
import { nudged, parameterText, sayParameter } from '#lib/shop/typed-parameters'
import { ParameterSlider } from './parameter-slider'

interface ParameterFieldProps {
  readonly spec: ParameterSpec
  readonly text: string
  /** What the text says, if it can be read. */
  readonly value: number | string | undefined
  readonly fault: string | undefined
  readonly units: LengthUnit
  readonly readOnly: boolean
  readonly type: (id: string, text: string) => void
  readonly savedValue: number | string
  /** Of this number, where its slider is in use. */
  readonly stops: SliderStops | null
  readonly take: (id: string) => void
}

const PADDING = { mm: 'pr-9', deg: 'pr-5', count: 'pr-3', choice: '' } as const
const SIGN = { deg: '°', count: '', choice: '' } as const
const unitOf = (spec: ParameterSpec, units: LengthUnit) => (spec.unit === 'mm' ? units : SIGN[spec.unit])

/** One number of the design: its name and what it is measured from at the left, its field at the right. */
export const ParameterField = memo(function ParameterField(props: ParameterFieldProps) {
  const { spec, fault } = props
  const id = useId()
  const described = `${fault ? `${id}-fault ` : ''}${id}-help`
  return (
    <div className="grid grid-cols-[minmax(0,1fr)_auto] items-center gap-x-3 gap-y-1 py-2.5">
      <label htmlFor={id} className="leading-tight font-medium">
        {spec.label}
      </label>
      {spec.unit === 'choice' ? (
        <Choice {...props} id={id} described={described} />
      ) : (
        <NumberBox {...props} id={id} described={described} />
      )}
      <Slider {...props} />
      <PutBack {...props} />
      {fault ? (
        <p id={`${id}-fault`} className="col-span-2 text-[0.92rem] font-medium text-stop">
          {fault}
        </p>
      ) : null}
      <p id={`${id}-help`} className="col-span-2 text-[0.85rem] leading-snug text-ink-soft">
        {sayInUnits(spec.help, props.units)}
      </p>
    </div>
  )
})

function Slider({ spec, value, savedValue, units, readOnly, stops, type, take }: ParameterFieldProps) {
  if (readOnly || !hasSlider(spec) || typeof savedValue !== 'number') return null
  return (
    <ParameterSlider
      spec={spec}
      value={typeof value === 'number' ? value : savedValue}
      savedValue={savedValue}
      units={units}
      stops={stops}
      move={(to) => type(spec.id, parameterText(spec, to, units))}
      take={() => take(spec.id)}
    />
  )
}

/** What is saved, and the way back to it, where the field says something else. */
function PutBack({ spec, text, savedValue, units, readOnly, type }: ParameterFieldProps) {
  const saved = parameterText(spec, savedValue, units)
  if (readOnly || text.trim() === saved) return null
  return (
    <p className="col-span-2 flex flex-wrap items-center gap-x-2 text-[0.88rem] text-ink-soft">
      Saved: {sayParameter(spec, savedValue, units)}
      <button
        type="button"
        className="min-h-11 px-1 text-accent underline underline-offset-4"
        onClick={() => type(spec.id, saved)}
      >
        Put back<span className="sr-only"> {spec.label}</span>
      </button>
    </p>
  )
}

interface BoxProps extends ParameterFieldProps {
  readonly id: string
  readonly described: string
}

function Choice({ spec, text, fault, readOnly, type, id, described }: BoxProps) {
  return (
    <select
      id={id}
      className="control col-span-2"
      value={text}
      disabled={readOnly}
      aria-invalid={fault ? true : undefined}
      aria-describedby={described}
      onChange={(event) => type(spec.id, event.target.value)}
    >
      {spec.options?.map((o) => (
        <option key={o.value} value={o.value}>
          {o.label}
        </option>
      ))}
    </select>
  )
}

function NumberBox({ spec, text, value, fault, units, readOnly, type, id, described }: BoxProps) {
  const unit = unitOf(spec, units)
  const step = (steps: 1 | -1, big: boolean) => {
    if (typeof value !== 'number') return
    type(spec.id, parameterText(spec, nudged(spec, value, { steps, big, units }), units))
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const steps = event.key === 'ArrowUp' ? 1 : event.key === 'ArrowDown' ? -1 : null
    if (steps === null || readOnly) return
    event.preventDefault()
    step(steps, event.shiftKey)
  }
  return (
    <div className="flex">
      {readOnly ? null : <Step spec={spec} steps={-1} step={step} controls={id} />}
      <div className="relative w-26">
        <input
          id={id}
          className={clsx('control text-right', readOnly || 'rounded-none', PADDING[spec.unit])}
          inputMode={spec.unit === 'mm' ? 'text' : 'decimal'}
          autoComplete="off"
          spellCheck={false}
          value={text}
          readOnly={readOnly}
          maxLength={60}
          aria-invalid={fault ? true : undefined}
          aria-describedby={described}
          onChange={(event) => type(spec.id, event.target.value)}
          onKeyDown={onKeyDown}
          onFocus={(event) => event.target.select()}
        />
        <span
          aria-hidden="true"
          className="pointer-events-none absolute inset-y-0 right-2 grid place-items-center text-[0.9rem] text-ink-soft"
        >
          {unit}
        </span>
      </div>
      {readOnly ? null : <Step spec={spec} steps={1} step={step} controls={id} />}
    </div>
  )
}

interface StepProps {
  readonly spec: ParameterSpec
  readonly steps: 1 | -1
  readonly step: (steps: 1 | -1, big: boolean) => void
  /** The field that it steps. */
  readonly controls: string
}

/** For a thumb; from the keyboard the arrow keys do it, so these are no stops of the tab key. */
function Step({ spec, steps, step, controls }: StepProps) {
  const Icon = steps > 0 ? Plus : Minus
  const isWide = spec.unit === 'mm' && (spec.max ?? 0) - (spec.min ?? 0) > 200
  return (
    <button
      type="button"
      tabIndex={-1}
      aria-label={steps > 0 ? 'more' : 'less'}
      aria-controls={controls}
      onClick={() => step(steps, isWide)}
      className="grid size-11 shrink-0 place-items-center border border-hairline-strong bg-sheet first:border-r-0 first:rounded-l-control last:border-l-0 last:rounded-r-control hover:bg-accent-wash"
    >
      <Icon aria-hidden="true" className="size-4" strokeWidth={2.4} />
    </button>
  )
}
