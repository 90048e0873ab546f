/**
 * How heavy wood is at 12 % moisture. Wood Handbook FPL-GTR-190 (2010), ch. 4: the mass at moisture M is the
 * ovendry mass times (1 + M/100); specific gravity G12 is ovendry mass over volume at 12 %, by that of water.
 * Imported woods are tabled on green volume; their wood at 12 % is denser by its volumetric shrinkage, here
 * taken as (12 % of 30 %) short of full, from the sum of radial and tangential shrinkage.
 * Salvage varies by about 10 % (coefficient of variation, Table 5-6, from memory). Tests: tests/core/wood/density.test.ts
 */
import type { Species } from './species'

/** @example densityKgPerM3At12(0.63) //=> 705.6 */
export const densityKgPerM3At12 = (g12: number): number => 1000 * g12 * 1.12

/** Share of the shrinkage from green to ovendry that is done at 12 %: (30 - 12) / 30. */
const SHRUNK_AT_12 = 0.6

/**
 * Density of a species at 12 % moisture.
 * @example speciesDensityKgPerM3(speciesById('redOak')) //=> 705.6
 */
export function speciesDensityKgPerM3(
  species: Pick<Species, 'g12' | 'g12Basis' | 'shrinkageRadialPct' | 'shrinkageTangentialPct'>,
): number {
  const atTabled = densityKgPerM3At12(species.g12)
  if (species.g12Basis === 'at12Pct') return atTabled
  const shrunkPct = (species.shrinkageRadialPct + species.shrinkageTangentialPct) * SHRUNK_AT_12
  return atTabled / (1 - shrunkPct / 100)
}

/** Mass in kg of a volume in mm3. @example massKg(1e9, 700) //=> 700 */
export const massKg = (volumeMm3: number, densityKgPerM3: number): number =>
  (volumeMm3 * densityKgPerM3) / 1e9
