'use client'
/**
 * A model in 3-D, beside the place that it is made for. Load it by next/dynamic without server rendering: it carries
 * three. It draws only when something changes. Without WebGL it says so; the drawings carry everything.
 *
 *   <ModelView model title units chosenPartIds={['leg-1']} onPick={(partId | null) => …} onHover={…} ref={handle} />
 *   handle.current.stillOf({ title, caption, widthPx, heightPx }): Promise<Blob>   what is in sight now, as PNG
 *
 * chosenPartIds are shown marked; onPick tells which part was clicked or tapped, null for none; onHover which one the
 * mouse is over. A picture without a view on the page: stillOf(model, options) in ./still. `coatOf` colours faces.
 * Tests: e2e/model-view.spec.ts
 */
import { Canvas } from '@react-three/fiber'
import clsx from 'clsx'
import { type KeyboardEvent, type ReactNode, type Ref, useImperativeHandle, useMemo, useRef } from 'react'
import type { Model } from '#lib/core/design/model'
import { Button } from '../button'
import { useSolidKernel } from '../drawing/use-solid-kernel'
import { extentOf, FIELD_DEG } from './camera-fit'
import { ModelStage, type StageHandle } from './model-stage'
import { Orbit, type OrbitHandle } from './orbit'
import type { CoatOf } from './parts-scene'
import type { Picture } from './still'
import { useViewTheme, type ViewTheme } from './theme'
import { useGraphics, usePrefersStill } from './use-graphics'

export interface ModelViewHandle {
  /** What is in sight now, as PNG. Rejected while nothing is drawn. */
  stillOf(picture?: Picture): Promise<Blob>
}

export interface ModelViewProps {
  readonly model: Model
  readonly chosenPartIds?: readonly string[]
  readonly onPick?: (partId: string | null) => void
  readonly onHover?: (partId: string | null) => void
  readonly coatOf?: CoatOf
  /** Absent: the page's own colours. */
  readonly theme?: ViewTheme
  /** Sets the height; absent: most of the window, 34 rem at most. */
  readonly className?: string
  readonly ref?: Ref<ModelViewHandle>
}

const STEP_RAD = Math.PI / 24
const ZOOM = 0.85

const KEYS: ReadonlyMap<string, (orbit: OrbitHandle) => void> = new Map([
  ['ArrowLeft', (orbit) => orbit.turn(-STEP_RAD, 0)],
  ['ArrowRight', (orbit) => orbit.turn(STEP_RAD, 0)],
  ['ArrowUp', (orbit) => orbit.turn(0, STEP_RAD)],
  ['ArrowDown', (orbit) => orbit.turn(0, -STEP_RAD)],
  ['+', (orbit) => orbit.zoom(ZOOM)],
  ['=', (orbit) => orbit.zoom(ZOOM)],
  ['-', (orbit) => orbit.zoom(1 / ZOOM)],
  ['0', (orbit) => orbit.look('corner')],
  ['Home', (orbit) => orbit.look('corner')],
])

const Say = ({ children }: { children: ReactNode }) => (
  <p className="grid h-full place-content-center px-6 text-center text-ink-soft">{children}</p>
)
const NO_3D = 'This browser shows no 3-D. The drawings carry every size.'

export default function ModelView(props: ModelViewProps) {
  const { model, chosenPartIds, onPick, onHover, coatOf, theme, className, ref } = props
  const frame = useRef<HTMLElement>(null)
  const orbit = useRef<OrbitHandle>(null)
  const stage = useRef<StageHandle>(null)
  const solids = useSolidKernel()
  const pageTheme = useViewTheme(frame)
  const isStill = usePrefersStill()
  const graphics = useGraphics()
  const extent = useMemo(() => extentOf(model), [model])
  const chosen = useMemo(() => new Set(chosenPartIds), [chosenPartIds])
  useImperativeHandle(ref, () => ({
    stillOf: (picture) => stage.current?.stillOf(picture) ?? Promise.reject(new Error('nothing is drawn')),
  }))

  const onKeyDown = (event: KeyboardEvent): void => {
    const act = event.altKey || event.ctrlKey || event.metaKey ? undefined : KEYS.get(event.key)
    if (act === undefined || orbit.current === null) return
    event.preventDefault()
    act(orbit.current)
  }
  return (
    <section
      ref={frame}
      aria-label={`3-D view: ${model.parts.length} parts. Arrow keys turn it, plus and minus zoom, 0 shows all.`}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the view itself takes the arrow keys
      tabIndex={0}
      onKeyDown={onKeyDown}
      className={clsx('relative overflow-hidden bg-sheet', className ?? 'h-[min(70vh,34rem)]')}
    >
      {graphics === 'none' ? (
        <Say>{NO_3D}</Say>
      ) : solids.status === 'failed' ? (
        <Say>
          The 3-D view did not load.{' '}
          <Button look="quiet" onClick={solids.retry}>
            Try again
          </Button>
        </Say>
      ) : graphics === null || solids.status === 'loading' ? (
        <Say>Setting up the 3-D view…</Say>
      ) : (
        <Canvas
          frameloop="demand"
          shadows="percentage"
          dpr={graphics === 'hardware' ? [1, 2] : 1}
          camera={{ fov: FIELD_DEG, up: [0, 0, 1] }}
          onPointerMissed={() => onPick?.(null)}
          fallback={<Say>{NO_3D}</Say>}
        >
          <ModelStage
            ref={stage}
            kernel={solids.kernel}
            model={model}
            theme={theme ?? pageTheme}
            coatOf={coatOf}
            extent={extent}
            chosen={chosen}
            onTouch={({ partId }) => onPick?.(partId)}
            onHover={onHover}
          />
          <Orbit
            ref={orbit}
            extent={extent}
            startKey={`${model.designId} ${model.parts.length}`}
            reachKey=""
            isStill={isStill}
          />
        </Canvas>
      )}
    </section>
  )
}
