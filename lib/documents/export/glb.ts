/**
 * A model as glTF 2.0 binary (Khronos; ISO/IEC 12113): one node a part, named as the maker knows it, parts of one
 * shape and wood sharing a mesh; metres, y up, flat normals, a base colour for each wood. Engravings, eased edges and
 * holes as the solids have them. In: a model, a kernel, colours. Out: bytes. Tests: tests/documents/export/glb.test.ts
 */
import { Document, type Material, type Mesh, NodeIO } from '@gltf-transform/core'
import type { Model } from '#lib/core/design/model'
import { meshesOf } from '#lib/core/design/part-solid'
import type { Frame } from '#lib/core/geometry/frame'
import type { SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import { cross, length, scale, sub, type Vec3 } from '#lib/core/geometry/vec3'

/** sRGB «#rrggbb» by species; `any` for wood of any kind. */
export type WoodColours = Readonly<Record<string, string>>
const NO_COLOUR = '#d9b27c'

const M_PER_MM = 0.001
/** Triangles smaller than this, in mm2, have no direction to speak of and are left out. */
const LEAST_MM2 = 1e-9

const corner = ({ positions }: SolidMesh, i: number): Vec3 => [
  positions[3 * i],
  positions[3 * i + 1],
  positions[3 * i + 2],
]

/** Three corners a triangle, each with the normal of its triangle. */
function flatTriangles(mesh: SolidMesh): { positions: Float32Array; normals: Float32Array } {
  const positions: number[] = []
  const normals: number[] = []
  for (let t = 0; t < mesh.triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => corner(mesh, mesh.triangles[t + k]))
    const across = cross(sub(b, a), sub(c, a))
    const twice = length(across)
    if (twice / 2 < LEAST_MM2) continue
    const normal = scale(across, 1 / twice)
    for (const p of [a, b, c]) {
      positions.push(...scale(p, M_PER_MM))
      normals.push(...normal)
    }
  }
  return { positions: Float32Array.from(positions), normals: Float32Array.from(normals) }
}

/** The turn that carries the world's axes to a frame's, as x, y, z, w (Shepperd, 1978). */
export function quaternionOf({ x, y, z }: Frame): [number, number, number, number] {
  const trace = x[0] + y[1] + z[2]
  const parts = [
    Math.sqrt(Math.max(0, 1 + x[0] - y[1] - z[2])),
    Math.sqrt(Math.max(0, 1 - x[0] + y[1] - z[2])),
    Math.sqrt(Math.max(0, 1 - x[0] - y[1] + z[2])),
    Math.sqrt(Math.max(0, 1 + trace)),
  ]
  const most = parts.indexOf(Math.max(...parts))
  const square = parts[most] ** 2
  const sums = [
    [square, x[1] + y[0], z[0] + x[2], y[2] - z[1]],
    [x[1] + y[0], square, y[2] + z[1], z[0] - x[2]],
    [z[0] + x[2], y[2] + z[1], square, x[1] - y[0]],
    [y[2] - z[1], z[0] - x[2], x[1] - y[0], square],
  ][most]
  const size = Math.hypot(...sums)
  return sums.map((sum) => sum / size) as [number, number, number, number]
}

const linear = (byte: number): number => {
  const share = byte / 255
  return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4
}

/** Linear red, green, blue and opaque. @example baseColour('#ffffff') //=> [1, 1, 1, 1] */
export const baseColour = (hex: string): [number, number, number, number] => [
  linear(Number.parseInt(hex.slice(1, 3), 16)),
  linear(Number.parseInt(hex.slice(3, 5), 16)),
  linear(Number.parseInt(hex.slice(5, 7), 16)),
  1,
]

/** Z up to y up: a quarter turn about x. */
const Y_UP: [number, number, number, number] = [-Math.SQRT1_2, 0, 0, Math.SQRT1_2]

class Scene {
  private readonly document = new Document()
  private readonly buffer = this.document.createBuffer()
  private readonly meshes = new Map<string, Mesh>()
  private readonly materials = new Map<string, Material>()
  private readonly shapes = new Map<SolidMesh, number>()

  constructor(
    private readonly name: string,
    private readonly colours: WoodColours,
  ) {}

  private material(wood: string): Material {
    const known = this.materials.get(wood)
    if (known !== undefined) return known
    const made = this.document
      .createMaterial(wood)
      .setBaseColorFactor(baseColour(this.colours[wood] ?? NO_COLOUR))
      .setMetallicFactor(0)
      .setRoughnessFactor(0.75)
    this.materials.set(wood, made)
    return made
  }

  private mesh(shape: SolidMesh, wood: string, kind: string): Mesh {
    const number = this.shapes.get(shape) ?? this.shapes.size
    this.shapes.set(shape, number)
    const key = `${number} ${wood}`
    const known = this.meshes.get(key)
    if (known !== undefined) return known
    const { positions, normals } = flatTriangles(shape)
    const accessor = (array: Float32Array<ArrayBufferLike>) =>
      this.document
        .createAccessor()
        .setType('VEC3')
        .setArray(array as Float32Array<ArrayBuffer>)
        .setBuffer(this.buffer)
    const primitive = this.document
      .createPrimitive()
      .setAttribute('POSITION', accessor(positions))
      .setAttribute('NORMAL', accessor(normals))
      .setMaterial(this.material(wood))
    const made = this.document.createMesh(kind).addPrimitive(primitive)
    this.meshes.set(key, made)
    return made
  }

  write(kernel: SolidKernel, model: Model): Promise<Uint8Array> {
    const piece = this.document.createNode(this.name).setRotation(Y_UP)
    for (const { part, mesh } of meshesOf(kernel, model.parts, true)) {
      const node = this.document
        .createNode(part.name)
        .setMesh(this.mesh(mesh, part.species ?? 'any', part.kind))
        .setTranslation([...scale(part.frame.origin, M_PER_MM)])
        .setRotation(quaternionOf(part.frame))
      piece.addChild(node)
    }
    const scene = this.document.createScene(this.name).addChild(piece)
    this.document.getRoot().setDefaultScene(scene)
    this.document.getRoot().getAsset().generator = 'Fellowbench'
    return new NodeIO().writeBinary(this.document)
  }
}

/** @param name of the piece, in the file */
export const glbOf = (
  kernel: SolidKernel,
  model: Model,
  { name, colours }: { readonly name: string; readonly colours: WoodColours },
): Promise<Uint8Array> => new Scene(name, colours).write(kernel, model)
