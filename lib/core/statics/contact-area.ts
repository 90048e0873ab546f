/**
 * Area, centre and second moments of the flat patch in which two parts meet. mm, mm2, mm4, in axes of the patch's own
 * plane. By the boundary sums of a polygon (Green's theorem). Tests: tests/core/statics/glue.test.ts
 */
import { area, centroid, type Polygon2 } from '#lib/core/geometry/polygon2'

export interface PatchProperties {
  readonly areaMm2: number
  readonly centre: readonly [number, number]
  /** About axes through the centre. */
  readonly ixxMm4: number
  readonly iyyMm4: number
  readonly ixyMm4: number
  readonly polarMm4: number
}

/** @example patchProperties([[0, 0], [38, 0], [38, 38], [0, 38]]).polarMm4.toFixed(0) //=> '347523' */
export function patchProperties(polygon: Polygon2): PatchProperties {
  const size = area(polygon)
  if (!(Math.abs(size) > 0)) throw new RangeError('a patch without area')
  const centre = centroid(polygon)
  let [ixx, iyy, ixy] = [0, 0, 0]
  polygon.forEach(([px, py], i) => {
    const [qx, qy] = polygon[(i + 1) % polygon.length]
    const [x0, y0, x1, y1] = [px - centre[0], py - centre[1], qx - centre[0], qy - centre[1]]
    const w = x0 * y1 - x1 * y0
    ixx += (w * (y0 * y0 + y0 * y1 + y1 * y1)) / 12
    iyy += (w * (x0 * x0 + x0 * x1 + x1 * x1)) / 12
    ixy += (w * (x0 * y1 + 2 * x0 * y0 + 2 * x1 * y1 + x1 * y0)) / 24
  })
  const sign = Math.sign(size)
  return {
    areaMm2: Math.abs(size),
    centre,
    ixxMm4: sign * ixx,
    iyyMm4: sign * iyy,
    ixyMm4: sign * ixy,
    polarMm4: sign * (ixx + iyy),
  }
}
