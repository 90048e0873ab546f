'use client'
/** The controls under a 3-D view: where it is seen from, apart, cut open, who stands beside it, a picture of it. */
import clsx from 'clsx'
import { Camera, Minus, Plus, Ruler, Share2, Users } from 'lucide-react'
import { type ReactNode, useId } from 'react'
import { STATURES } from '#lib/core/design/person-outline'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'
import { Button } from '../button'
import type { ViewFrom } from './camera-fit'
import type { OrbitHandle } from './orbit'
import { CUTS, type Cut, type ViewState } from './use-view-state'

const FROM: readonly (readonly [ViewFrom, string])[] = [
  ['corner', 'Corner'],
  ['front', 'Front'],
  ['side', 'Side'],
  ['top', 'Top'],
]
const NEARER = 0.85

const CUT_WORDS: Readonly<Record<Cut, string>> = {
  none: 'Whole',
  across: 'Across',
  lengthways: 'Along',
  level: 'Level',
}

interface SliderProps {
  readonly label: string
  readonly value: number
  readonly isDisabled?: boolean
  readonly onChange: (share: number) => void
}

/** From 0 to 1 in hundredths. */
function Slider({ label, value, isDisabled, onChange }: SliderProps) {
  return (
    <input
      type="range"
      aria-label={label}
      aria-valuetext={`${Math.round(100 * value)} of 100`}
      min={0}
      max={100}
      step={1}
      disabled={isDisabled}
      value={Math.round(100 * value)}
      onChange={(event) => onChange(Number(event.target.value) / 100)}
      className="h-11 min-w-36 flex-1 accent-accent disabled:opacity-40"
    />
  )
}

function Row({ label, children }: { label: string; children: ReactNode }) {
  return (
    <div className="flex flex-wrap items-center gap-x-3">
      <span className="w-20 shrink-0 text-[0.92rem] text-ink-soft">{label}</span>
      <div className="flex min-w-0 flex-1 flex-wrap items-center gap-x-3 gap-y-1">{children}</div>
    </div>
  )
}

const chip = (isOn = false): string =>
  clsx(
    'inline-flex min-h-11 cursor-pointer items-center justify-center border-b-[3px] px-1 text-[0.92rem] sm:px-2.5 sm:text-[0.95rem] has-focus-visible:outline-3 has-focus-visible:outline-accent',
    isOn ? 'border-accent font-semibold' : 'border-transparent text-ink-soft hover:text-ink',
  )

function CutChoice({ cut, onChange }: { cut: Cut; onChange: (cut: Cut) => void }) {
  const name = useId()
  return (
    <fieldset className="-ml-1 flex sm:-ml-2.5">
      <legend className="sr-only">Cut open</legend>
      {CUTS.map((kind) => (
        <label key={kind} className={chip(kind === cut)}>
          <input
            type="radio"
            name={name}
            className="sr-only"
            checked={kind === cut}
            onChange={() => onChange(kind)}
          />
          {CUT_WORDS[kind]}
        </label>
      ))}
    </fieldset>
  )
}

/** How tall someone is, as people say it. */
const sayStature = (mm: number, units: LengthUnit): string =>
  units === 'in' ? sayLength(umFromMm(mm), units) : `${(mm / 1000).toFixed(2)} m`

function Beside({ state, units }: Pick<ControlsProps, 'state' | 'units'>) {
  return (
    <Row label="Beside it">
      <select
        aria-label="Someone beside it, for scale"
        className="control min-h-11 min-w-0 flex-1 sm:max-w-72"
        value={state.personId}
        onChange={(event) => state.setPersonId(event.target.value)}
      >
        <option value="none">nobody</option>
        {STATURES.map(({ id, name, statureMm }) => (
          <option key={id} value={id}>
            {name}, {sayStature(statureMm, units)}
          </option>
        ))}
      </select>
      {state.canSit && state.person ? (
        <label className="inline-flex min-h-11 items-center gap-2">
          <input
            type="checkbox"
            className="size-5 accent-accent"
            checked={state.isSeated}
            onChange={(event) => state.setSeated(event.target.checked)}
          />
          seated
        </label>
      ) : null}
    </Row>
  )
}

interface ControlsProps {
  readonly state: ViewState
  readonly units: LengthUnit
  readonly orbit: React.RefObject<OrbitHandle | null>
  readonly pictures: {
    readonly isBusy: boolean
    readonly save: () => void
    /** Absent: this browser hands nothing on. */
    readonly share: (() => void) | undefined
    /** Absent: there is nowhere to show it. */
    readonly show: (() => void) | undefined
  }
}

export function ViewControls({ state, units, orbit, pictures }: ControlsProps) {
  const look = (from: ViewFrom) => () => orbit.current?.look(from)
  return (
    <div className="grid gap-1 border-t border-hairline pt-2">
      <div className="-ml-2 flex items-center sm:-ml-2.5">
        {FROM.map(([from, word]) => (
          <button
            key={from}
            type="button"
            onClick={look(from)}
            className="min-h-11 px-2 text-[0.95rem] font-medium sm:px-2.5 text-accent underline-offset-4 hover:underline"
          >
            {word}
          </button>
        ))}
        <span className="ml-auto flex gap-1.5">
          <Button aria-label="Further" className="w-11 px-0!" onClick={() => orbit.current?.zoom(1 / NEARER)}>
            <Minus aria-hidden className="size-5" />
          </Button>
          <Button aria-label="Nearer" className="w-11 px-0!" onClick={() => orbit.current?.zoom(NEARER)}>
            <Plus aria-hidden className="size-5" />
          </Button>
        </span>
      </div>
      <Row label="Take apart">
        <Slider label="Take apart" value={state.apart} onChange={state.setApart} />
      </Row>
      <Row label="Cut open">
        <CutChoice cut={state.cut} onChange={state.setCut} />
        {state.cut === 'none' ? null : (
          <Slider label="Where it is cut" value={state.cutShare} onChange={state.setCutShare} />
        )}
      </Row>
      <Beside {...{ state, units }} />
      <div className="flex flex-wrap gap-2 pt-2">
        <Button
          aria-pressed={state.measuring.isOn}
          className={state.measuring.isOn ? 'border-accent! bg-accent-wash' : undefined}
          onClick={() => state.setMeasuring(!state.measuring.isOn)}
        >
          <Ruler aria-hidden className="size-5" />
          Measure
        </Button>
        <Button onClick={pictures.save} disabled={pictures.isBusy}>
          <Camera aria-hidden className="size-5" />
          {pictures.isBusy ? 'Drawing…' : 'Save a picture'}
        </Button>
        {pictures.show ? (
          <Button onClick={pictures.show} disabled={pictures.isBusy}>
            <Users aria-hidden className="size-5" />
            Show to the shop
          </Button>
        ) : null}
        {pictures.share ? (
          <Button onClick={pictures.share} disabled={pictures.isBusy}>
            <Share2 aria-hidden className="size-5" />
            Send it
          </Button>
        ) : null}
      </div>
    </div>
  )
}
