import { describe, expect, it } from 'vitest'
import {
  compoundMitre,
  inTiltedPlaneRad,
  resultantRad,
  sightlineRad,
  splayedLengthMm,
} from '#lib/core/design/compound-angle'
import { cross, dot, unit, type Vec3 } from '#lib/core/geometry/vec3'

const DEG = Math.PI / 180
/** To a thousandth of a degree, against values printed to a thousandth. */
const degrees = (rad: number): number => Number((rad / DEG).toFixed(3))

describe('legs that lean two ways', () => {
  it('h 610 mm raked 5° is 612.33 mm long; 5° and 5° make 614.65 mm (L = h sqrt(1 + tan² a + tan² b), plane trigonometry)', () => {
    expect(splayedLengthMm(610, 5 * DEG, 0)).toBeCloseTo(612.33, 2)
    expect(splayedLengthMm(610, 5 * DEG, 5 * DEG)).toBeCloseTo(614.65, 2)
  })

  // Resultant and sightline formulas as published for splayed chair legs; sightline from the rake's axis.
  it.each([
    [5, 3, 5.823, 30.923],
    [15, 10, 17.784, 33.347],
    [5, 5, 7.053, 45],
  ])('rake %d° and splay %d°: resultant %d°, sightline %d°', (rake, splay, resultant, sightline) => {
    expect(degrees(resultantRad(rake * DEG, splay * DEG))).toBe(resultant)
    expect(degrees(sightlineRad(rake * DEG, splay * DEG))).toBe(sightline)
  })

  it('rake 25° and splay 14°: resultant 27.869° (the same formulas)', () => {
    expect(degrees(resultantRad(25 * DEG, 14 * DEG))).toBe(27.869)
  })

  it('the angle within a leaning frame is the one between vectors', () => {
    for (const [a, b] of [
      [8, 8],
      [12, 4],
      [0, 9],
      [15, 0],
    ]) {
      const leg = unit([Math.tan(a * DEG), Math.tan(b * DEG), 1])
      const fall: Vec3 = [0, Math.sin(b * DEG), Math.cos(b * DEG)]
      expect(inTiltedPlaneRad(a * DEG, b * DEG)).toBeCloseTo(Math.acos(dot(leg, fall)), 7)
    }
  })
})

describe('sides that lean and meet in mitres', () => {
  // tan M = sin t tan(180/n), sin B = cos t sin(180/n); t from upright.
  it.each([
    [4, 5, 4.981, 44.782],
    [6, 10, 5.725, 29.499],
    [4, 0, 0, 45],
  ])('%d sides leaning %d°: mitre %d°, bevel %d°', (sides, tilt, mitre, bevel) => {
    const cut = compoundMitre(sides, tilt * DEG)
    expect(degrees(cut.mitreRad)).toBe(mitre)
    expect(degrees(cut.bevelRad)).toBe(bevel)
  })

  it('agrees with the plane that halves the corner, by vectors', () => {
    for (const sides of [3, 4, 5, 6, 8])
      for (const tilt of [0, 3, 10, 25]) {
        const [t, corner] = [tilt * DEG, Math.PI / sides]
        // A side that runs along x and leans outwards to -y; its corner plane is upright and turned by 180/n.
        const out: Vec3 = [0, -Math.cos(t), -Math.sin(t)]
        const up: Vec3 = [0, -Math.sin(t), Math.cos(t)]
        const plane: Vec3 = [Math.cos(corner), Math.sin(corner), 0]
        const cut = compoundMitre(sides, t)
        expect(Math.asin(Math.abs(dot(plane, out)))).toBeCloseTo(cut.bevelRad, 9)
        const line = unit(cross(plane, out))
        expect(Math.atan(Math.abs(line[0] / dot(line, up)))).toBeCloseTo(cut.mitreRad, 9)
      }
  })

  it('refuses what has no corners', () => {
    expect(() => compoundMitre(2, 0)).toThrow(RangeError)
    expect(() => compoundMitre(4.5, 0)).toThrow(RangeError)
  })
})
