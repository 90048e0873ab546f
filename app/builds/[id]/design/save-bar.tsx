'use client'
import clsx from 'clsx'
import dynamic from 'next/dynamic'
import { useEffect, useState } from 'react'
import type { ParameterSpec } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayParameter } from '#lib/shop/typed-parameters'
import { Button } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { KeepVariant } from './keep-variant'
import type { LiveModel } from './use-design'
import type { Numbers, SavedNumbers } from './use-numbers'
import type { Saving } from './use-saving'
import type { WhatIf } from './use-what-if'
import { MovesInLine, WhatMoves } from './what-moves'

const SmallView = dynamic(() => import('./small-view'), { ssr: false })
const NARROW = '(max-width: 1023px)'

/** Where numbers and piece do not stand side by side. */
function useIsNarrow(): boolean {
  const [isNarrow, setNarrow] = useState(false)
  useEffect(() => {
    const media = matchMedia(NARROW)
    const look = () => setNarrow(media.matches)
    look()
    media.addEventListener('change', look)
    return () => media.removeEventListener('change', look)
  }, [])
  return isNarrow
}

interface SaveBarProps {
  readonly numbers: Numbers
  /** As the server has it now. */
  readonly saved: SavedNumbers
  readonly saving: Saving
  readonly live: LiveModel
  readonly units: LengthUnit
  readonly whatIf: WhatIf
  readonly buildId: string
}

/** Always in sight: whether the numbers are saved, the button that saves them, and on a phone the piece, small. */
export function SaveBar({ numbers, saved, saving, live, units, whatIf, buildId }: SaveBarProps) {
  const isNarrow = useIsNarrow()
  const { meanwhile } = numbers
  return (
    <div className="sticky bottom-[calc(3.55rem+env(safe-area-inset-bottom))] z-20 -mx-4 grid gap-3 border-t border-hairline-strong bg-paper px-4 py-2.5 sm:-mx-8 sm:px-8 md:bottom-0 lg:mx-0 lg:px-0">
      {saving.answer && !saving.answer.ok ? (
        <Notice level="stop" role="alert">
          {saving.answer.sentence}
        </Notice>
      ) : null}
      {meanwhile ? <Meanwhile changed={meanwhile} saved={saved} units={units} /> : null}
      {/* Above the buttons: what is worked out late moves nothing from under a thumb. */}
      {numbers.isDirty && live.isCurrent ? <Moves {...{ whatIf, units, isNarrow }} /> : null}
      <div className="flex items-center gap-x-4">
        {/* Its room is kept from the start: nothing moves the buttons when it comes. */}
        <a
          href="#piece"
          aria-label="Up to the drawings"
          className={clsx(
            'grid h-20 w-16 shrink-0 place-items-center lg:hidden',
            !live.isCurrent && 'opacity-40',
          )}
        >
          {isNarrow && live.model ? <SmallView model={live.model} /> : null}
        </a>
        <Buttons {...{ numbers, saved, saving, buildId }} isSound={live.isCurrent} />
      </div>
    </div>
  )
}

/** In one line; on a phone all of it is behind that line, since the piece stands far above. */
function Moves({ whatIf, units, isNarrow }: { whatIf: WhatIf; units: LengthUnit; isNarrow: boolean }) {
  if (!isNarrow || whatIf.rows.length === 0) return <MovesInLine whatIf={whatIf} />
  return (
    <details>
      <summary className="min-h-11 py-1">
        <MovesInLine whatIf={whatIf} />
      </summary>
      <div className="max-h-[45vh] overflow-y-auto">
        <WhatMoves whatIf={whatIf} units={units} />
      </div>
    </details>
  )
}

interface ButtonsProps {
  readonly numbers: Numbers
  readonly saved: SavedNumbers
  readonly saving: Saving
  /** Whether the numbers make a piece. */
  readonly isSound: boolean
  readonly buildId: string
}

function Buttons({ numbers, saved, saving, isSound, buildId }: ButtonsProps) {
  const { isDirty, meanwhile } = numbers
  const isUntouched = saved.version === 1 && !isDirty
  return (
    <div className="flex flex-wrap items-center gap-x-3 gap-y-1.5">
      {meanwhile ? (
        <Button look="primary" disabled={saving.isBusy || !isSound} onClick={() => saving.save(saved)}>
          Save mine over it
        </Button>
      ) : (
        <Button
          type="submit"
          look="primary"
          disabled={saving.isBusy || !(isDirty || isUntouched)}
          aria-busy={saving.isBusy}
        >
          {isUntouched ? 'Keep these numbers' : 'Save'}
        </Button>
      )}
      {isDirty ? (
        <Button look="quiet" onClick={numbers.putBack}>
          {meanwhile ? 'Take the new state' : 'Put back'}
        </Button>
      ) : null}
      <KeepVariant
        buildId={buildId}
        fromId={saved.variantId}
        values={numbers.values}
        canKeep={isDirty && isSound && !saving.isBusy}
        onKept={numbers.putBack}
      />
      <p role="status" className="text-[0.92rem] text-ink-soft">
        {statusOf(isDirty, isUntouched, isSound, saving)}
      </p>
    </div>
  )
}

function statusOf(isDirty: boolean, isUntouched: boolean, isSound: boolean, saving: Saving): string {
  if (saving.isBusy) return 'Saving…'
  if (isDirty) return isSound ? 'Not saved yet.' : 'Not saved: some numbers need another look.'
  if (isUntouched) return 'These are the design’s own numbers.'
  return saving.answer?.ok ? 'Saved.' : 'All saved.'
}

interface MeanwhileProps {
  readonly changed: readonly ParameterSpec[]
  readonly saved: SavedNumbers
  readonly units: LengthUnit
}

function Meanwhile({ changed, saved, units }: MeanwhileProps) {
  const now = changed.map(
    (s) => `${s.label} is now ${sayParameter(s, saved.parameters[s.id] ?? s.default, units)}`,
  )
  return (
    <Notice level="caution" role="alert" title="Changed meanwhile">
      {now.length > 0 ? `${now.join('; ')}.` : 'Someone else saved the same numbers.'} What you typed is kept.
    </Notice>
  )
}
