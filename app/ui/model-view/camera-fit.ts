/** Where a camera must stand so that a box is seen whole. mm; z is up. */
import { PerspectiveCamera, Vector3 } from 'three'
import type { Model } from '#lib/core/design/model'
import { toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'

/** A box around what is to be seen, mm. */
export interface Extent {
  readonly low: Vec3
  readonly high: Vec3
}

export const VIEWS = ['corner', 'front', 'side', 'top'] as const
export type ViewFrom = (typeof VIEWS)[number]

/** From the model to the eye. The front is where a person sits; from above the eye stays a hair in front. */
export const TOWARDS: Readonly<Record<ViewFrom, Vec3>> = {
  corner: [0.62, -1, 0.42],
  front: [0, -1, 0.0001],
  side: [1, 0, 0.0001],
  top: [0, -0.0005, 1],
}
const MARGIN = 1.06
export const FIELD_DEG = 26

export const middleOf = ({ low, high }: Extent): [number, number, number] => [
  (low[0] + high[0]) / 2,
  (low[1] + high[1]) / 2,
  (low[2] + high[2]) / 2,
]

export const radiusOf = ({ low, high }: Extent): number =>
  Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]) / 2

/** How far from the box's middle all its corners fit into the window, looking along `towards`. */
export function distanceFor(extent: Extent, towards: Vector3, aspect: number): number {
  const tanUp = Math.tan((FIELD_DEG * Math.PI) / 360) / MARGIN
  const right = new Vector3(0, 0, 1).cross(towards).normalize()
  const up = towards.clone().cross(right)
  const middle = new Vector3(...middleOf(extent))
  let distance = 0
  for (const x of [extent.low[0], extent.high[0]])
    for (const y of [extent.low[1], extent.high[1]])
      for (const z of [extent.low[2], extent.high[2]]) {
        const corner = new Vector3(x, y, z).sub(middle)
        const across = Math.max(Math.abs(corner.dot(up)), Math.abs(corner.dot(right)) / aspect)
        distance = Math.max(distance, across / tanUp + corner.dot(towards))
      }
  return distance
}

/** Clipping planes for a camera at a distance from a box. */
export function setDepth(camera: PerspectiveCamera, distance: number): void {
  camera.near = distance / 100
  camera.far = distance * 20
  camera.updateProjectionMatrix()
}

/** A camera of its own that sees the whole box. */
export function cameraFor(extent: Extent, from: ViewFrom, aspect: number): PerspectiveCamera {
  const camera = new PerspectiveCamera(FIELD_DEG, aspect)
  camera.up.set(0, 0, 1)
  const towards = new Vector3(...TOWARDS[from]).normalize()
  const distance = distanceFor(extent, towards, aspect)
  const middle = new Vector3(...middleOf(extent))
  camera.position.copy(middle).addScaledVector(towards, distance)
  setDepth(camera, distance)
  camera.lookAt(middle)
  camera.updateMatrixWorld()
  return camera
}

interface Standing {
  /** Where parts have been moved to, by part id. */
  readonly offsets?: ReadonlyMap<string, Vec3>
  /** Boxes that are shown beside the model. */
  readonly beside?: readonly Extent[]
}

/** Around all parts, down to the floor, and around what stands beside them. */
export function extentOf(model: Model, { offsets, beside = [] }: Standing = {}): Extent {
  const corners = model.parts.flatMap(({ id, frame, blank }) => {
    const by = offsets?.get(id) ?? [0, 0, 0]
    return [0, blank.lengthMm].flatMap((x) =>
      [0, blank.widthMm].flatMap((y) =>
        [0, blank.thicknessMm].map((z) => toWorld(frame, [x, y, z]).map((v, i) => v + by[i])),
      ),
    )
  })
  corners.push(...beside.flatMap(({ low, high }) => [[...low], [...high]]))
  const along = (i: number, pick: (...values: number[]) => number): number =>
    pick(...corners.map((p) => p[i]))
  const lowest = along(2, Math.min)
  return {
    low: [along(0, Math.min), along(1, Math.min), model.hangs === undefined ? Math.min(0, lowest) : lowest],
    high: [along(0, Math.max), along(1, Math.max), along(2, Math.max)],
  }
}
