'use client'
/** Turning a view about a model: mouse, touch, and by keys or buttons through a handle. */
import { useFrame, useThree } from '@react-three/fiber'
import { type Ref, useEffect, useImperativeHandle, useMemo, useRef } from 'react'
import { type PerspectiveCamera, Spherical, Vector3 } from 'three'
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js'
import { distanceFor, type Extent, middleOf, setDepth, TOWARDS, type ViewFrom } from './camera-fit'

export interface OrbitHandle {
  /** Turns by radians, to the right and up. */
  turn(rightRad: number, upRad: number): void
  /** Goes nearer with a factor below 1. */
  zoom(factor: number): void
  /** Looks from there at the whole. */
  look(from: ViewFrom): void
}

const POLE_RAD = 0.0005

interface OrbitProps {
  readonly extent: Extent
  /** Changes when the view should begin anew. */
  readonly startKey: string
  /** Changes when what is shown has grown or shrunk, and the eye should stand off accordingly. */
  readonly reachKey: string
  readonly isStill: boolean
  readonly ref?: Ref<OrbitHandle>
}

function useControls(isStill: boolean): OrbitControls {
  const camera = useThree((state) => state.camera) as PerspectiveCamera
  const element = useThree((state) => state.gl.domElement)
  const invalidate = useThree((state) => state.invalidate)
  const controls = useMemo(() => {
    camera.up.set(0, 0, 1)
    const made = new OrbitControls(camera)
    made.minPolarAngle = POLE_RAD
    made.maxPolarAngle = Math.PI * 0.62
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
  return controls
}

export function Orbit({ extent, startKey, reachKey, isStill, ref }: OrbitProps) {
  const camera = useThree((state) => state.camera) as PerspectiveCamera
  const size = useThree((state) => state.size)
  const invalidate = useThree((state) => state.invalidate)
  const controls = useControls(isStill)

  /** Stands so far off that the whole is seen in this direction. */
  const standOff = useMemo(
    () =>
      (towards: Vector3): void => {
        const target = new Vector3(...middleOf(extent))
        const distance = distanceFor(extent, towards, size.width / size.height)
        controls.target.copy(target)
        camera.position.copy(target).addScaledVector(towards, distance)
        setDepth(camera, distance)
        controls.minDistance = distance * 0.12
        controls.maxDistance = distance * 4
        controls.update()
        invalidate()
      },
    [extent, camera, controls, size, invalidate],
  )
  const look = (from: ViewFrom): void => standOff(new Vector3(...TOWARDS[from]).normalize())

  // Once for a model and a size of its window, not for every change of a number.
  const windowKey = `${startKey} ${Math.round((10 * size.width) / size.height)}`
  // biome-ignore lint/correctness/useExhaustiveDependencies: it follows the key; the extent may change without it
  useEffect(() => look('corner'), [windowKey])
  const shownReach = useRef(reachKey)
  // biome-ignore lint/correctness/useExhaustiveDependencies: it follows the key; the extent may change without it
  useEffect(() => {
    if (shownReach.current === reachKey) return
    shownReach.current = reachKey
    standOff(camera.position.clone().sub(controls.target).normalize())
  }, [reachKey])

  useImperativeHandle(ref, () => {
    const move = (change: (at: Spherical) => void): void => {
      // Spherical measures from y up; the model stands on z.
      const offset = camera.position.clone().sub(controls.target)
      const at = new Spherical().setFromVector3(new Vector3(offset.x, offset.z, -offset.y))
      change(at)
      at.phi = Math.min(controls.maxPolarAngle, Math.max(controls.minPolarAngle, at.phi))
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
      look,
    }
  })

  useFrame(() => {
    controls.update()
  })
  return null
}
