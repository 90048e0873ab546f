'use client'
/** Turning a view about a model: mouse, touch, and by keys or buttons through a handle. */
import { useFrame, useThree } from '@react-three/fiber'
import { type Ref, useEffect, useImperativeHandle, useMemo } from 'react'
import { type PerspectiveCamera, Spherical, Vector3 } from 'three'
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js'

type Triple = readonly [number, number, number]

/** A box around what is to be seen, mm. */
export interface Extent {
  readonly low: Triple
  readonly high: Triple
}

export const middleOf = ({ low, high }: Extent): [number, number, number] => [
  (low[0] + high[0]) / 2,
  (low[1] + high[1]) / 2,
  (low[2] + high[2]) / 2,
]

export interface OrbitHandle {
  /** Turns by radians, to the right and up. */
  turn(rightRad: number, upRad: number): void
  /** Goes nearer with a factor below 1. */
  zoom(factor: number): void
  /** Back to where it began. */
  reset(): void
}

/** From the sitter's right shoulder. */
const FROM = new Vector3(0.62, -1, 0.42).normalize()
const MARGIN = 1.06
const POLE_RAD = 0.02

/** How far away all corners of the box fit into the window, looking from `FROM`. */
function distanceFor(extent: Extent, camera: PerspectiveCamera, aspect: number): number {
  const tanUp = Math.tan((camera.fov * Math.PI) / 360) / MARGIN
  const right = new Vector3(0, 0, 1).cross(FROM).normalize()
  const up = FROM.clone().cross(right)
  const middle = new Vector3(...middleOf(extent))
  let distance = 0
  for (const x of [extent.low[0], extent.high[0]])
    for (const y of [extent.low[1], extent.high[1]])
      for (const z of [extent.low[2], extent.high[2]]) {
        const corner = new Vector3(x, y, z).sub(middle)
        const across = Math.max(Math.abs(corner.dot(up)), Math.abs(corner.dot(right)) / aspect)
        distance = Math.max(distance, across / tanUp + corner.dot(FROM))
      }
  return distance
}

interface OrbitProps {
  readonly extent: Extent
  /** Changes when the view should begin anew. */
  readonly startKey: string
  readonly isStill: boolean
  readonly ref?: Ref<OrbitHandle>
}

export function Orbit({ extent, startKey, isStill, ref }: OrbitProps) {
  const camera = useThree((state) => state.camera) as PerspectiveCamera
  const element = useThree((state) => state.gl.domElement)
  const size = useThree((state) => state.size)
  const invalidate = useThree((state) => state.invalidate)

  const controls = useMemo(() => {
    camera.up.set(0, 0, 1)
    const made = new OrbitControls(camera)
    made.maxPolarAngle = Math.PI * 0.55
    made.enablePan = false
    made.zoomSpeed = 0.8
    return made
  }, [camera])

  useEffect(() => {
    controls.connect(element)
    // A finger that moves up or down scrolls the page; sideways it turns the view.
    element.style.touchAction = 'pan-y'
    const redraw = (): void => invalidate()
    controls.addEventListener('change', redraw)
    return () => {
      controls.removeEventListener('change', redraw)
      controls.disconnect()
    }
  }, [controls, element, invalidate])

  useEffect(() => {
    controls.enableDamping = !isStill
    controls.dampingFactor = 0.16
  }, [controls, isStill])

  const reset = useMemo(
    () => (): void => {
      const target = new Vector3(...middleOf(extent))
      const distance = distanceFor(extent, camera, size.width / size.height)
      controls.target.copy(target)
      camera.position.copy(target).addScaledVector(FROM, distance)
      camera.near = distance / 100
      camera.far = distance * 20
      camera.updateProjectionMatrix()
      controls.minDistance = distance * 0.15
      controls.maxDistance = distance * 4
      controls.update()
      invalidate()
    },
    [extent, camera, controls, size, invalidate],
  )

  // Once for a model and a size of its window, not for every change of a number.
  const windowKey = `${startKey} ${Math.round((10 * size.width) / size.height)}`
  // biome-ignore lint/correctness/useExhaustiveDependencies: reset follows the extent, the view does not
  useEffect(reset, [windowKey])

  useImperativeHandle(ref, () => {
    const move = (change: (at: Spherical) => void): void => {
      // Spherical measures from y up; the model stands on z.
      const offset = camera.position.clone().sub(controls.target)
      const at = new Spherical().setFromVector3(new Vector3(offset.x, offset.z, -offset.y))
      change(at)
      at.phi = Math.min(controls.maxPolarAngle, Math.max(POLE_RAD, at.phi))
      at.radius = Math.min(controls.maxDistance, Math.max(controls.minDistance, at.radius))
      const back = new Vector3().setFromSpherical(at)
      camera.position.copy(controls.target).add(new Vector3(back.x, -back.z, back.y))
      controls.update()
      invalidate()
    }
    return {
      turn: (rightRad, upRad) =>
        move((at) => {
          at.theta += rightRad
          at.phi -= upRad
        }),
      zoom: (factor) =>
        move((at) => {
          at.radius *= factor
        }),
      reset,
    }
  }, [camera, controls, invalidate, reset])

  useFrame(() => {
    controls.update()
  })
  return null
}
