/** A part's faces by formula, and the volume within them. Solids against formulas: part-solid.test.ts. */
import { expect, it } from 'vitest'
import type { EndCut, Part } from '#lib/core/design/model'
import { flatFaces, massProperties } from '#lib/core/design/part-shape'
import { area } from '#lib/core/geometry/polygon2'
import type { Vec3 } from '#lib/core/geometry/vec3'

const TILT_RAD = (4.5 * Math.PI) / 180
const NORMAL: Vec3 = [Math.cos(TILT_RAD), 0, Math.sin(TILT_RAD)]

/** A bevelled end through the corner at 300 mm, the plane given by one of its points. */
function bevelled(alongPlaneMm: number): Part {
  const point: Vec3 = [300 - alongPlaneMm * Math.sin(TILT_RAD), 40, alongPlaneMm * Math.cos(TILT_RAD)]
  const cut: EndCut = {
    kind: 'endCut',
    id: 'cut',
    end: 'endB',
    point,
    normal: NORMAL,
    mitreRad: 0,
    bevelRad: TILT_RAD,
  }
  return {
    id: 'p',
    name: 'Part',
    kind: 'part',
    blank: { lengthMm: 300, widthMm: 150, thicknessMm: 28 },
    operations: [cut],
    faces: { endA: 'show', endB: 'show', edgeA: 'show', edgeB: 'show', faceA: 'show', faceB: 'show' },
    frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
  }
}

// Plane trigonometry: the bevel takes a wedge of t tan a off a length of 300 mm, half of it on the mean.
it.each([0, -50, -1000, 20_000])(
  'a cut is where its plane is, whichever of its points names it (%i mm along)',
  (alongMm) => {
    const part = bevelled(alongMm)
    const volumeMm3 = 150 * 28 * (300 - (28 * Math.tan(TILT_RAD)) / 2)
    expect(massProperties(part).volumeMm3 / volumeMm3).toBeCloseTo(1, 9)
    const end = flatFaces(part).find((face) => 'face' in face.of && face.of.face === 'endB')
    expect(end?.pieces.reduce((sum, piece) => sum + area(piece), 0)).toBeCloseTo(
      (150 * 28) / Math.cos(TILT_RAD),
      6,
    )
  },
)
