'use client'
import type { KeyboardEvent } from 'react'
import type { ParameterSpec } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import type { SliderStops } from '#lib/shop/slider-stops'
import { nearestStep, nudged, sayParameter } from '#lib/shop/typed-parameters'

interface SliderProps {
  readonly spec: ParameterSpec & { readonly min: number; readonly max: number }
  readonly value: number
  readonly savedValue: number
  readonly units: LengthUnit
  /** Where the design would refuse; null: not asked yet. */
  readonly stops: SliderStops | null
  readonly move: (value: number) => void
  readonly take: () => void
}

/** Half of the thumb, which keeps inside the track. */
const HALF_PX = 8

/** Where a value stands on the track. */
const at = ({ min, max }: SliderProps['spec'], value: number): string => {
  const share = Math.min(1, Math.max(0, (value - min) / (max - min)))
  return `calc(${HALF_PX}px + (100% - ${2 * HALF_PX}px) * ${share.toFixed(4)})`
}

const KEYS: Readonly<Record<string, readonly [1 | -1, boolean]>> = {
  ArrowUp: [1, false],
  ArrowRight: [1, false],
  PageUp: [1, true],
  ArrowDown: [-1, false],
  ArrowLeft: [-1, false],
  PageDown: [-1, true],
}

/** The number as a slider: from end to end of its range, with marks where it is saved and where the design refuses. */
export function ParameterSlider({ spec, value, savedValue, units, stops, move, take }: SliderProps) {
  const onKeyDown = (event: KeyboardEvent) => {
    const key = KEYS[event.key]
    if (!key) return
    event.preventDefault()
    move(nudged(spec, value, { steps: key[0], big: key[1] || event.shiftKey, units }))
  }
  const say = (v: number) => sayParameter(spec, v, units)
  return (
    <div className="relative col-span-2 h-11">
      <Track spec={spec} savedValue={savedValue} stops={stops} />
      <input
        type="range"
        aria-label={`${spec.label}, slider`}
        aria-valuetext={say(value)}
        className="absolute inset-0 m-0 h-full w-full cursor-pointer bg-transparent accent-accent"
        min={spec.min}
        max={spec.max}
        step="any"
        value={value}
        onChange={(event) => move(nearestStep(spec, Number(event.target.value), units))}
        onKeyDown={onKeyDown}
        onFocus={take}
        onPointerDown={take}
      />
      {stops ? (
        <p className="sr-only">
          The others staying as they are, from {say(stops.low.value)} to {say(stops.high.value)}.
        </p>
      ) : null}
    </div>
  )
}

function Track({ spec, savedValue, stops }: Pick<SliderProps, 'spec' | 'savedValue' | 'stops'>) {
  return (
    <div aria-hidden="true" className="pointer-events-none absolute inset-0">
      {stops?.low.why ? <Refused style={{ left: 0, width: at(spec, stops.low.value) }} /> : null}
      {stops?.high.why ? <Refused style={{ left: at(spec, stops.high.value), right: 0 }} /> : null}
      <span
        className="absolute bottom-0.5 h-2 w-0.5 -translate-x-1/2 bg-ink"
        style={{ left: at(spec, savedValue) }}
      />
    </div>
  )
}

/** A stretch that the design refuses: hatched, with a bar where it begins. */
const Refused = ({ style }: { style: { left: string | number; width?: string; right?: number } }) => (
  <span
    className="absolute top-2 bottom-2 border-x-2 border-stop opacity-60 bg-[repeating-linear-gradient(135deg,var(--stop)_0_1.5px,transparent_1.5px_6px)]"
    style={style}
  />
)
