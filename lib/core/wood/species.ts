/**
 * The species that come out of furniture, with their properties and where each value is from.
 *
 * Mechanical values: clear, straight-grained wood at 12 % moisture, means (not allowable values), from the Wood
 * Handbook (FPL-GTR-190, 2010) Tables 5-3b and 5-5b, inch-pound, converted here: 1 psi = 0.00689476 MPa,
 * 1 lbf = 4.44822 N. Shrinkage green to ovendry, %: Tables 4-3 and 4-4. Dimensional change coefficients per 1 % of
 * moisture: Table 13-5. Tag `read`: checked against the printed table; `memory`: recalled, not read again;
 * `assumed`: a cautious stand-in. Absent: the table has no value. Salvage with knots or slope of grain is weaker.
 * Tests: tests/core/wood/species.test.ts
 */
export type WoodKind = 'hardwood' | 'softwood' | 'unknown'
export type ValueTag = 'read' | 'memory' | 'assumed'

const VALUE_NAMES = [
  'g12',
  'morMPa',
  'moeMPa',
  'cParMPa',
  'cPerpMPa',
  'shearMPa',
  'hardnessN',
  'shrinkageRadialPct',
  'shrinkageTangentialPct',
  'crPerPct',
  'ctPerPct',
] as const
export type SpeciesValueName = (typeof VALUE_NAMES)[number]

/** Values that the table may lack. */
type Optional = 'cPerpMPa'

export type SpeciesValues = Readonly<Record<Exclude<SpeciesValueName, Optional>, number>> &
  Readonly<Partial<Record<Optional, number>>>

export interface Species extends SpeciesValues {
  readonly id: string
  readonly name: string
  readonly kind: WoodKind
  /** What g12 is: ovendry mass over volume at 12 %, or over green volume (imported woods). */
  readonly g12Basis: 'at12Pct' | 'green'
  readonly tags: Readonly<Partial<Record<SpeciesValueName, ValueTag>>>
  readonly source: string
}

/** As printed: psi, million psi, lbf, %. */
interface Printed {
  readonly value: number
  readonly tag: ValueTag
}
const read = (value: number): Printed => ({ value, tag: 'read' })
const memory = (value: number): Printed => ({ value, tag: 'memory' })

interface PrintedRow {
  readonly g12: Printed
  readonly morPsi: Printed
  readonly moeMillionPsi: Printed
  readonly cParPsi: Printed
  readonly cPerpPsi: Printed | null
  readonly shearPsi: Printed
  readonly hardnessLbf: Printed
  readonly shrinkage: { readonly radial: Printed; readonly tangential: Printed }
  readonly change: { readonly radial: Printed; readonly tangential: Printed }
}

const MPA_PER_PSI = 0.00689476
const N_PER_LBF = 4.44822
const HANDBOOK = 'Wood Handbook FPL-GTR-190 (2010), Tables 5-3b, 4-3 and 13-5'
const HANDBOOK_IMPORTED = 'Wood Handbook FPL-GTR-190 (2010), Tables 5-5b, 4-4 and 13-5'

function speciesFrom(id: string, name: string, kind: WoodKind, row: PrintedRow, isImported = false): Species {
  const printed: Readonly<Record<SpeciesValueName, readonly [Printed | null, number]>> = {
    g12: [row.g12, 1],
    morMPa: [row.morPsi, MPA_PER_PSI],
    moeMPa: [row.moeMillionPsi, 1e6 * MPA_PER_PSI],
    cParMPa: [row.cParPsi, MPA_PER_PSI],
    cPerpMPa: [row.cPerpPsi, MPA_PER_PSI],
    shearMPa: [row.shearPsi, MPA_PER_PSI],
    hardnessN: [row.hardnessLbf, N_PER_LBF],
    shrinkageRadialPct: [row.shrinkage.radial, 1],
    shrinkageTangentialPct: [row.shrinkage.tangential, 1],
    crPerPct: [row.change.radial, 1],
    ctPerPct: [row.change.tangential, 1],
  }
  const given = VALUE_NAMES.flatMap((value) => {
    const [cell, factor] = printed[value]
    return cell === null ? [] : [{ value, number: cell.value * factor, tag: cell.tag }]
  })
  return {
    id,
    name,
    kind,
    g12Basis: isImported ? 'green' : 'at12Pct',
    source: isImported ? HANDBOOK_IMPORTED : HANDBOOK,
    ...(Object.fromEntries(given.map((cell) => [cell.value, cell.number])) as unknown as SpeciesValues),
    tags: Object.fromEntries(given.map((cell) => [cell.value, cell.tag])),
  }
}

const HARDWOODS: readonly Species[] = [
  speciesFrom('redOak', 'Northern red oak', 'hardwood', {
    g12: read(0.63),
    morPsi: read(14_300),
    moeMillionPsi: read(1.82),
    cParPsi: read(6760),
    cPerpPsi: read(1010),
    shearPsi: memory(1780),
    hardnessLbf: read(1290),
    shrinkage: { radial: memory(4.0), tangential: memory(8.6) },
    change: { radial: read(0.00158), tangential: read(0.00369) },
  }),
  speciesFrom('whiteOak', 'White oak', 'hardwood', {
    g12: read(0.68),
    morPsi: read(15_200),
    moeMillionPsi: read(1.78),
    cParPsi: read(7440),
    cPerpPsi: memory(1070),
    shearPsi: memory(2000),
    hardnessLbf: memory(1360),
    shrinkage: { radial: read(5.6), tangential: read(10.5) },
    change: { radial: read(0.0018), tangential: read(0.00365) },
  }),
  speciesFrom('hardMaple', 'Sugar maple (hard)', 'hardwood', {
    g12: read(0.63),
    morPsi: read(15_800),
    moeMillionPsi: read(1.83),
    cParPsi: read(7830),
    cPerpPsi: read(1470),
    shearPsi: read(2330),
    hardnessLbf: read(1450),
    shrinkage: { radial: read(4.8), tangential: read(9.9) },
    change: { radial: read(0.00165), tangential: read(0.00353) },
  }),
  speciesFrom('softMaple', 'Red maple (soft)', 'hardwood', {
    g12: read(0.54),
    morPsi: read(13_400),
    moeMillionPsi: read(1.64),
    cParPsi: memory(6540),
    cPerpPsi: memory(1000),
    shearPsi: memory(1850),
    hardnessLbf: memory(950),
    shrinkage: { radial: memory(4.0), tangential: memory(8.2) },
    change: { radial: read(0.00137), tangential: read(0.00289) },
  }),
  speciesFrom('yellowBirch', 'Yellow birch', 'hardwood', {
    g12: read(0.62),
    morPsi: read(16_600),
    moeMillionPsi: read(2.01),
    cParPsi: read(8170),
    cPerpPsi: read(970),
    shearPsi: read(1880),
    hardnessLbf: memory(1260),
    shrinkage: { radial: read(7.3), tangential: read(9.5) },
    change: { radial: read(0.00256), tangential: read(0.00338) },
  }),
  speciesFrom('blackCherry', 'Black cherry', 'hardwood', {
    g12: read(0.5),
    morPsi: read(12_300),
    moeMillionPsi: read(1.49),
    cParPsi: read(7110),
    cPerpPsi: read(690),
    shearPsi: read(1700),
    hardnessLbf: memory(950),
    shrinkage: { radial: read(3.7), tangential: read(7.1) },
    change: { radial: read(0.00126), tangential: read(0.00248) },
  }),
  speciesFrom('blackWalnut', 'Black walnut', 'hardwood', {
    g12: read(0.55),
    morPsi: read(14_600),
    moeMillionPsi: read(1.68),
    cParPsi: read(7580),
    cPerpPsi: memory(1010),
    shearPsi: memory(1370),
    hardnessLbf: memory(1010),
    shrinkage: { radial: read(5.5), tangential: read(7.8) },
    change: { radial: read(0.0019), tangential: read(0.00274) },
  }),
  speciesFrom('whiteAsh', 'White ash', 'hardwood', {
    g12: read(0.6),
    morPsi: read(15_000),
    moeMillionPsi: read(1.74),
    cParPsi: read(7410),
    cPerpPsi: read(1160),
    shearPsi: read(1910),
    hardnessLbf: memory(1320),
    shrinkage: { radial: read(4.9), tangential: read(7.8) },
    change: { radial: read(0.00169), tangential: read(0.00274) },
  }),
  speciesFrom('beech', 'American beech', 'hardwood', {
    g12: read(0.64),
    morPsi: read(14_900),
    moeMillionPsi: read(1.72),
    cParPsi: read(7300),
    cPerpPsi: read(1010),
    shearPsi: read(2010),
    hardnessLbf: memory(1300),
    shrinkage: { radial: read(5.5), tangential: read(11.9) },
    change: { radial: read(0.0019), tangential: read(0.00431) },
  }),
  speciesFrom('yellowPoplar', 'Yellow-poplar (tulipwood)', 'hardwood', {
    g12: read(0.42),
    morPsi: read(10_100),
    moeMillionPsi: read(1.58),
    cParPsi: read(5540),
    cPerpPsi: memory(500),
    shearPsi: memory(1190),
    hardnessLbf: memory(540),
    shrinkage: { radial: read(4.6), tangential: read(8.2) },
    change: { radial: memory(0.00158), tangential: memory(0.00289) },
  }),
  speciesFrom('redAlder', 'Red alder', 'hardwood', {
    g12: read(0.41),
    morPsi: memory(9800),
    moeMillionPsi: read(1.38),
    cParPsi: read(5820),
    cPerpPsi: read(440),
    shearPsi: read(1080),
    hardnessLbf: read(590),
    shrinkage: { radial: read(4.4), tangential: read(7.3) },
    change: { radial: read(0.00151), tangential: read(0.00256) },
  }),
  speciesFrom(
    'mahogany',
    'Mahogany (true)',
    'hardwood',
    {
      g12: read(0.45),
      morPsi: read(11_500),
      moeMillionPsi: read(1.5),
      cParPsi: read(6780),
      cPerpPsi: null,
      shearPsi: read(1230),
      hardnessLbf: read(800),
      shrinkage: { radial: memory(3.0), tangential: memory(4.1) },
      change: { radial: memory(0.00172), tangential: memory(0.00238) },
    },
    true,
  ),
  speciesFrom(
    'teak',
    'Teak',
    'hardwood',
    {
      g12: read(0.55),
      morPsi: read(14_600),
      moeMillionPsi: read(1.55),
      cParPsi: read(8410),
      cPerpPsi: null,
      shearPsi: read(1890),
      hardnessLbf: read(1000),
      shrinkage: { radial: memory(2.5), tangential: memory(5.8) },
      change: { radial: memory(0.00101), tangential: memory(0.00186) },
    },
    true,
  ),
]

const SOFTWOODS: readonly Species[] = [
  speciesFrom('douglasFir', 'Douglas-fir', 'softwood', {
    g12: read(0.48),
    morPsi: read(12_400),
    moeMillionPsi: read(1.95),
    cParPsi: memory(7230),
    cPerpPsi: memory(800),
    shearPsi: memory(1130),
    hardnessLbf: read(710),
    shrinkage: { radial: read(4.8), tangential: read(7.6) },
    change: { radial: memory(0.00165), tangential: memory(0.00267) },
  }),
  speciesFrom('loblollyPine', 'Loblolly pine', 'softwood', {
    g12: memory(0.51),
    morPsi: memory(12_800),
    moeMillionPsi: memory(1.79),
    cParPsi: memory(7130),
    cPerpPsi: memory(790),
    shearPsi: memory(1390),
    hardnessLbf: memory(690),
    shrinkage: { radial: memory(4.8), tangential: memory(7.4) },
    change: { radial: memory(0.00165), tangential: memory(0.00259) },
  }),
  speciesFrom('longleafPine', 'Longleaf pine (southern yellow)', 'softwood', {
    g12: read(0.59),
    morPsi: read(14_500),
    moeMillionPsi: read(1.98),
    cParPsi: read(8470),
    cPerpPsi: memory(960),
    shearPsi: memory(1510),
    hardnessLbf: memory(870),
    shrinkage: { radial: memory(5.1), tangential: memory(7.5) },
    change: { radial: memory(0.00176), tangential: memory(0.00263) },
  }),
  speciesFrom('easternWhitePine', 'Eastern white pine', 'softwood', {
    g12: memory(0.35),
    morPsi: memory(8600),
    moeMillionPsi: memory(1.24),
    cParPsi: memory(4800),
    cPerpPsi: memory(440),
    shearPsi: memory(900),
    hardnessLbf: memory(380),
    shrinkage: { radial: memory(2.1), tangential: memory(6.1) },
    change: { radial: memory(0.00071), tangential: memory(0.00212) },
  }),
  speciesFrom('ponderosaPine', 'Ponderosa pine', 'softwood', {
    g12: read(0.4),
    morPsi: read(9400),
    moeMillionPsi: read(1.29),
    cParPsi: read(5320),
    cPerpPsi: read(580),
    shearPsi: read(1130),
    hardnessLbf: read(460),
    shrinkage: { radial: memory(3.9), tangential: memory(6.2) },
    change: { radial: memory(0.00133), tangential: memory(0.00216) },
  }),
  speciesFrom('sitkaSpruce', 'Sitka spruce', 'softwood', {
    g12: memory(0.36),
    morPsi: memory(10_200),
    moeMillionPsi: memory(1.57),
    cParPsi: memory(5610),
    cPerpPsi: memory(580),
    shearPsi: memory(1150),
    hardnessLbf: memory(510),
    shrinkage: { radial: memory(4.3), tangential: memory(7.5) },
    change: { radial: memory(0.00148), tangential: memory(0.00263) },
  }),
  speciesFrom('westernRedcedar', 'Western redcedar', 'softwood', {
    g12: memory(0.32),
    morPsi: memory(7500),
    moeMillionPsi: memory(1.11),
    cParPsi: memory(4560),
    cPerpPsi: memory(460),
    shearPsi: memory(990),
    hardnessLbf: memory(350),
    shrinkage: { radial: read(2.4), tangential: read(5.0) },
    change: { radial: memory(0.00111), tangential: memory(0.00234) },
  }),
]

/**
 * A stand-in for wood that nobody could name: seven tenths of the weakest and the most movement of its class.
 * The three tenths off are for woods that are not in the table (quaking aspen, northern white-cedar).
 */
const UNKNOWN_SHARE = 0.7
const MOVEMENTS: ReadonlySet<SpeciesValueName> = new Set([
  'shrinkageRadialPct',
  'shrinkageTangentialPct',
  'crPerPct',
  'ctPerPct',
])

function cautious(id: string, name: string, kind: WoodKind, among: readonly Species[]): Species {
  const values = VALUE_NAMES.map((value) => {
    const known = among.flatMap((species) => species[value] ?? [])
    return [value, MOVEMENTS.has(value) ? Math.max(...known) : UNKNOWN_SHARE * Math.min(...known)] as const
  })
  return {
    id,
    name,
    kind,
    g12Basis: 'at12Pct',
    source: `Seven tenths of the weakest, and the most movement, of ${among.length} species in this table`,
    ...(Object.fromEntries(values) as unknown as SpeciesValues),
    tags: Object.fromEntries(VALUE_NAMES.map((value) => [value, 'assumed' as const])),
  }
}

/** In the order in which a form offers them. */
export const SPECIES: readonly Species[] = [
  ...HARDWOODS,
  ...SOFTWOODS,
  cautious('unknownHardwood', 'Hardwood, not known which', 'hardwood', HARDWOODS),
  cautious('unknownSoftwood', 'Softwood, not known which', 'softwood', SOFTWOODS),
  cautious('unknown', 'Not known', 'unknown', [...HARDWOODS, ...SOFTWOODS]),
]

const BY_ID: ReadonlyMap<string, Species> = new Map(SPECIES.map((species) => [species.id, species]))

export const isSpeciesId = (id: string): boolean => BY_ID.has(id)

/** The species, or the most cautious stand-in for an id that the table does not hold. @example speciesById('redOak').name //=> 'Northern red oak' */
export const speciesById = (id: string): Species => BY_ID.get(id) ?? (BY_ID.get('unknown') as Species)

/**
 * Whether a board of species `have` may become a part that asks for `want`: a species, `hardwood`, `softwood`,
 * or nothing (`undefined`, `any`): any sound wood. Wood that nobody could name meets no wish for a species.
 * @example meetsSpecies('hardwood', 'redOak') //=> true
 */
export function meetsSpecies(want: string | undefined, have: string): boolean {
  if (want === undefined || want === '' || want === 'any' || want === 'unknown') return true
  const kind = speciesById(have).kind
  if (want === 'hardwood' || want === 'unknownHardwood') return kind === 'hardwood'
  if (want === 'softwood' || want === 'unknownSoftwood') return kind === 'softwood'
  return want === have
}
