/** What parts weigh: wood alone, screws left out. kg, kg/m3 at 12 % moisture. Tests: tests/core/design/counter-seat.test.ts */
import { massKg, speciesDensityKgPerM3 } from '#lib/core/wood/density'
import { speciesById } from '#lib/core/wood/species'
import type { Part } from './model'
import { type FlatFace, facesOfParts, massProperties } from './part-shape'

/** Where no one species is asked for (common practice). */
const USUAL_DENSITY: Readonly<Record<string, number>> = { any: 600, hardwood: 680, softwood: 500 }

/** @example densityKgM3('redOak') //=> 705.6 */
export const densityKgM3 = (species: string): number =>
  USUAL_DENSITY[species] ?? speciesDensityKgPerM3(speciesById(species))

/** @param faces of the parts, where they are at hand */
export const weightKg = (
  parts: readonly Part[],
  species: string,
  faces: ReadonlyMap<string, readonly FlatFace[]> = facesOfParts(parts),
): number =>
  massKg(
    parts.reduce((sum, part) => sum + massProperties(part, faces.get(part.id)).volumeMm3, 0),
    densityKgM3(species),
  )
