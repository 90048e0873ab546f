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
import {
  type KeyboardEvent,
  type ReactNode,
  type Ref,
  useEffect,
  useImperativeHandle,
  useMemo,
  useRef,
  useState,
} from 'react'
import { featureAt } from '#lib/core/design/measure'
import type { Model, Part } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { saySize } from '#lib/format/length'
import { Button } from '../button'
import { type KernelState, useSolidKernel } from '../drawing/use-solid-kernel'
import { type Extent, extentOf, FIELD_DEG } from './camera-fit'
import { CoarseWhileMoving } from './coarse'
import { MeasurePanel } from './measure-panel'
import { ModelStage, type StageHandle, type Touched } from './model-stage'
import { Orbit, type OrbitHandle } from './orbit'
import type { CoatOf } from './parts-scene'
import { canSharePictures, savePicture, sharePicture } from './save-picture'
import type { Picture } from './still'
import { figureKey, personFigure } from './surroundings'
import { useViewTheme, type ViewTheme } from './theme'
import { type Graphics, useGraphics, usePrefersStill } from './use-graphics'
import { seenWords, useViewState, type ViewState } from './use-view-state'
import { ViewControls } from './view-controls'

export interface ModelViewHandle {
  /** What is in sight now, as PNG. Rejected while nothing is drawn. */
  stillOf(picture?: Picture): Promise<Blob>
}

export interface ModelViewProps {
  readonly model: Model
  /** Over a saved picture, and its file's name. */
  readonly title?: string
  readonly units?: LengthUnit
  readonly chosenPartIds?: readonly string[]
  readonly onPick?: (partId: string | null) => void
  readonly onHover?: (partId: string | null) => void
  readonly coatOf?: CoatOf
  /** Shows a picture to the shop, with a few words of what is seen. Absent: there is nowhere to show it. */
  readonly onShow?: (picture: Blob, seen: string) => Promise<void>
  /** Absent: the page's own colours. */
  readonly theme?: ViewTheme
  /** Just the model, without controls under it or anyone beside it. */
  readonly isBare?: boolean
  /** Sets the height of the view and how it stands; absent: most of the window, 34 rem at most. */
  readonly className?: string
  /** Under the controls, where there is 3-D at all. */
  readonly children?: ReactNode
  readonly ref?: Ref<ModelViewHandle>
}

/** On a phone it stays in sight while what stands under it, the controls and the list of parts, goes by. */
const SEEN =
  'h-[min(46svh,34rem)] sticky top-0 z-10 border-b border-hairline lg:relative lg:h-[min(70vh,34rem)] lg:border-b-0'

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

/** Why there is nothing to see yet, or at all; undefined if there is. */
function Obstacle({ graphics, solids }: { graphics: Graphics | null; solids: KernelState }) {
  if (graphics === 'none') return <Say>{NO_3D}</Say>
  if (solids.status === 'failed')
    return (
      <Say>
        The 3-D view did not load.{' '}
        <Button look="quiet" onClick={solids.retry}>
          Try again
        </Button>
      </Say>
    )
  return <Say>Setting up the 3-D view…</Say>
}

const partSize = ({ blank }: Part, units: LengthUnit): string =>
  saySize(
    [blank.lengthMm, blank.widthMm, blank.thicknessMm].map((mm) => umFromMm(mm)),
    units,
  )

const overallSize = ({ low, high }: Extent, units: LengthUnit): string =>
  saySize(
    high.map((v, i) => umFromMm(v - low[i])),
    units,
  )

/** The picked part in words, so that a picture is not needed to know it. */
function PickedPart({
  model,
  chosen,
  units,
}: {
  model: Model
  chosen: ReadonlySet<string>
  units: LengthUnit
}) {
  const parts = model.parts.filter(({ id }) => chosen.has(id))
  const [first] = parts
  return (
    <output aria-live="polite" className="block min-h-6 text-[0.95rem]">
      {first ? (
        <>
          <strong className="font-semibold">
            {parts.length === 1 ? first.name : `${parts.length} × ${first.kind}`}
          </strong>
          <span className="text-ink-soft">, {partSize(first, units)}</span>
        </>
      ) : (
        <span className="text-ink-soft">Touch a part to see what it is.</span>
      )}
    </output>
  )
}

/** A pointer is this near to an arris or corner, in pixels, when it means it. */
const REACH_PX = 9

/** What a touch does: it measures while measuring is on, else it picks the part. */
function useTouch(model: Model, state: ViewState, onPick: ModelViewProps['onPick']) {
  return ({ partId, point, pixelMm }: Touched): void => {
    if (!state.measuring.isOn) {
      onPick?.(partId)
      return
    }
    const part = model.parts.find(({ id }) => id === partId)
    const feature = part && featureAt(part, point, REACH_PX * pixelMm)
    if (feature) state.addFeature(feature)
  }
}

type HandOn = (picture: Blob, title: string) => void | Promise<void>

function usePictures(
  take: (picture: Picture) => Promise<Blob>,
  title: string,
  caption: string,
  onShow: HandOn | undefined,
) {
  const [isBusy, setBusy] = useState(false)
  const [failed, setFailed] = useState(false)
  const [canShare, setCanShare] = useState(false)
  useEffect(() => setCanShare(canSharePictures()), [])
  const make = async (handOn: HandOn): Promise<void> => {
    setBusy(true)
    setFailed(false)
    try {
      await handOn(await take({ title, caption }), title)
    } catch {
      setFailed(true)
    }
    setBusy(false)
  }
  return {
    isBusy,
    failed,
    save: () => make(savePicture),
    share: canShare ? () => make(sharePicture) : undefined,
    show: onShow && (() => make(onShow)),
  }
}

export default function ModelView(props: ModelViewProps) {
  const { model, title = 'Model', units = 'mm', chosenPartIds, onPick, onHover, coatOf } = props
  const frame = useRef<HTMLElement>(null)
  const orbit = useRef<OrbitHandle>(null)
  const stage = useRef<StageHandle>(null)
  const solids = useSolidKernel()
  const pageTheme = useViewTheme(frame)
  const theme = props.theme ?? pageTheme
  const isStill = usePrefersStill()
  const graphics = useGraphics()
  const extent = useMemo(() => extentOf(model), [model])
  const state = useViewState(model, extent, props.isBare)
  const { person, offsets } = state
  const standing = figureKey(model, person, extent)
  // biome-ignore lint/correctness/useExhaustiveDependencies: the key says all that the figure depends on
  const figure = useMemo(() => person && personFigure(model, person, extent, theme), [standing, theme])
  const reach = useMemo(
    () =>
      offsets ? extentOf(model, { offsets }) : extentOf(model, { beside: figure ? [figure.extent] : [] }),
    [model, offsets, figure],
  )
  const chosen = useMemo(() => new Set(chosenPartIds), [chosenPartIds])
  const touch = useTouch(model, state, onPick)
  const take = (picture?: Picture): Promise<Blob> =>
    stage.current?.stillOf(picture) ?? Promise.reject(new Error('nothing is drawn'))
  useImperativeHandle(props.ref, () => ({ stillOf: take }))
  const { onShow } = props
  const showSeen = onShow && ((picture: Blob) => onShow(picture, seenWords(state)))
  const pictures = usePictures(take, title, overallSize(extent, units), showSeen)

  const onKeyDown = (event: KeyboardEvent): void => {
    const act = event.altKey || event.ctrlKey || event.metaKey ? undefined : KEYS.get(event.key)
    if (act === undefined || orbit.current === null) return
    event.preventDefault()
    act(orbit.current)
  }
  const isDrawn = graphics !== null && graphics !== 'none' && solids.status === 'ready'
  return (
    <div className="grid min-w-0 grid-cols-[minmax(0,1fr)] gap-2">
      <section
        ref={frame}
        aria-label={`3-D view: ${model.parts.length} parts, ${overallSize(extent, units)}. Arrow keys turn it, plus and minus zoom, 0 shows all.`}
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the view itself takes the arrow keys
        tabIndex={0}
        onKeyDown={onKeyDown}
        className={clsx('overflow-hidden bg-sheet', props.className ?? SEEN)}
      >
        {isDrawn ? (
          <Canvas
            frameloop="demand"
            shadows="percentage"
            dpr={graphics === 'hardware' ? [1, 2] : 1}
            camera={{ fov: FIELD_DEG, up: [0, 0, 1] }}
            onPointerMissed={() => !state.measuring.isOn && onPick?.(null)}
            fallback={<Say>{NO_3D}</Say>}
          >
            <ModelStage
              ref={stage}
              kernel={solids.kernel}
              {...{ model, theme, coatOf, extent, figure, chosen, offsets, onHover }}
              section={state.section}
              measuring={state.measuring}
              onTouch={touch}
            />
            <Orbit
              ref={orbit}
              extent={reach}
              startKey={`${model.designId} ${model.parts.length}`}
              reachKey={`${state.apart} ${state.personId} ${state.isSeated}`}
              isStill={isStill}
            />
            {graphics === 'software' ? (
              <CoarseWhileMoving changes={[model, state.offsets, state.section]} />
            ) : null}
          </Canvas>
        ) : (
          <Obstacle graphics={graphics} solids={solids} />
        )}
      </section>
      {isDrawn && !props.isBare ? (
        <>
          {state.measuring.isOn ? (
            <MeasurePanel {...{ model, state, units }} />
          ) : (
            <PickedPart {...{ model, chosen, units }} />
          )}
          <ViewControls {...{ state, units, orbit, pictures }} />
          {pictures.failed ? (
            <p role="alert" className="text-stop">
              The picture could not be made. Try again.
            </p>
          ) : null}
          {props.children}
        </>
      ) : null}
    </div>
  )
}
