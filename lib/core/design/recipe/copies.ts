/** Rows of parts and their copies: left and right, front and back, several in a row. */
import type { End, Side } from '../placed-part'
import type { Value, Values } from './evaluate'
import { LIMITS, type RecipePart, type Sides } from './recipe'
import { blame, countOf, holds, type Run, say } from './recipe-run'

export interface Copy {
  readonly row: RecipePart
  /** Path of the row: `parts.3`. */
  readonly at: string
  readonly id: string
  readonly name: string
  /** Absent: it has no side. The left and the front copy are as written, the others mirrored. */
  readonly x?: Side
  readonly y?: End
  readonly i: number
  /** The names that its formulas may use. */
  readonly values: Values
}

const SIDES_X: Readonly<Record<Sides, readonly (Side | undefined)[]>> = {
  one: [undefined],
  leftRight: ['left', 'right'],
  frontBack: [undefined],
  corners: ['left', 'right'],
}
const SIDES_Y: Readonly<Record<Sides, readonly (End | undefined)[]>> = {
  one: [undefined],
  leftRight: [undefined],
  frontBack: ['front', 'back'],
  corners: ['front', 'back'],
}

export interface Place {
  readonly x?: Side | undefined
  readonly y?: End | undefined
  readonly i: number
}

/** What the names of a copy are worth. */
export const valuesFor = (values: Values, { x, y, i }: Place): Map<string, Value> =>
  new Map<string, Value>([
    ...values,
    ['i', i],
    ['n', i + 1],
    ['atLeft', x === 'left'],
    ['atRight', x === 'right'],
    ['atFront', y === 'front'],
    ['atBack', y === 'back'],
  ])

function copyOf(run: Run, row: RecipePart, at: string, place: Place): Copy {
  const { x, y, i } = place
  const isRow = row.repeat !== undefined
  const values = valuesFor(run.values, place)
  const sides = [x, y].filter((side) => side !== undefined)
  const number = isRow ? [String(i + 1)] : []
  const named = say(run, row.name, 'copy', values)
  const counted = isRow && !row.name.includes('{') ? `${named} ${i + 1}` : named
  return {
    row,
    at,
    id: [row.id, ...sides, ...number].join('-'),
    name: sides.length === 0 ? counted : `${counted}, ${sides.join(' ')}`,
    ...(x === undefined ? {} : { x }),
    ...(y === undefined ? {} : { y }),
    i,
    values,
  }
}

/** Copies of all rows in order; none where there would be too many. */
export function copiesOf(run: Run): Copy[] {
  const copies: Copy[] = []
  const rows = run.checked.recipe.parts
  for (let k = 0; k < rows.length; k++) {
    const row = rows[k]
    if (!holds(run, row.when, run.values)) continue
    const at = `parts.${k}`
    const asked = {
      formula: row.repeat ?? '1',
      at: `${at}.repeat`,
      values: run.values,
      what: `«${row.name}»: how many`,
    }
    const count = row.repeat === undefined ? 1 : countOf(run, asked, LIMITS.parts)
    const [xs, ys] = [SIDES_X[row.sides], SIDES_Y[row.sides]]
    if (copies.length + count * xs.length * ys.length > LIMITS.parts) {
      blame(run, asked.at, row.repeat, `More than ${LIMITS.parts} parts would be made.`)
      return []
    }
    for (const x of xs)
      for (const y of ys) for (let i = 0; i < count; i++) copies.push(copyOf(run, row, at, { x, y, i }))
  }
  return copies
}
