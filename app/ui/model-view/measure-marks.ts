/** What is being measured, drawn over the model: touched edges and corners, and the line between them. */
import {
  BufferAttribute,
  BufferGeometry,
  CanvasTexture,
  Group,
  LineBasicMaterial,
  LineSegments,
  Points,
  PointsMaterial,
} from 'three'
import type { Feature, Measurement } from '#lib/core/design/measure'
import type { Vec3 } from '#lib/core/geometry/vec3'

const DOT_PX = 11

function dotTexture(): CanvasTexture {
  const canvas = document.createElement('canvas')
  canvas.width = canvas.height = 32
  const paint = canvas.getContext('2d')
  if (paint) {
    paint.fillStyle = '#fff'
    paint.arc(16, 16, 14, 0, 2 * Math.PI)
    paint.fill()
  }
  return new CanvasTexture(canvas)
}

const pointsOf = (points: readonly Vec3[]): BufferGeometry => {
  const geometry = new BufferGeometry()
  geometry.setAttribute('position', new BufferAttribute(Float32Array.from(points.flat()), 3))
  return geometry
}

/** Drawn over everything, so that a line through wood is seen. */
export function measureMarks(
  features: readonly Feature[],
  result: Measurement | undefined,
  colour: string,
): Group {
  const group = new Group()
  const edges = features.flatMap((f) => (f.kind === 'edge' ? [f.from, f.to] : []))
  const between = result === undefined ? [] : [result.from, result.to]
  const over = { color: colour, depthTest: false, transparent: true }
  const lines = new LineSegments(pointsOf([...edges, ...between]), new LineBasicMaterial(over))
  const dots = [...features.map((f) => f.at), ...between]
  const material = new PointsMaterial({ ...over, size: DOT_PX, sizeAttenuation: false, map: dotTexture() })
  const points = new Points(pointsOf(dots), material)
  for (const object of [lines, points]) {
    object.renderOrder = 10
    object.raycast = () => {}
    group.add(object)
  }
  return group
}
