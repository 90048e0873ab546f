/**
 * The shop's own machines and allowances, as the planning reads them. What a station's row leaves open is filled
 * with the figures of DEFAULT_SETUP_SHOP and DEFAULT_ALLOWANCES (common practice); a machine's manual overrules both.
 * Whole micrometres in rows and cutting, mm in set-ups. Tests: tests/shop/machines.test.ts
 */
import { DEFAULT_ALLOWANCES, type RoughAllowances } from '#lib/core/board/allowances'
import type { CutShop } from '#lib/core/cutting/from-pool'
import type { StationKind } from '#lib/core/setups/setup-plan'
import { DEFAULT_SETUP_SHOP, type SetupShop } from '#lib/core/setups/setup-shop'

export interface StationFigures {
  readonly kind: StationKind
  readonly kerfUm: number | null
  readonly maxRipWidthUm: number | null
  readonly maxCrosscutWidthUm: number | null
  readonly minPieceLengthUm: number | null
  readonly minPieceWidthUm: number | null
  readonly maxPassUm: number | null
}

export interface ShopFigures {
  readonly lengthAllowanceUm: number
  readonly widthAllowanceUm: number
  readonly skimUm: number
  readonly endTrimUm: number
}

/** Smaller rests are waste: common practice, a forearm long and three fingers wide. */
export const OFFCUT_WORTH_KEEPING = { minLengthUm: 300_000, minWidthUm: 40_000 } as const

/** Narrowest piece that is held for a cut where the station does not say. Common practice. */
const MIN_PIECE_WIDTH_UM = 20_000

const umOf = (mm: number) => Math.round(mm * 1000)
const first = (stations: readonly StationFigures[], kind: StationKind) =>
  stations.find((s) => s.kind === kind)

export function shopAllowances(shop: ShopFigures): RoughAllowances {
  return {
    ...DEFAULT_ALLOWANCES,
    lengthUm: shop.lengthAllowanceUm,
    widthUm: shop.widthAllowanceUm,
    skimPerFaceUm: shop.skimUm,
    endTrimUm: shop.endTrimUm,
  }
}

/** What the first table saw can cut, and what is added to a part's finished size. */
export function cutShop(shop: ShopFigures, stations: readonly StationFigures[]): CutShop {
  const saw = first(stations, 'tableSaw')
  const usual = DEFAULT_SETUP_SHOP.tableSaw
  return {
    kerfUm: saw?.kerfUm ?? umOf(usual.kerfMm),
    limits: {
      maxRipWidthUm: saw?.maxRipWidthUm ?? umOf(usual.maxRipMm),
      maxCrosscutWidthUm: saw?.maxCrosscutWidthUm ?? umOf(usual.maxCrosscutWidthMm),
      minPieceLengthUm: saw?.minPieceLengthUm ?? umOf(usual.minHoldMm),
      minPieceWidthUm: saw?.minPieceWidthUm ?? MIN_PIECE_WIDTH_UM,
      stages: null,
    },
    offcut: OFFCUT_WORTH_KEEPING,
    allowances: {
      ...shopAllowances(shop),
      minPlaneLengthUm:
        first(stations, 'planer')?.minPieceLengthUm ?? umOf(DEFAULT_SETUP_SHOP.planer.minLengthMm),
    },
  }
}

/** The same machines as the planning of set-ups reads them. */
export function setupShop(stations: readonly StationFigures[]): SetupShop {
  const usual = DEFAULT_SETUP_SHOP
  const saw = first(stations, 'tableSaw')
  const planer = first(stations, 'planer')
  const mm = (um: number | null | undefined, otherwise: number) => (um == null ? otherwise : um / 1000)
  return {
    ...usual,
    tableSaw: {
      ...usual.tableSaw,
      kerfMm: mm(saw?.kerfUm, usual.tableSaw.kerfMm),
      notchStepMm: Math.min(usual.tableSaw.notchStepMm, mm(saw?.kerfUm, usual.tableSaw.kerfMm)),
      maxRipMm: mm(saw?.maxRipWidthUm, usual.tableSaw.maxRipMm),
      maxCrosscutWidthMm: mm(saw?.maxCrosscutWidthUm, usual.tableSaw.maxCrosscutWidthMm),
      minHoldMm: mm(saw?.minPieceLengthUm, usual.tableSaw.minHoldMm),
    },
    planer: {
      ...usual.planer,
      maxPassMm: mm(planer?.maxPassUm, usual.planer.maxPassMm),
      minLengthMm: mm(planer?.minPieceLengthUm, usual.planer.minLengthMm),
      minWidthMm: mm(planer?.minPieceWidthUm, usual.planer.minWidthMm),
    },
  }
}
