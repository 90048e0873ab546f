/** What variants are compared by, as rows, in this person's units. Pure; tests: tests/app/comparison-rows.test.ts */
import type { ParameterSpec, ParameterValues } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { money } from '#lib/core/units/money'
import type { VariantSum } from '#lib/engine/variant-run'
import { sayArea, sayVolume, sayWeight } from '#lib/format/amount'
import { sayLength } from '#lib/format/length'
import { sayMoney } from '#lib/format/money'
import { type Cell, type ComparedRow, parameterRows } from '#lib/shop/compare-variants'
import { sayParameter } from '#lib/shop/typed-parameters'

export interface Column {
  readonly name: string
  readonly specs: readonly ParameterSpec[]
  readonly parameters: ParameterValues
  /** Null: not worked out yet; a sentence: it makes no piece. */
  readonly sum: VariantSum | string | null
  readonly pool: string
}

const MM_PER_M = 1000
const SECONDS_PER_HOUR = 3600
const MOST_SAID = 20
const whole = (value: number) => String(Math.round(value))
/** Rounded down: a margin is not made better by saying it. */
const saidMargin = (margin: number) => Math.floor(margin * 100 + 1e-9) / 100
const times = (value: number) => (value >= MOST_SAID ? `over ${MOST_SAID}×` : `${value.toFixed(2)}×`)
const hours = (seconds: number) => `${(seconds / SECONDS_PER_HOUR).toFixed(1)} h`

type Of = (sum: VariantSum) => Cell

const NO_SUM = 'Makes no piece'
const NO_PRICE = 'No price yet'

const column = (sum: Column['sum'], of: Of): Cell =>
  sum === null ? null : typeof sum === 'string' ? NO_SUM : of(sum)

/** What the piece comes to. @param currency of the shop's prices */
export function sumRows(columns: readonly Column[], units: LengthUnit, currency: string): ComparedRow[] {
  const length = (mm: number) => sayLength(umFromMm(Number(mm.toFixed(1))), units)
  const row = (id: string, label: string, say: ComparedRow['say'], of: Of): ComparedRow => ({
    id,
    label,
    say,
    cells: columns.map(({ sum }) => column(sum, of)),
  })
  const size =
    (axis: 0 | 1 | 2): Of =>
    ({ figures }) =>
      figures.sizeMm[axis]
  return [
    row('strength', 'Strength margin', times, ({ strength }) =>
      typeof strength === 'string' ? 'Cannot be judged' : saidMargin(strength.margin),
    ),
    row('check', 'Decided by', String, ({ strength }) =>
      typeof strength === 'string' ? strength : strength.check,
    ),
    row('width', 'Left to right', length, size(0)),
    row('depth', 'Front to back', length, size(1)),
    row('height', 'Height', length, size(2)),
    row(
      'weight',
      'Weight',
      (kg) => sayWeight(kg, units),
      ({ figures }) => figures.weightKg,
    ),
    row('parts', 'Parts', whole, ({ figures }) => figures.parts),
    row('kinds', 'Kinds of blank', whole, ({ figures }) => figures.kinds),
    row('screws', 'Screws', whole, ({ figures }) => figures.screws),
    row('settings', 'Machine settings', whole, ({ figures }) => figures.settings),
    row(
      'hours',
      'Hours at machines',
      hours,
      ({ figures }) => figures.settingSeconds + figures.cuttingSeconds,
    ),
    row(
      'area',
      'Board area, rough',
      (m2) => sayArea(m2 * MM_PER_M ** 2, units),
      ({ figures }) => figures.boardM2,
    ),
    row(
      'wood',
      'Wood, rough',
      (m3) => sayVolume(m3 * MM_PER_M ** 3, units),
      ({ figures }) => figures.roughM3,
    ),
    row(
      'cost',
      'That wood, new',
      (minor) => sayMoney(money(Math.round(minor), currency)),
      ({ figures }) => figures.woodCost?.minor ?? NO_PRICE,
    ),
    { id: 'pool', label: 'Out of the pool', say: String, cells: columns.map(({ pool }) => pool) },
  ]
}

/** Their numbers. */
export const numberRows = (columns: readonly Column[], units: LengthUnit): ComparedRow[] =>
  parameterRows(columns, (spec, value) => sayParameter(spec, value, units))
