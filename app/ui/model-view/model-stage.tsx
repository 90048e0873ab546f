'use client'
/** What a canvas shows of a model: its parts where they are put, what stands around them, and the light. */
import { type ThreeEvent, useThree } from '@react-three/fiber'
import { type Ref, useEffect, useImperativeHandle, useMemo } from 'react'
import type { Object3D, PerspectiveCamera } from 'three'
import type { Model } from '#lib/core/design/model'
import type { SolidKernel } from '#lib/core/geometry/solid'
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Extent } from './camera-fit'
import { measureMarks } from './measure-marks'
import {
  type CoatOf,
  MaterialStore,
  markParts,
  moveParts,
  partsScene,
  type SectionPlane,
} from './parts-scene'
import { type Picture, STILL_PX, setUpRenderer, stillOfScene } from './still'
import {
  aimLights,
  disposeOf,
  disposeShapes,
  drawSoftShadow,
  type Figure,
  layFloor,
  makeLights,
  placeBoxes,
  shadowFloor,
  softPatch,
} from './surroundings'
import type { ViewTheme } from './theme'
import type { Measuring } from './use-view-state'

export interface Touched {
  readonly partId: string
  /** World coordinates, where the part stands when it is together. */
  readonly point: Vec3
  /** How many mm a pixel covers there. */
  readonly pixelMm: number
}

export interface StageHandle {
  stillOf(picture?: Picture): Promise<Blob>
}

interface StageProps {
  readonly kernel: SolidKernel
  readonly model: Model
  readonly theme: ViewTheme
  readonly coatOf?: CoatOf
  readonly section?: SectionPlane
  readonly offsets?: ReadonlyMap<string, Vec3>
  /** Of the model where it stands. */
  readonly extent: Extent
  readonly figure?: Figure
  readonly chosen: ReadonlySet<string>
  readonly measuring: Measuring
  readonly onTouch: (touched: Touched) => void
  readonly onHover?: (partId: string | null) => void
  readonly ref?: Ref<StageHandle>
}

/** An object of the scene for as long as what it is made from stays the same. */
function useObject<T extends Object3D>(make: () => T, changes: readonly unknown[]): T {
  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller names what it depends on
  const object = useMemo(make, changes)
  useEffect(() => () => disposeOf(object), [object])
  return object
}

const worldPoint = (event: ThreeEvent<PointerEvent | MouseEvent>): Vec3 => event.point.toArray() as Vec3

function touchedBy(
  event: ThreeEvent<MouseEvent>,
  offsets: StageProps['offsets'],
  heightPx: number,
): Touched | undefined {
  const partId = event.object.userData.partId as string | undefined
  if (partId === undefined) return undefined
  const by = offsets?.get(partId) ?? [0, 0, 0]
  const camera = event.camera as PerspectiveCamera
  const viewMm = 2 * event.distance * Math.tan((camera.fov * Math.PI) / 360)
  const at = worldPoint(event)
  return { partId, point: [at[0] - by[0], at[1] - by[1], at[2] - by[2]], pixelMm: viewMm / heightPx }
}

export function ModelStage(props: StageProps) {
  const { kernel, model, theme, coatOf, section, offsets, extent, figure, chosen, measuring } = props
  const { scene, camera, gl, invalidate, size } = useThree()
  const store = useMemo(() => new MaterialStore(), [])
  useEffect(() => () => store.dispose(), [store])
  const parts = useMemo(
    () => partsScene(kernel, model, { coatOf, section, store }),
    [kernel, model, coatOf, section, store],
  )
  useEffect(() => () => parts.dispose(), [parts])
  moveParts(parts, offsets)
  markParts(parts, chosen, theme.accent)

  const isApart = offsets !== undefined
  const light = useMemo(makeLights, [])
  useEffect(() => () => light.lamp.dispose(), [light])
  aimLights(light, extent)
  const soft = useObject(softPatch, [])
  const stands = useMemo(() => ({ ...model, parts: parts.parts.map(({ part }) => part) }), [model, parts])
  useMemo(() => drawSoftShadow(soft, stands, extent, theme.isDark), [soft, stands, extent, theme])
  const floor = useObject(() => shadowFloor(theme.isDark), [theme.isDark])
  layFloor(floor, extent)
  const placeStore = useMemo(() => new MaterialStore(), [])
  useEffect(() => () => placeStore.dispose(), [placeStore])
  const place = useMemo(() => placeBoxes(model, theme, placeStore), [model, theme, placeStore])
  useEffect(() => () => disposeShapes(place), [place])
  const { features, result } = measuring
  const marks = useObject(
    () => measureMarks(features, result, theme.accent),
    [features, result, theme.accent],
  )
  useEffect(() => () => figure && disposeOf(figure.object), [figure])
  if (figure?.turns) {
    // An outline that stands beside the piece is always seen from its front.
    figure.object.onBeforeRender = (_gl, _scene, eye) => {
      const [dx, dy] = [eye.position.x - figure.object.position.x, eye.position.y - figure.object.position.y]
      figure.object.rotation.z = Math.atan2(dx, -dy)
      figure.object.updateMatrixWorld()
      figure.object.modelViewMatrix.multiplyMatrices(eye.matrixWorldInverse, figure.object.matrixWorld)
    }
  }

  useEffect(() => {
    setUpRenderer(gl)
    // The lamp stands still: its shadow changes only with the model.
    gl.shadowMap.autoUpdate = false
  }, [gl])
  // biome-ignore lint/correctness/useExhaustiveDependencies: whatever changes what is seen is drawn anew
  useEffect(() => {
    gl.shadowMap.needsUpdate = true
    invalidate()
  }, [gl, invalidate, parts, offsets, extent, figure, chosen, theme, marks])

  useImperativeHandle(props.ref, () => ({
    stillOf: (picture = {}) => {
      const { widthPx = STILL_PX.width, heightPx = STILL_PX.height } = picture
      const eye = (camera as PerspectiveCamera).clone()
      eye.aspect = widthPx / heightPx
      eye.updateProjectionMatrix()
      return stillOfScene(scene, eye, theme, picture)
    },
  }))

  const touch = (event: ThreeEvent<MouseEvent>): void => {
    // A drag that ends on a part turned the view; it picked nothing.
    if (event.delta > 5) return
    const touched = touchedBy(event, offsets, size.height)
    if (touched === undefined) return
    event.stopPropagation()
    props.onTouch(touched)
  }
  const { onHover } = props
  return (
    <>
      <primitive object={light.group} />
      {/* biome-ignore lint/a11y/noStaticElementInteractions: solids in the scene, not an element of the page */}
      <primitive
        object={parts.group}
        onClick={touch}
        onPointerOver={
          onHover &&
          ((event: ThreeEvent<PointerEvent>) => {
            event.stopPropagation()
            onHover((event.object.userData.partId as string | undefined) ?? null)
          })
        }
        onPointerOut={onHover && (() => onHover(null))}
      />
      <primitive object={marks} />
      {isApart ? null : (
        <>
          <primitive object={soft} />
          {model.hangs === undefined ? <primitive object={floor} /> : null}
          <primitive object={place} />
          {figure ? <primitive object={figure.object} /> : null}
        </>
      )}
    </>
  )
}
