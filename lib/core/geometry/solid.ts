/**
 * What the core asks of a solid modeller. The core imports no package: lib/engine/solid-kernel.ts puts the
 * solid library behind this. A solid lives outside the garbage collector: whoever makes one frees it.
 * Lengths in mm, volumes in mm3.
 */
import type { Frame } from './frame'
import type { Vec3 } from './vec3'

/** Corners x y z one after another, and three corner numbers a triangle, counter-clockwise seen from outside. */
export interface SolidMesh {
  readonly positions: Float32Array | Float64Array
  readonly triangles: Uint32Array
}

export interface Solid {
  volumeMm3(): number
  /** True if nothing is left. */
  isEmpty(): boolean
  mesh(): SolidMesh
  free(): void
}

export interface SolidKernel {
  /** Edges along the axes, from `min` to `max`. */
  box(min: Vec3, max: Vec3): Solid
  /** Straight prism or cone frustum with a regular polygon as section, from the origin along +z. */
  frustum(heightMm: number, radiusLowMm: number, radiusHighMm: number, sides: number): Solid
  /** The solid as seen in `frame`, put into the world. */
  place(solid: Solid, frame: Frame): Solid
  /** What lies on the side that `normal` points away from; `normal` has length 1. */
  keepBelow(solid: Solid, point: Vec3, normal: Vec3): Solid
  /** `from` without all of `tools`. */
  subtract(from: Solid, tools: readonly Solid[]): Solid
  intersect(a: Solid, b: Solid): Solid
}
