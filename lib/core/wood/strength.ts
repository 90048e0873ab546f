/**
 * What a piece of wood may be asked to bear: from the species' mean to its weak twentieth (5th percentile), less for
 * salvage's knots and sloping grain, over a stated factor. MPa, at 12 % moisture; drier wood in a room is a little
 * stronger, which is not counted. Sources: Wood Handbook FPL-GTR-190 (2010) Table 5-6 (variation), eq. 5-2 (Hankinson),
 * Table 5-12 (slope of grain), all from memory; ASTM D245/D2555 (divisors, knots), from memory. Factor 2 on the 5th
 * percentile for the short static loads of furniture tests: common practice. Shear across the grain (rolling) and pull
 * across it: shares of shear along it, from memory. Not a grading rule. Tests: tests/core/wood/strength.test.ts
 */
import { GRADES, type SalvageGrade } from './grades'
import { isSpeciesId, type Species, type SpeciesValueName, speciesById, type ValueTag } from './species'

/** Coefficient of variation of clear wood, Table 5-6 (from memory). */
export const VARIATION = {
  bending: 0.16,
  stiffness: 0.22,
  compression: 0.18,
  compressionAcross: 0.28,
  shear: 0.14,
  /** Assumed as wide as the widest of the table. */
  tensionAcross: 0.28,
  density: 0.1,
} as const

/** Normal law: 5 % lie more than 1.645 standard deviations below the mean. */
const FIFTH = 1.645

/** @example fifthPercentile(100, 0.16) //=> 73.68 */
export const fifthPercentile = (mean: number, variation: number): number => mean * (1 - FIFTH * variation)

/**
 * Clear-wood allowable stress: 5th percentile over a divisor for a load of ten years (ASTM D2555/D245, from memory).
 * @param divisor bending: 2.1 softwood, 2.3 hardwood
 * @example clearAllowable({ mean: 14_300, variation: 0.16, divisor: 2.3 }) //=> 4580.9…
 */
export const clearAllowable = (of: {
  readonly mean: number
  readonly variation: number
  readonly divisor: number
}): number => fifthPercentile(of.mean, of.variation) / of.divisor

/**
 * Strength at an angle to the grain, from along (P) and across (Q): P Q / (P sin^n + Q cos^n). Hankinson, eq. 5-2.
 * @param n 2 for compression
 * @example hankinson(6760, 1010, Math.PI / 4) //=> 1757.4…
 */
export function hankinson(along: number, across: number, angleRad: number, n = 2): number {
  if (!(along > 0 && across > 0)) throw new RangeError(`not strengths above 0: ${along}, ${across}`)
  const sin = Math.abs(Math.sin(angleRad)) ** n
  const cos = Math.abs(Math.cos(angleRad)) ** n
  return (along * across) / (along * sin + across * cos)
}

/** On the 5th percentile, for the short static loads of furniture tests (common practice). */
export const FURNITURE_FACTOR = 2
/**
 * Shear that rolls fibres over each other, as a share of shear along them: 18 to 28 % (from memory). On the safe side for
 * dense hardwoods: European beech was tested at 5.6 MPa, its weak twentieth at 4.5 (Aicher et al. 2016, read), 40 %.
 */
export const ROLLING_SHARE = 0.2
/**
 * Twist of crossed boards glued face to face, nominal, as a share of shear along: EN 16351 / Blaß and Görlacher 2002 give
 * 2.5 MPa for the weak twentieth of spruce (from memory), whose clear weak twentieth of shear is 6.1 MPa (Table 5-3b).
 */
export const CROSSED_TORSION_SHARE = 2.5 / 6.1
/** Pull across the grain as a share of shear along it: the least of the Wood Handbook's species (from memory). */
export const TENSION_ACROSS_SHARE = 0.22
/** Moduli as shares of E along the grain: Wood Handbook Table 5-1, typical (from memory). */
export const SHEAR_MODULUS_SHARE = 1 / 16
export const ROLLING_MODULUS_SHARE = 1 / 100
export const ACROSS_MODULUS_SHARE = 0.06
/** Crushing across the grain where the table has no value: that of the least dense species of like weight (assumed). */
const ACROSS_BY_SHEAR = 0.45

/** Strengths of one piece with factor and grade taken off, and stiffness as it is. MPa. */
export interface Allowables {
  readonly species: Species
  readonly grade: SalvageGrade
  readonly factor: number
  readonly bendingMPa: number
  /** Along the grain. Taken as bending, which is less. */
  readonly tensionMPa: number
  readonly compressionMPa: number
  readonly compressionAcrossMPa: number
  readonly shearMPa: number
  readonly rollingShearMPa: number
  /** Nominal stress of a glued patch that is twisted, where grains cross. */
  readonly crossedTorsionMPa: number
  readonly tensionAcrossMPa: number
  /** Mean, for deflection and for how forces share. */
  readonly eMPa: number
  /** 5th percentile, for buckling. */
  readonly eLowMPa: number
  readonly gMPa: number
  /** The weakest tag among the values used. */
  readonly tag: ValueTag
}

const TAG_RANK: Readonly<Record<ValueTag, number>> = { read: 0, memory: 1, assumed: 2 }
const USED: readonly SpeciesValueName[] = ['morMPa', 'moeMPa', 'cParMPa', 'cPerpMPa', 'shearMPa']

const weakestTag = (species: Species): ValueTag =>
  USED.map((name) => species.tags[name] ?? 'assumed').reduce((a, b) => (TAG_RANK[a] >= TAG_RANK[b] ? a : b))

/** A wish for a species as the table knows it; undefined for a name that it does not. */
export function bearingSpecies(wish: string | undefined): Species | undefined {
  if (wish === undefined || wish === '' || wish === 'any') return speciesById('unknown')
  if (wish === 'hardwood') return speciesById('unknownHardwood')
  if (wish === 'softwood') return speciesById('unknownSoftwood')
  return isSpeciesId(wish) ? speciesById(wish) : undefined
}

/**
 * What a species of a salvage grade may bear.
 * @throws RangeError unless the factor is 1 or more
 * @example allowables(speciesById('redOak'), 'clear').bendingMPa.toFixed(1) //=> '33.8'
 */
export function allowables(species: Species, grade: SalvageGrade, factor = FURNITURE_FACTOR): Allowables {
  if (!(factor >= 1)) throw new RangeError(`not a factor of 1 or more: ${factor}`)
  const left = GRADES[grade]
  const of = (mean: number, variation: number, share: number): number =>
    (fifthPercentile(mean, variation) * share) / factor
  const acrossMPa = species.cPerpMPa ?? ACROSS_BY_SHEAR * species.shearMPa
  const bendingMPa = of(species.morMPa, VARIATION.bending, left.bending)
  const shearMPa = of(species.shearMPa, VARIATION.shear, left.shear)
  return {
    species,
    grade,
    factor,
    bendingMPa,
    tensionMPa: bendingMPa,
    compressionMPa: of(species.cParMPa, VARIATION.compression, left.compression),
    // A limit of crushing, not of breaking: the 5th percentile with no further factor.
    compressionAcrossMPa: fifthPercentile(acrossMPa, VARIATION.compressionAcross),
    shearMPa,
    rollingShearMPa: ROLLING_SHARE * shearMPa,
    crossedTorsionMPa: CROSSED_TORSION_SHARE * shearMPa,
    tensionAcrossMPa: of(TENSION_ACROSS_SHARE * species.shearMPa, VARIATION.tensionAcross, left.shear),
    eMPa: species.moeMPa,
    eLowMPa: fifthPercentile(species.moeMPa, VARIATION.stiffness),
    gMPa: species.moeMPa * SHEAR_MODULUS_SHARE,
    tag: weakestTag(species),
  }
}
