/**
 * What each species looks like under a clear finish: colours of earlywood and latewood, ring width and pores. From
 * memory of planed boards (common practice), not measured; «any sound wood» has a neutral timber of its own.
 */

/** How the vessels lie in a growth ring: none in conifers, in a band in oak and ash, everywhere in maple. */
export type PoreKind = 'none' | 'ring' | 'diffuse'

export interface SpeciesLook {
  /** Of earlywood, sRGB. */
  readonly light: string
  /** Of latewood and pores, sRGB. */
  readonly dark: string
  /** Mean width of a growth ring. */
  readonly ringMm: number
  readonly pores: PoreKind
  /** 0: rings hardly seen; 1: stripes. */
  readonly contrast: number
}

const look = (
  light: string,
  dark: string,
  ringMm: number,
  pores: PoreKind,
  contrast: number,
): SpeciesLook => ({ light, dark, ringMm, pores, contrast })

const PINE = look('#e3bd84', '#b4763a', 7, 'none', 0.72)

const LOOKS: Readonly<Record<string, SpeciesLook>> = {
  redOak: look('#d3a57a', '#8f5f3b', 5, 'ring', 0.75),
  whiteOak: look('#cdaa78', '#8b693f', 5, 'ring', 0.7),
  hardMaple: look('#e8d2ab', '#bd976a', 5, 'diffuse', 0.3),
  softMaple: look('#e0c69c', '#b08c60', 5, 'diffuse', 0.32),
  yellowBirch: look('#dcb983', '#ab7c4c', 5, 'diffuse', 0.36),
  blackCherry: look('#bb8058', '#85502f', 5, 'diffuse', 0.42),
  blackWalnut: look('#866a55', '#4b382b', 6, 'diffuse', 0.5),
  whiteAsh: look('#e1c797', '#a37c4a', 6, 'ring', 0.7),
  beech: look('#d9a97a', '#a3714a', 4, 'diffuse', 0.28),
  yellowPoplar: look('#d0c794', '#8b8350', 7, 'diffuse', 0.4),
  redAlder: look('#d3a172', '#a06f45', 7, 'diffuse', 0.3),
  mahogany: look('#a25b38', '#64301c', 6, 'diffuse', 0.5),
  teak: look('#ad7f48', '#694722', 5, 'ring', 0.6),
  douglasFir: look('#d9a56b', '#9a5527', 5, 'none', 0.85),
  loblollyPine: PINE,
  longleafPine: look('#dfb074', '#a5642c', 5, 'none', 0.85),
  easternWhitePine: look('#e9cf9e', '#c59a62', 6, 'none', 0.45),
  ponderosaPine: look('#e6c791', '#bb8a4f', 6, 'none', 0.5),
  sitkaSpruce: look('#e6cda2', '#bb935f', 4, 'none', 0.5),
  westernRedcedar: look('#b98462', '#7d5038', 4, 'none', 0.6),
  softwood: PINE,
  hardwood: look('#d0a877', '#8f6a43', 5, 'ring', 0.55),
}
const SALVAGE = look('#d9b78a', '#9d7347', 5.5, 'none', 0.55)

/** @param species undefined or one without colours of its own: salvage of any kind */
export const speciesLook = (species: string | undefined): SpeciesLook =>
  (species === undefined ? undefined : LOOKS[species]) ?? SALVAGE
