'use client'
import clsx from 'clsx'
import { Tabs } from 'radix-ui'
import { useEffect, useMemo, useRef, useState } from 'react'
import {
  type DrawOptions,
  drawnLength,
  drawView,
  type ModelView,
  modelViews,
  textHeightFor,
} from '#lib/core/design/drawing/draw-model'
import type { Model, ViewName } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'
import { Button } from '../button'
import { DrawingSvg } from './drawing-svg'
import { useSolidKernel } from './use-solid-kernel'

interface ModelDrawingsProps {
  readonly model: Model
  readonly units?: LengthUnit
  readonly className?: string
}

/** Height of the figures on the screen. */
const TEXT_PX = 12.5
/** Below this, surroundings are broken off close to the seat. */
const NARROW_PX = 480
/** From this on, the three views stand side by side. */
const WIDE_PX = 1000

const NAMES: Readonly<Record<ViewName, string>> = { front: 'Front', side: 'Side', top: 'Top' }

/** Width of an element, followed as it changes; 0 before it is known. */
function useWidth() {
  const ref = useRef<HTMLDivElement>(null)
  const [widthPx, setWidthPx] = useState(0)
  useEffect(() => {
    const element = ref.current
    if (element === null) return
    const observer = new ResizeObserver(([entry]) => setWidthPx(Math.round(entry.contentRect.width)))
    observer.observe(element)
    return () => observer.disconnect()
  }, [])
  return [ref, widthPx] as const
}

function Switch({ on, toggle, children }: { on: boolean; toggle: () => void; children: string }) {
  return (
    <label className="inline-flex min-h-11 cursor-pointer items-center gap-2">
      <input type="checkbox" checked={on} onChange={toggle} className="size-5 accent-accent" />
      {children}
    </label>
  )
}

interface ViewProps {
  readonly model: Model
  readonly view: ModelView
  readonly widthPx: number
  readonly options: Omit<DrawOptions, 'textMm' | 'narrow'>
}

function View({ model, view, widthPx, options }: ViewProps) {
  const drawing = useMemo(() => {
    const all = { ...options, narrow: widthPx < NARROW_PX }
    return drawView(model, view, { ...all, textMm: textHeightFor(model, view, widthPx, TEXT_PX, all) })
  }, [model, view, widthPx, options])
  return <DrawingSvg drawing={drawing} />
}

interface ViewsProps extends Omit<ViewProps, 'view'> {
  readonly views: readonly ModelView[]
}

function SideBySide({ views, widthPx, ...rest }: ViewsProps) {
  const gapPx = 32
  const columnPx = Math.floor((widthPx - 2 * gapPx) / 3)
  return (
    <div className="grid grid-cols-3 items-end gap-8">
      {views.map((view) => (
        <figure key={view.view} className="min-w-0">
          <View view={view} widthPx={columnPx} {...rest} />
          <figcaption className="mt-3 border-t border-hairline pt-1.5 text-ink-soft">
            {NAMES[view.view]}
          </figcaption>
        </figure>
      ))}
    </div>
  )
}

function OneByOne({ views, ...rest }: ViewsProps) {
  return (
    <Tabs.Root defaultValue="side">
      <Tabs.List aria-label="View" className="mb-3 flex border-b border-hairline">
        {views.map(({ view }) => (
          <Tabs.Trigger
            key={view}
            value={view}
            className={clsx(
              'min-h-11 flex-1 border-b-2 border-transparent px-3 text-ink-soft',
              'data-[state=active]:border-accent data-[state=active]:font-semibold data-[state=active]:text-ink',
            )}
          >
            {NAMES[view]}
          </Tabs.Trigger>
        ))}
      </Tabs.List>
      {views.map((view) => (
        <Tabs.Content key={view.view} value={view.view}>
          <View view={view} {...rest} />
        </Tabs.Content>
      ))}
    </Tabs.Root>
  )
}

/** Front, side and top of a model, with hidden edges and dimensions. The first of several pieces is drawn. */
export function ModelDrawings({ model, units = 'mm', className }: ModelDrawingsProps) {
  const [ref, widthPx] = useWidth()
  const solids = useSolidKernel()
  const [hiddenLines, setHiddenLines] = useState(true)
  const [screws, setScrews] = useState(true)
  const options = useMemo(() => {
    const say = (valueMm: number): string =>
      units === 'mm' ? drawnLength(valueMm) : sayLength(umFromMm(valueMm), units)
    return { hiddenLines, screws, say }
  }, [hiddenLines, screws, units])
  const kernel = solids.status === 'ready' ? solids.kernel : null
  const views = useMemo(() => (kernel === null ? null : modelViews(kernel, model)), [kernel, model])

  return (
    <div ref={ref} className={className}>
      {solids.status === 'failed' ? (
        <p role="alert">
          The drawings could not be made: their program did not load.{' '}
          <Button look="quiet" onClick={solids.retry}>
            Try again
          </Button>
        </p>
      ) : null}
      {solids.status === 'loading' ? <p className="py-16 text-center text-ink-soft">Drawing…</p> : null}
      {views !== null && widthPx > 0 ? (
        <>
          {widthPx >= WIDE_PX ? (
            <SideBySide views={views} model={model} widthPx={widthPx} options={options} />
          ) : (
            <OneByOne views={views} model={model} widthPx={widthPx} options={options} />
          )}
          <div className="mt-2 flex flex-wrap gap-x-6">
            <Switch on={hiddenLines} toggle={() => setHiddenLines(!hiddenLines)}>
              Hidden edges
            </Switch>
            <Switch on={screws} toggle={() => setScrews(!screws)}>
              Screws
            </Switch>
          </div>
        </>
      ) : null}
    </div>
  )
}
