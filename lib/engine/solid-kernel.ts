/**
 * Solids by manifold-3d (robust booleans on triangle meshes), behind the core's SolidKernel. mm, mm3.
 * Every solid lives in the library's own memory until `free` is called; nothing here keeps one.
 * Loaded by ./solid-kernel-node on the server and in tests, and by ./solid-kernel-page in a page or its worker.
 * Tests: tests/engine/solid-kernel.test.ts, tests/core/design/part-solid.test.ts
 */
import type { Manifold, ManifoldToplevel } from 'manifold-3d'
import type { Frame } from '#lib/core/geometry/frame'
import type { Solid, SolidKernel, SolidMesh } from '#lib/core/geometry/solid'
import { dot, scale } from '#lib/core/geometry/vec3'

class ManifoldSolid implements Solid {
  constructor(readonly inner: Manifold) {}

  volumeMm3(): number {
    return this.inner.volume()
  }

  isEmpty(): boolean {
    return this.inner.isEmpty()
  }

  mesh(): SolidMesh {
    const { vertProperties, triVerts, numProp } = this.inner.getMesh()
    if (numProp !== 3) throw new RangeError(`a solid with ${numProp} numbers a corner`)
    return { positions: vertProperties, triangles: triVerts }
  }

  free(): void {
    this.inner.delete()
  }
}

function innerOf(solid: Solid): Manifold {
  if (!(solid instanceof ManifoldSolid)) throw new RangeError('a solid of another kernel')
  return solid.inner
}

/** Column after column. */
const matrixOf = ({ x, y, z, origin }: Frame) =>
  [...x, 0, ...y, 0, ...z, 0, ...origin, 1] as Parameters<Manifold['transform']>[0]

/** @param library after `setup()` */
export function solidKernelFrom(library: ManifoldToplevel): SolidKernel {
  const { Manifold } = library
  return {
    box(min, max) {
      const cube = Manifold.cube([max[0] - min[0], max[1] - min[1], max[2] - min[2]])
      const moved = cube.translate(min[0], min[1], min[2])
      cube.delete()
      return new ManifoldSolid(moved)
    },
    frustum: (heightMm, radiusLowMm, radiusHighMm, sides) =>
      new ManifoldSolid(Manifold.cylinder(heightMm, radiusLowMm, radiusHighMm, sides)),
    place: (solid, frame) => new ManifoldSolid(innerOf(solid).transform(matrixOf(frame))),
    keepBelow(solid, point, normal) {
      const away = scale(normal, -1)
      return new ManifoldSolid(innerOf(solid).trimByPlane([...away], dot(away, point)))
    },
    subtract: (from, tools) => new ManifoldSolid(Manifold.difference([innerOf(from), ...tools.map(innerOf)])),
    intersect: (a, b) => new ManifoldSolid(innerOf(a).intersect(innerOf(b))),
  }
}
