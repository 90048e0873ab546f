/** The parts of a model as objects of a 3-D scene, each in its place, and the heads of its screws. mm; z is up. */
import {
  type BufferGeometry,
  CircleGeometry,
  Group,
  InstancedMesh,
  LineBasicMaterial,
  LineSegments,
  type Material,
  Matrix4,
  Mesh,
  MeshStandardMaterial,
  Quaternion,
  Vector3,
} from 'three'
import type { FaceName, Model, Part, ScrewAxis } from '#lib/core/design/model'
import { meshesOf, partSolid } from '#lib/core/design/part-solid'
import { directionToLocal, toLocal, toWorld } from '#lib/core/geometry/frame'
import type { SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import { dot, sub, type Vec3 } from '#lib/core/geometry/vec3'
import { speciesLook } from './species-look'
import { arrisesOf, REGIONS, type Region, surfaceOf } from './surfaces'
import { type CoatLook, paintMaterial, woodMaterial } from './wood-material'

/** How each face of each part is finished; undefined: as its role says. */
export type CoatOf = (part: Part, face: FaceName) => CoatLook | undefined

/** A plane that opens the model: what its normal points to is taken away. World coordinates. */
export interface SectionPlane {
  readonly point: Vec3
  readonly normal: Vec3
}

export interface PartObject {
  readonly part: Part
  readonly group: Group
  readonly mesh: Mesh<BufferGeometry, MeshStandardMaterial[]>
  readonly arrises: LineSegments<BufferGeometry, LineBasicMaterial>
}

export interface PartsScene {
  readonly group: Group
  readonly parts: readonly PartObject[]
  dispose(): void
}

const PAINT: CoatLook = { kind: 'paint', colour: '#7f9188' }
const CLEAR: CoatLook = { kind: 'oil' }
const BARE: CoatLook = { kind: 'bare' }
/** What a laser leaves. */
const BURNT: CoatLook = { kind: 'stain', colour: '#4a3220' }
const ARRIS = '#2a211a'
const ARRIS_SHOWS = 0.5
/** Head of a flat-head screw over its shank. */
const HEAD_SHANKS = 2

/** The same part keeps its grain when the model changes. */
function seedOf(id: string): number {
  let sum = 7
  for (let i = 0; i < id.length; i++) sum = (sum * 31 + id.charCodeAt(i)) % 1_000_003
  return sum
}

function roleCoat(part: Part, face: FaceName): CoatLook {
  if (Object.values(part.faces).includes('paint')) return PAINT
  return part.faces[face] === 'show' ? CLEAR : BARE
}

function coatAt(part: Part, region: Region, coatOf: CoatOf | undefined): CoatLook {
  if (region === 'burnt') return BURNT
  if (region === 'inner' || region === 'cut') return BARE
  return coatOf?.(part, region) ?? roleCoat(part, region)
}

/**
 * Materials that outlive a scene. Once the last material of a kind is gone, its program must be compiled anew, which
 * costs more than all the rest of a small change.
 */
export class MaterialStore {
  private readonly kept = new Map<string, Material>()
  private used = new Set<string>()

  /** @param key says all that the material depends on, its type too */
  take<M extends Material>(key: string, make: () => M): M {
    const material = (this.kept.get(key) as M | undefined) ?? make()
    this.kept.set(key, material)
    this.used.add(key)
    return material
  }

  /** Lets go of what was not taken since the last time. */
  sweep(): void {
    for (const [key, material] of this.kept) {
      if (this.used.has(key)) continue
      material.dispose()
      this.kept.delete(key)
    }
    this.used = new Set()
  }

  dispose(): void {
    this.used = new Set()
    this.sweep()
  }
}

/** One material a coat; regions of a part with one coat share it. */
function materialsOf(part: Part, coatOf: CoatOf | undefined, store: MaterialStore): MeshStandardMaterial[] {
  const look = speciesLook(part.species)
  const seed = seedOf(part.id)
  return REGIONS.map((region) => {
    const coat = coatAt(part, region, coatOf)
    const isCut = region === 'cut'
    const key = `${part.id} ${part.species ?? ''} ${coat.kind} ${coat.colour ?? ''} ${isCut}`
    return store.take(key, () =>
      coat.kind === 'paint'
        ? paintMaterial(coat.colour ?? '#888')
        : woodMaterial({ look, seed, coat, isCut }),
    )
  })
}

const matrixOf = ({ frame }: Part): Matrix4 =>
  new Matrix4()
    .makeBasis(new Vector3(...frame.x), new Vector3(...frame.y), new Vector3(...frame.z))
    .setPosition(...frame.origin)

interface Shape {
  readonly surface: BufferGeometry
  readonly arrises: BufferGeometry
}

const shapeOf = (mesh: SolidMesh, part: Part, section?: SectionPlane): Shape => ({
  surface: surfaceOf(mesh, part, section && localPlane(part, section)),
  arrises: arrisesOf(mesh, part),
})

const localPlane = ({ frame }: Part, { point, normal }: SectionPlane): SectionPlane => ({
  point: toLocal(frame, point),
  normal: directionToLocal(frame, normal),
})

/** Whether a plane keeps all of a part, none, or divides it. */
function sideOf({ frame, blank }: Part, { point, normal }: SectionPlane): 'kept' | 'gone' | 'divided' {
  const out = [0, blank.lengthMm].flatMap((x) =>
    [0, blank.widthMm].flatMap((y) =>
      [0, blank.thicknessMm].map((z) => dot(normal, sub(toWorld(frame, [x, y, z]), point))),
    ),
  )
  if (Math.max(...out) <= 0) return 'kept'
  return Math.min(...out) >= 0 ? 'gone' : 'divided'
}

/** What a section leaves of one part; undefined if nothing. */
function cutShape(kernel: SolidKernel, part: Part, section: SectionPlane): Shape | undefined {
  const whole = partSolid(kernel, part)
  const { point, normal } = localPlane(part, section)
  const left = kernel.keepBelow(whole, point, normal)
  whole.free()
  const shape = left.isEmpty() ? undefined : shapeOf(left.mesh(), part, section)
  left.free()
  return shape
}

function partObject(part: Part, shape: Shape, coatOf: CoatOf | undefined, store: MaterialStore): PartObject {
  const mesh = new Mesh(shape.surface, materialsOf(part, coatOf, store))
  mesh.castShadow = mesh.receiveShadow = true
  mesh.userData.partId = part.id
  const ink = store.take(
    `${part.id} ink`,
    () => new LineBasicMaterial({ color: ARRIS, transparent: true, opacity: ARRIS_SHOWS }),
  )
  const arrises = new LineSegments(shape.arrises, ink)
  const standing = new Group()
  standing.matrixAutoUpdate = false
  standing.matrix.copy(matrixOf(part))
  standing.add(mesh, arrises)
  const group = new Group()
  group.add(standing)
  return { part, group, mesh, arrises }
}

function shapesOf(kernel: SolidKernel, model: Model, section: SectionPlane | undefined): Map<string, Shape> {
  const shapes = new Map<string, Shape>()
  const whole = new Map<SolidMesh, Shape>()
  const side = new Map(model.parts.map((part) => [part.id, section ? sideOf(part, section) : 'kept']))
  const kept = model.parts.filter((part) => side.get(part.id) === 'kept')
  for (const { part, mesh } of meshesOf(kernel, kept)) {
    const known = whole.get(mesh) ?? shapeOf(mesh, part)
    whole.set(mesh, known)
    shapes.set(part.id, known)
  }
  for (const part of model.parts) {
    if (section === undefined || side.get(part.id) !== 'divided') continue
    const left = cutShape(kernel, part, section)
    if (left !== undefined) shapes.set(part.id, left)
  }
  return shapes
}

export interface PartsOptions {
  readonly coatOf?: CoatOf
  readonly section?: SectionPlane
  /** Absent: materials are made anew and go with the scene. */
  readonly store?: MaterialStore
}

/** Everything that a model is made of. Whoever makes it disposes of it, and of the store. */
export function partsScene(kernel: SolidKernel, model: Model, options: PartsOptions): PartsScene {
  const { coatOf, section, store = new MaterialStore() } = options
  const shapes = shapesOf(kernel, model, section)
  const parts = model.parts.flatMap((part) => {
    const shape = shapes.get(part.id)
    return shape === undefined ? [] : [partObject(part, shape, coatOf, store)]
  })
  const group = new Group()
  for (const { group: one } of parts) group.add(one)
  const heads = headsByPart(model, section)
  for (const { part, group: one } of parts) {
    const screws = heads.get(part.id)
    if (screws !== undefined) one.add(screwHeads(screws, store.take('steel', steel)))
  }
  store.sweep()
  return {
    group,
    parts,
    dispose: () => {
      group.traverse((object) => {
        if (!(object instanceof Mesh || object instanceof LineSegments)) return
        object.geometry.dispose()
        if (object instanceof InstancedMesh) object.dispose()
      })
      if (options.store === undefined) store.dispose()
    },
  }
}

/** Screws by the part that their heads bear on. */
function headsByPart(model: Model, section: SectionPlane | undefined): Map<string, ScrewAxis[]> {
  const heads = new Map<string, ScrewAxis[]>()
  for (const screw of model.joints.flatMap((joint) => joint.screws)) {
    if (section && dot(section.normal, sub(screw.head, section.point)) > 0) continue
    heads.set(screw.through, [...(heads.get(screw.through) ?? []), screw])
  }
  return heads
}

const steel = (): MeshStandardMaterial =>
  new MeshStandardMaterial({ color: '#6c6963', roughness: 0.35, metalness: 0.55 })

function screwHeads(screws: readonly ScrewAxis[], material: MeshStandardMaterial): InstancedMesh {
  const mesh = new InstancedMesh(new CircleGeometry(1, 20), material, screws.length)
  mesh.frustumCulled = false
  screws.forEach((screw, i) => {
    const head = new Vector3(...screw.head)
    const out = head
      .clone()
      .sub(new Vector3(...screw.tip))
      .normalize()
    const turn = new Quaternion().setFromUnitVectors(new Vector3(0, 0, 1), out)
    const radius = (HEAD_SHANKS * screw.shankMm) / 2
    const size = new Vector3(radius, radius, 1)
    mesh.setMatrixAt(i, new Matrix4().compose(head.addScaledVector(out, 0.25), turn, size))
  })
  return mesh
}

/** Moves parts away from where they stand. */
export function moveParts({ parts }: PartsScene, offsets: ReadonlyMap<string, Vec3> | undefined): void {
  for (const { part, group } of parts) group.position.set(...(offsets?.get(part.id) ?? ([0, 0, 0] as const)))
}

/** Marks the chosen parts by their edges and a wash of the accent. */
export function markParts({ parts }: PartsScene, chosen: ReadonlySet<string>, accent: string): void {
  for (const { part, mesh, arrises } of parts) {
    const isChosen = chosen.has(part.id)
    arrises.material.color.set(isChosen ? accent : ARRIS)
    arrises.material.opacity = isChosen ? 1 : ARRIS_SHOWS
    for (const material of mesh.material) {
      material.emissive.set(isChosen ? accent : '#000')
      material.emissiveIntensity = isChosen ? 0.5 : 0
    }
  }
}
