/**
 * Variants side by side: rows of what they are compared by, which rows differ, and by how much each differs from the
 * chosen one; which parts change when numbers do. In: values as numbers with their unit, or words. Out: rows and words;
 * lengths and money are put into words by who shows them. Tests: tests/shop/compare-variants.test.ts
 */
import type { Model, ParameterSpec, ParameterValues, Part } from '#lib/core/design/model'
import { umFromMm } from '#lib/core/units/length'
import { fitsStill } from './parts-made'

/** A value of one variant; null: not known (yet). */
export type Cell = number | string | null

export interface ComparedRow {
  readonly id: string
  readonly label: string
  readonly cells: readonly Cell[]
  /** A number in words. Cells that read alike are alike. */
  readonly say: (value: number) => string
}

export interface ShownCell {
  readonly text: string | null
  /** Against the first column: more, less or just other; null where it is alike, or one of them is not known. */
  readonly against: { readonly way: 'more' | 'less' | 'other'; readonly text: string } | null
}

export interface ShownRow {
  readonly id: string
  readonly label: string
  readonly cells: readonly ShownCell[]
  readonly differs: boolean
}

const textOf = (cell: Cell, say: ComparedRow['say']): string | null =>
  typeof cell === 'number' ? say(cell) : cell

function against(first: Cell, cell: Cell, say: ComparedRow['say']): ShownCell['against'] {
  if (first === null || cell === null || textOf(first, say) === textOf(cell, say)) return null
  if (typeof first === 'string' || typeof cell === 'string') return { way: 'other', text: 'other' }
  const way = cell > first ? 'more' : 'less'
  return { way, text: `${say(Math.abs(cell - first))} ${way}` }
}

/**
 * A row as it is shown. The first column is the chosen variant.
 * @example shownRow({ id: 'rake', label: 'Rake', cells: [8, 10], say: (v) => `${v}°` }).cells[1].against?.text //=> '2° more'
 */
export function shownRow({ id, label, cells, say }: ComparedRow): ShownRow {
  const shown = cells.map((cell) => ({ text: textOf(cell, say), against: against(cells[0], cell, say) }))
  const known = new Set(shown.flatMap(({ text }) => (text === null ? [] : [text])))
  return { id, label, cells: shown, differs: known.size > 1 }
}

/** What one column of parameters is made of. */
export interface ParameterColumn {
  readonly specs: readonly ParameterSpec[]
  readonly parameters: ParameterValues
}

/** A row a parameter, in the order of the designs; a design that has no such parameter leaves its cell empty. */
export function parameterRows(
  columns: readonly ParameterColumn[],
  say: (spec: ParameterSpec, value: number | string) => string,
): ComparedRow[] {
  const specs = new Map<string, ParameterSpec>()
  for (const { specs: own } of columns)
    for (const spec of own) if (!specs.has(spec.id)) specs.set(spec.id, spec)
  return [...specs.values()].map((spec) => ({
    id: spec.id,
    label: spec.label,
    say: (value) => say(spec, value),
    cells: columns.map(({ specs: own, parameters }) => {
      const mine = own.find((s) => s.id === spec.id)
      if (!mine) return null
      const value = parameters[spec.id] ?? mine.default
      return typeof value === 'string' ? say(mine, value) : value
    }),
  }))
}

export interface ChangedParts {
  readonly kind: string
  readonly count: number
  readonly how: 'new' | 'gone' | 'size' | 'cuts'
  /** Finished sizes before and after, whole micrometres; absent where there is none. */
  readonly beforeUm?: readonly [number, number, number]
  readonly afterUm?: readonly [number, number, number]
}

const sizeUm = ({ blank }: Part): readonly [number, number, number] => [
  umFromMm(blank.lengthMm),
  umFromMm(blank.widthMm),
  umFromMm(blank.thicknessMm),
]

function changeOf(before: Part | undefined, after: Part | undefined): Omit<ChangedParts, 'count'> | null {
  if (!before && after) return { kind: after.kind, how: 'new', afterUm: sizeUm(after) }
  if (before && !after) return { kind: before.kind, how: 'gone', beforeUm: sizeUm(before) }
  if (!before || !after || fitsStill(before, after, true)) return null
  const [beforeUm, afterUm] = [sizeUm(before), sizeUm(after)]
  const how = beforeUm.join() === afterUm.join() ? 'cuts' : 'size'
  return { kind: after.kind, how, beforeUm, afterUm }
}

/** Parts that are not what they were, those of a kind that change alike together. */
export function changedParts(before: Pick<Model, 'parts'>, after: Pick<Model, 'parts'>): ChangedParts[] {
  const [old, now] = [before, after].map(({ parts }) => new Map(parts.map((part) => [part.id, part])))
  const groups = new Map<string, ChangedParts>()
  for (const id of new Set([...old.keys(), ...now.keys()])) {
    const change = changeOf(old.get(id), now.get(id))
    if (!change) continue
    const key = JSON.stringify(change)
    groups.set(key, { ...change, count: (groups.get(key)?.count ?? 0) + 1 })
  }
  return [...groups.values()]
}
