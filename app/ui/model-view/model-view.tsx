'use client'
/**
 * A model in 3-D, beside the counter that it is made for. Loaded by next/dynamic without server rendering: it
 * carries three. It draws only when something changes. Without WebGL it says so; the drawings carry everything.
 */
import { Canvas, useThree } from '@react-three/fiber'
import clsx from 'clsx'
import { Maximize, Minus, Plus } from 'lucide-react'
import { type KeyboardEvent, type ReactNode, useEffect, useMemo, useRef, useState } from 'react'
import type { Model } from '#lib/core/design/model'
import { toWorld } from '#lib/core/geometry/frame'
import { Button } from '../button'
import { useSolidKernel } from '../drawing/use-solid-kernel'
import { type Extent, middleOf, Orbit, type OrbitHandle } from './orbit'
import { ModelMeshes } from './part-meshes'
import { useViewTheme, type ViewTheme } from './theme'

interface ModelViewProps {
  readonly model: Model
  readonly highlightedPartId?: string
  readonly onPartPick?: (partId: string | null) => void
  /** Absent: the page's own colours. */
  readonly theme?: ViewTheme
  /** Sets the height; absent: most of the window, 34 rem at most. */
  readonly className?: string
}

const STEP_RAD = Math.PI / 24
const ZOOM = 0.85

type Graphics = 'none' | 'software' | 'hardware'

/** A processor that draws by itself is spared shadows and fine pixels. */
function findGraphics(): Graphics {
  try {
    const gl = document.createElement('canvas').getContext('webgl2')
    if (gl === null) return 'none'
    const info = gl.getExtension('WEBGL_debug_renderer_info')
    const name = String(gl.getParameter(info?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER))
    gl.getExtension('WEBGL_lose_context')?.loseContext()
    return /swiftshader|llvmpipe|software|basic render/i.test(name) ? 'software' : 'hardware'
  } catch {
    return 'none'
  }
}

function usePrefersStill(): boolean {
  const [isStill, setStill] = useState(true)
  useEffect(() => {
    const query = matchMedia('(prefers-reduced-motion: reduce)')
    const read = (): void => setStill(query.matches)
    read()
    query.addEventListener('change', read)
    return () => query.removeEventListener('change', read)
  }, [])
  return isStill
}

/** Around all parts, and up to the counter that they stand at. */
function extentOf(model: Model): Extent {
  const corners = model.parts.flatMap(({ frame, blank }) => [
    toWorld(frame, [0, 0, 0]),
    toWorld(frame, [blank.lengthMm, blank.widthMm, blank.thicknessMm]),
  ])
  const along = (i: number, pick: (...values: number[]) => number): number =>
    pick(...corners.map((p) => p[i]))
  const counterMm = model.place.find((box) => box.id === 'counter')?.max[2] ?? 0
  return {
    low: [along(0, Math.min), along(1, Math.min), 0],
    high: [along(0, Math.max), along(1, Math.max), Math.max(along(2, Math.max), counterMm)],
  }
}

function Light({ middle, radius: r }: { middle: readonly [number, number, number]; radius: number }) {
  const invalidate = useThree((state) => state.invalidate)
  const [x, y, z] = middle
  useEffect(() => invalidate(), [invalidate])
  return (
    <>
      <hemisphereLight args={['#fff8ea', '#8d8577', 1.5]} position={[0, 0, 1]} />
      <directionalLight
        position={[x + 1.6 * r, y - 1.9 * r, z + 2.6 * r]}
        intensity={2.1}
        castShadow
        shadow-mapSize={[1024, 1024]}
        shadow-camera-left={-1.7 * r}
        shadow-camera-right={1.7 * r}
        shadow-camera-top={1.7 * r}
        shadow-camera-bottom={-1.7 * r}
        shadow-camera-near={r}
        shadow-camera-far={7 * r}
        shadow-bias={-0.0004}
        shadow-normalBias={0.6}
        ref={(light) => {
          if (light === null) return
          light.target.position.set(x, y, z)
          light.target.updateMatrixWorld()
        }}
      />
    </>
  )
}

const KEYS: ReadonlyMap<string, (orbit: OrbitHandle) => void> = new Map([
  ['ArrowLeft', (orbit) => orbit.turn(-STEP_RAD, 0)],
  ['ArrowRight', (orbit) => orbit.turn(STEP_RAD, 0)],
  ['ArrowUp', (orbit) => orbit.turn(0, STEP_RAD)],
  ['ArrowDown', (orbit) => orbit.turn(0, -STEP_RAD)],
  ['+', (orbit) => orbit.zoom(ZOOM)],
  ['=', (orbit) => orbit.zoom(ZOOM)],
  ['-', (orbit) => orbit.zoom(1 / ZOOM)],
  ['0', (orbit) => orbit.reset()],
  ['Home', (orbit) => orbit.reset()],
])

const Say = ({ children }: { children: ReactNode }) => (
  <p className="grid h-full place-content-center px-6 text-center text-ink-soft">{children}</p>
)

function ViewButton({
  label,
  onClick,
  children,
}: {
  label: string
  onClick: () => void
  children: ReactNode
}) {
  return (
    <Button aria-label={label} title={label} onClick={onClick} className="min-w-11 px-0">
      {children}
    </Button>
  )
}

export default function ModelView({
  model,
  highlightedPartId,
  onPartPick,
  theme,
  className,
}: ModelViewProps) {
  const frame = useRef<HTMLElement>(null)
  const orbit = useRef<OrbitHandle>(null)
  const solids = useSolidKernel()
  const pageTheme = useViewTheme(frame)
  const isStill = usePrefersStill()
  const [graphics, setGraphics] = useState<Graphics | null>(null)
  useEffect(() => setGraphics(findGraphics()), [])
  const extent = useMemo(() => extentOf(model), [model])
  const colours = theme ?? pageTheme
  const middle = middleOf(extent)
  const radiusMm = Math.hypot(...extent.low.map((low, i) => (extent.high[i] - low) / 2))

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
        <Say>This browser shows no 3-D. The drawings carry every size.</Say>
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
        <>
          <Canvas
            frameloop="demand"
            shadows={graphics === 'hardware' ? 'percentage' : false}
            dpr={graphics === 'hardware' ? [1, 2] : 1}
            camera={{ fov: 32, up: [0, 0, 1] }}
            onPointerMissed={() => onPartPick?.(null)}
            fallback={<Say>This browser shows no 3-D. The drawings carry every size.</Say>}
          >
            <Light middle={middle} radius={radiusMm} />
            <ModelMeshes
              kernel={solids.kernel}
              model={model}
              theme={colours}
              highlightedPartId={highlightedPartId}
              onPartPick={onPartPick}
            />
            <mesh position={[middle[0], middle[1], -0.5]} receiveShadow>
              <planeGeometry args={[5 * radiusMm, 5 * radiusMm]} />
              <shadowMaterial transparent opacity={colours.isDark ? 0.5 : 0.2} />
            </mesh>
            <Orbit
              ref={orbit}
              extent={extent}
              startKey={`${model.designId} ${model.parts.length}`}
              isStill={isStill}
            />
          </Canvas>
          <div className="absolute right-2 bottom-2 flex gap-1.5">
            <ViewButton label="Nearer" onClick={() => orbit.current?.zoom(ZOOM)}>
              <Plus aria-hidden className="size-5" />
            </ViewButton>
            <ViewButton label="Further" onClick={() => orbit.current?.zoom(1 / ZOOM)}>
              <Minus aria-hidden className="size-5" />
            </ViewButton>
            <ViewButton label="Show all" onClick={() => orbit.current?.reset()}>
              <Maximize aria-hidden className="size-5" />
            </ViewButton>
          </div>
        </>
      )}
    </section>
  )
}
