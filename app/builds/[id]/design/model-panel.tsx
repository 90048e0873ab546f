'use client'
import clsx from 'clsx'
import dynamic from 'next/dynamic'
import { useDeferredValue, useState } from 'react'
import type { Model } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayFigure } from '#lib/format/figure'
import { sayInUnits } from '#lib/format/sentence'
import { Notice } from '../../../ui/notice'
import { Facts } from '../../../ui/sheet'
import { PartList } from './part-list'
import { ShownSay, type ShownVariant, useShowing } from './showing'
import type { LiveModel } from './use-design'

const Waiting = () => <p className="grid min-h-64 place-items-center text-ink-soft">Drawing…</p>
const ModelDrawings = dynamic(
  () => import('../../../ui/drawing/model-drawings').then((m) => m.ModelDrawings),
  { ssr: false, loading: Waiting },
)
const ModelView = dynamic(() => import('../../../ui/model-view/model-view'), {
  ssr: false,
  loading: Waiting,
})

const SIGHTS = [
  { id: 'drawings', label: 'Drawings' },
  { id: 'solid', label: '3-D' },
  { id: 'figures', label: 'Figures' },
  { id: 'parts', label: 'Parts' },
] as const
type SightId = (typeof SIGHTS)[number]['id']

interface PanelProps {
  /** Of the piece, over its pictures. */
  readonly title: string
  readonly live: LiveModel
  /** What is wrong with the numbers, the first of it. */
  readonly fault: string | undefined
  readonly units: LengthUnit
  /** Whose page a picture is shown on; absent where nothing is shown to anyone. */
  readonly shown?: ShownVariant
}

/** The piece as it would be, in four ways; greyed while the numbers make no piece. */
export function ModelPanel({ title, live, fault, units, shown }: PanelProps) {
  const [sight, setSight] = useState<SightId>('drawings')
  const [chosen, setChosen] = useState<readonly string[]>([])
  const model = useDeferredValue(live.model)
  const isOld = live.model !== null && !live.isCurrent
  return (
    <div className="grid gap-3">
      <div className="border border-hairline bg-sheet">
        <Sights sight={sight} pick={setSight} />
        {isOld ? (
          <p role="status" className="border-b border-hairline bg-stop-wash px-4 py-2 text-[0.95rem]">
            {fault} <span className="text-ink-soft">Shown is the last piece that could be built.</span>
          </p>
        ) : null}
        <div
          className={clsx(
            'p-3 transition-opacity sm:p-4',
            isOld && 'text-ink-soft grayscale [&_canvas]:opacity-45 [&_svg]:opacity-45',
          )}
        >
          {model ? <Sight {...{ sight, title, model, units, shown, chosen, setChosen }} /> : <Waiting />}
        </div>
      </div>
      {model && !isOld ? <Notices model={model} units={units} /> : null}
    </div>
  )
}

function Sights({ sight, pick }: { sight: SightId; pick: (sight: SightId) => void }) {
  return (
    <fieldset className="flex border-b border-hairline">
      <legend className="sr-only">How the piece is shown</legend>
      {SIGHTS.map((s) => (
        <label
          key={s.id}
          className="relative flex min-h-11 flex-1 cursor-pointer items-center justify-center border-b-[3px] border-transparent px-2 has-checked:border-accent has-checked:font-semibold has-focus-visible:outline-3 has-focus-visible:outline-accent sm:flex-none sm:px-4"
        >
          <input
            type="radio"
            name="sight"
            className="sr-only"
            checked={sight === s.id}
            onChange={() => pick(s.id)}
          />
          {s.label}
        </label>
      ))}
    </fieldset>
  )
}

interface SightProps extends Pick<PanelProps, 'shown'> {
  readonly sight: SightId
  readonly title: string
  readonly model: Model
  readonly units: LengthUnit
  readonly chosen: readonly string[]
  readonly setChosen: (partIds: readonly string[]) => void
}

function Sight({ sight, title, model, units, shown, chosen, setChosen }: SightProps) {
  const showing = useShowing(shown)
  if (sight === 'solid') {
    return (
      <ModelView
        {...{ title, model, units }}
        chosenPartIds={chosen}
        onPick={(partId) => setChosen(partId === null ? [] : [partId])}
        onShow={showing.show}
      >
        <ShownSay answer={showing.answer} variant={shown} />
        <div className="border-t border-hairline pt-2">
          <PartList {...{ model, units, chosen }} onChoose={setChosen} />
        </div>
      </ModelView>
    )
  }
  if (sight === 'drawings') return <ModelDrawings model={model} units={units} />
  if (sight === 'parts') return <PartList model={model} units={units} />
  return <Facts items={model.figures.map((f) => ({ label: f.label, value: sayFigure(f, units) }))} />
}

/** Stops before cautions before notes. */
const GRAVITY = { stop: 0, caution: 1, note: 2 } as const

function Notices({ model, units }: { model: Model; units: LengthUnit }) {
  const inOrder = [...model.notices].sort((a, b) => GRAVITY[a.level] - GRAVITY[b.level])
  return inOrder.map((n) => (
    <Notice key={n.message} level={n.level}>
      {sayInUnits(n.message, units)}
      {n.source ? <span className="caption mt-0.5 block">{sayInUnits(n.source, units)}</span> : null}
    </Notice>
  ))
}
