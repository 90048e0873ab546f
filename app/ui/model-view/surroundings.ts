/**
 * What stands around a model so that its size is seen: the place that it is fitted to, a person's outline, a soft
 * shadow where it meets the floor or the wall, and the light. mm; z is up.
 */
import {
  BoxGeometry,
  CanvasTexture,
  DirectionalLight,
  DoubleSide,
  EdgesGeometry,
  Group,
  HemisphereLight,
  LineBasicMaterial,
  LineSegments,
  Mesh,
  MeshBasicMaterial,
  MeshStandardMaterial,
  type Object3D,
  PlaneGeometry,
  Points,
  ShadowMaterial,
  SRGBColorSpace,
} from 'three'
import type { Model, Part, PlaceBox } from '#lib/core/design/model'
import { type Limb, seatedOutline, standingOutline } from '#lib/core/design/person-outline'
import { toWorld } from '#lib/core/geometry/frame'
import { convexHull, type Vec2 } from '#lib/core/geometry/polygon2'
import type { Vec3 } from '#lib/core/geometry/vec3'
import { type Extent, middleOf, radiusOf } from './camera-fit'
import type { MaterialStore } from './parts-scene'
import type { ViewTheme } from './theme'

/** Someone beside the model. */
export interface Person {
  readonly statureMm: number
  readonly posture: 'standing' | 'seated'
}

export function disposeOf(root: Object3D): void {
  root.traverse((object) => {
    if (!(object instanceof Mesh || object instanceof LineSegments || object instanceof Points)) return
    object.geometry.dispose()
    for (const material of [object.material].flat()) {
      if ('map' in material && material.map instanceof CanvasTexture) material.map.dispose()
      material.dispose()
    }
  })
}

/** Shapes only, where materials are kept elsewhere. */
export function disposeShapes(root: Object3D): void {
  root.traverse((object) => {
    if (object instanceof Mesh || object instanceof LineSegments) object.geometry.dispose()
  })
}

export interface Lights {
  readonly group: Group
  readonly lamp: DirectionalLight
}

/** Light from over the sitter's right shoulder, and what the room gives back. */
export function makeLights(): Lights {
  const group = new Group()
  const room = new HemisphereLight('#ffffff', '#c4bcb0', 2.15)
  room.position.set(0, 0, 1)
  const lamp = new DirectionalLight('#fffaf1', 2.3)
  lamp.castShadow = true
  lamp.shadow.mapSize.set(1024, 1024)
  lamp.shadow.bias = -0.0005
  lamp.shadow.radius = 3
  group.add(room, lamp, lamp.target)
  return { group, lamp }
}

/** So that the lamp's shadow takes in all of a box. */
export function aimLights({ lamp }: Lights, extent: Extent): void {
  const [x, y, z] = middleOf(extent)
  const r = radiusOf(extent)
  lamp.position.set(x + 1.3 * r, y - 1.9 * r, z + 2.7 * r)
  lamp.target.position.set(x, y, z)
  lamp.target.updateMatrixWorld()
  const { camera } = lamp.shadow
  camera.left = camera.bottom = -1.25 * r
  camera.right = camera.top = 1.25 * r
  camera.near = r
  camera.far = 7 * r
  camera.updateProjectionMatrix()
  lamp.shadow.normalBias = 0.0015 * r
}

function placeBox(box: PlaceBox, theme: ViewTheme, store: MaterialStore): Group {
  const size = box.max.map((value, i) => value - box.min[i]) as [number, number, number]
  const solid = new BoxGeometry(...size)
  const opacity = box.id === 'counter' ? 0.34 : 0.12
  const wash = store.take(
    `wash ${theme.place} ${opacity}`,
    () => new MeshStandardMaterial({ color: theme.place, transparent: true, opacity, depthWrite: false }),
  )
  const ink = store.take(
    `ink ${theme.edge}`,
    () => new LineBasicMaterial({ color: theme.edge, transparent: true, opacity: 0.4 }),
  )
  const body = new Mesh(solid, wash)
  body.renderOrder = 2
  const group = new Group()
  group.add(body, new LineSegments(new EdgesGeometry(solid), ink))
  group.position.set(...(box.max.map((value, i) => (value + box.min[i]) / 2) as [number, number, number]))
  return group
}

/** @param store keeps the materials, and is disposed of by who made it */
export function placeBoxes(model: Model, theme: ViewTheme, store: MaterialStore): Group {
  const group = new Group()
  for (const box of model.place) group.add(placeBox(box, theme, store))
  return group
}

const PIXELS_PER_MM = 0.5
const LINE_MM = 5

function canvasOf(
  widthMm: number,
  heightMm: number,
  perMm: number,
): [HTMLCanvasElement, CanvasRenderingContext2D] {
  const canvas = document.createElement('canvas')
  canvas.width = Math.max(2, Math.ceil(widthMm * perMm))
  canvas.height = Math.max(2, Math.ceil(heightMm * perMm))
  const paint = canvas.getContext('2d')
  if (paint === null) throw new RangeError('this browser draws no pictures')
  paint.scale(perMm, perMm)
  return [canvas, paint]
}

/** The round ends of a limb, wider by `more`, and what lies between them. */
function tracePath(paint: CanvasRenderingContext2D, limb: Limb, more: number): void {
  const [[u, v], [toU, toV]] = [limb.from, limb.to]
  const [r, toR] = [limb.fromRadiusMm + more, limb.toRadiusMm + more]
  const way = Math.atan2(toV - v, toU - u)
  const gap = Math.hypot(toU - u, toV - v)
  const open = Math.acos(Math.min(1, Math.max(-1, (r - toR) / Math.max(gap, 1e-9))))
  paint.beginPath()
  paint.arc(u, v, r, way + open, way - open + 2 * Math.PI)
  paint.arc(toU, toV, toR, way - open, way + open)
  paint.closePath()
  paint.fill()
}

interface Flat {
  readonly widthMm: number
  readonly lowU: number
  readonly heightMm: number
  readonly texture: CanvasTexture
}

/** The limbs as one shape: its outline in ink, then its body, the inside of the outline washed out. */
function pictureOf(limbs: readonly Limb[], theme: ViewTheme): Flat {
  const reach = limbs.flatMap(({ from, to, fromRadiusMm: r, toRadiusMm: s }) => [
    [from[0] - r, from[0] + r, from[1] + r],
    [to[0] - s, to[0] + s, to[1] + s],
  ])
  const lowU = Math.min(...reach.map(([low]) => low)) - 2 * LINE_MM
  const widthMm = Math.max(...reach.map(([, high]) => high)) + 2 * LINE_MM - lowU
  const heightMm = Math.max(...reach.map(([, , top]) => top)) + 4 * LINE_MM
  const [canvas, paint] = canvasOf(widthMm, heightMm, PIXELS_PER_MM)
  paint.translate(-lowU, heightMm - 2 * LINE_MM)
  paint.scale(1, -1)
  paint.fillStyle = theme.edge
  for (const limb of limbs) tracePath(paint, limb, LINE_MM)
  paint.globalCompositeOperation = 'destination-out'
  for (const limb of limbs) tracePath(paint, limb, 0)
  paint.globalCompositeOperation = 'source-over'
  paint.globalAlpha = 1
  const [inside, wash] = canvasOf(widthMm, heightMm, PIXELS_PER_MM)
  wash.translate(-lowU, heightMm - 2 * LINE_MM)
  wash.scale(1, -1)
  wash.fillStyle = theme.place
  for (const limb of limbs) tracePath(wash, limb, 0)
  paint.setTransform(1, 0, 0, 1, 0, 0)
  paint.globalAlpha = 0.28
  paint.drawImage(inside, 0, 0)
  const texture = new CanvasTexture(canvas)
  texture.colorSpace = SRGBColorSpace
  texture.anisotropy = 4
  return { widthMm, lowU, heightMm, texture }
}

function flatFigure({ widthMm, lowU, heightMm, texture }: Flat): Mesh {
  const sheet = new PlaneGeometry(widthMm, heightMm)
  sheet.rotateX(Math.PI / 2)
  sheet.translate(lowU + widthMm / 2, 0, heightMm / 2 - 2 * LINE_MM)
  const mesh = new Mesh(
    sheet,
    new MeshBasicMaterial({ map: texture, transparent: true, side: DoubleSide, depthWrite: false }),
  )
  mesh.renderOrder = 1
  return mesh
}

const worldCorners = ({ frame, blank }: Part): Vec3[] =>
  [0, blank.lengthMm].flatMap((x) =>
    [0, blank.widthMm].flatMap((y) => [0, blank.thicknessMm].map((z) => toWorld(frame, [x, y, z]))),
  )

/** What is sat on; undefined if nothing is. */
function seatOf(model: Model): { middle: Vec3 } | undefined {
  if (model.use?.kind !== 'seat') return undefined
  const corners = model.parts
    .filter(({ id, unit }) => model.use?.surfaces.includes(id) && (unit ?? 1) === 1)
    .flatMap(worldCorners)
  if (corners.length === 0) return undefined
  const [x, y, z] = [0, 1, 2].map((i) => corners.map((p) => p[i]))
  const mid = (values: number[]): number => (Math.min(...values) + Math.max(...values)) / 2
  return { middle: [mid(x), mid(y), Math.max(...z)] }
}

export const hasSeat = (model: Model): boolean => seatOf(model) !== undefined

const BESIDE_MM = 180
/** How far behind the middle of a seat the hip rests. */
const HIP_BEHIND_MM = 70

export interface Figure {
  readonly object: Object3D
  readonly extent: Extent
  /** Whether it turns with the eye. */
  readonly turns: boolean
}

/** Changes whenever a figure would look or stand differently. */
export const figureKey = (model: Model, person: Person | undefined, { low, high }: Extent): string =>
  person === undefined ? '' : JSON.stringify([person, seatOf(model), low, high])

/** @param extent of the model, beside which someone stands */
export function personFigure(model: Model, person: Person, extent: Extent, theme: ViewTheme): Figure {
  const seat = person.posture === 'seated' ? seatOf(model) : undefined
  if (seat !== undefined) {
    const [x, y, z] = seat.middle
    const flat = pictureOf(seatedOutline(person.statureMm, z), theme)
    const object = flatFigure(flat)
    object.rotation.z = Math.PI / 2
    object.position.set(x, y - HIP_BEHIND_MM, 0)
    const low: Vec3 = [x - 5, y - HIP_BEHIND_MM + flat.lowU, 0]
    return {
      object,
      turns: false,
      extent: { low, high: [x + 5, low[1] + flat.widthMm, flat.heightMm] },
    }
  }
  const flat = pictureOf(standingOutline(person.statureMm), theme)
  const object = flatFigure(flat)
  const half = flat.widthMm / 2
  const x = extent.low[0] - BESIDE_MM - half
  const y = (extent.low[1] + extent.high[1]) / 2
  object.position.set(x, y, 0)
  const z = object.position.z
  return {
    object,
    turns: true,
    extent: { low: [x - half, y - half, z], high: [x + half, y + half, z + flat.heightMm] },
  }
}

const SHADOW_PER_MM = 0.25
/** Wood this high over a floor hardly darkens it. */
const FADE_MM = 260

/** A patch for `drawSoftShadow`; it keeps its material, whatever is drawn. */
export function softPatch(): Mesh<PlaneGeometry, MeshBasicMaterial> {
  const mesh = new Mesh(
    new PlaneGeometry(1, 1),
    new MeshBasicMaterial({ transparent: true, depthWrite: false, side: DoubleSide }),
  )
  mesh.renderOrder = -1
  return mesh
}

/** A soft dark patch under what stands on the floor, or behind what hangs on a wall. */
export function drawSoftShadow(
  mesh: ReturnType<typeof softPatch>,
  model: Model,
  extent: Extent,
  isDark: boolean,
): void {
  const onWall = model.hangs === 'wall'
  const wallMm = model.place.find(({ id }) => id === 'wall')?.min[1] ?? extent.high[1]
  const flat = onWall ? ([0, 2] as const) : ([0, 1] as const)
  const marginMm = 0.28 * radiusOf(extent) + 60
  const [low, high] = [flat.map((i) => extent.low[i] - marginMm), flat.map((i) => extent.high[i] + marginMm)]
  const size = [high[0] - low[0], high[1] - low[1]]
  const [canvas, paint] = canvasOf(size[0], size[1], SHADOW_PER_MM)
  const away = 4 * canvas.width
  const heightOver = (corners: readonly Vec3[]): number =>
    onWall ? wallMm - Math.max(...corners.map((p) => p[1])) : Math.min(...corners.map((p) => p[2]))
  const cast = (blurMm: number, strength: number, fadeMm: number): void => {
    // All parts first, sharp; then the whole of them once, out of sight, so that only its soft shadow falls here.
    const [shape, sharp] = canvasOf(size[0], size[1], SHADOW_PER_MM)
    for (const part of model.parts) {
      const corners = worldCorners(part)
      sharp.globalAlpha = Math.max(0, 1 - Math.max(0, heightOver(corners)) / fadeMm)
      if (sharp.globalAlpha === 0) continue
      const hull = convexHull(corners.map((p): Vec2 => [p[flat[0]] - low[0], p[flat[1]] - low[1]]))
      sharp.beginPath()
      hull.forEach(([u, v], i) => {
        if (i === 0) sharp.moveTo(u, size[1] - v)
        else sharp.lineTo(u, size[1] - v)
      })
      sharp.fill()
    }
    paint.setTransform(1, 0, 0, 1, 0, 0)
    paint.shadowBlur = 2 * blurMm * SHADOW_PER_MM
    paint.shadowOffsetX = away
    paint.shadowColor = `rgba(0,0,0,${strength})`
    paint.drawImage(shape, -away, 0)
  }
  cast(marginMm / 2.2, isDark ? 0.3 : 0.16, 6 * FADE_MM)
  cast(12, isDark ? 0.7 : 0.42, FADE_MM / 4)
  mesh.material.map?.dispose()
  mesh.material.map = new CanvasTexture(canvas)
  mesh.scale.set(size[0], size[1], 1)
  const middle = [(low[0] + high[0]) / 2, (low[1] + high[1]) / 2]
  mesh.rotation.x = onWall ? Math.PI / 2 : 0
  if (onWall) mesh.position.set(middle[0], wallMm - 0.5, middle[1])
  else mesh.position.set(middle[0], middle[1], -0.6)
}

/** Takes the lamp's shadow on the floor; nothing else of it is seen. */
export function shadowFloor(isDark: boolean): Mesh {
  const mesh = new Mesh(
    new PlaneGeometry(1, 1),
    new ShadowMaterial({ transparent: true, opacity: isDark ? 0.34 : 0.13, depthWrite: false }),
  )
  mesh.receiveShadow = true
  mesh.renderOrder = -2
  return mesh
}

export function layFloor(mesh: Mesh, extent: Extent): void {
  const [x, y] = middleOf(extent)
  mesh.scale.setScalar(6 * radiusOf(extent))
  mesh.position.set(x, y, -0.9)
}
