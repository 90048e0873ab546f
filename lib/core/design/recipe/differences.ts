/**
 * What changed from one version of a recipe to another, field by field: rows are matched by their names, so that a row
 * that was moved or stands under a new one is not told as changed. Tests: tests/core/design/recipe/differences.test.ts
 */
import type { Recipe } from './recipe'

export interface Difference {
  readonly kind: 'added' | 'removed' | 'changed'
  /** Path in the newer recipe, in the older one for what was removed. */
  readonly path: string
  /** «Part «post»: length». */
  readonly label: string
  readonly before?: string
  readonly after?: string
}

const ROOMS = {
  parameters: 'Parameter',
  derived: 'Derived value',
  rules: 'Rule',
  parts: 'Part',
  joints: 'Joint',
  figures: 'Figure',
  dimensions: 'Dimension',
  notices: 'Notice',
  place: 'Box of the place',
} as const
type Room = keyof typeof ROOMS
type Row = Readonly<Record<string, unknown>>

/** What tells a row from the others of its room. */
function keyOf(room: Room, row: Row, index: number): string {
  if (room === 'figures') return String(row.label)
  return typeof row.id === 'string' ? row.id : String(index + 1)
}

const isPlain = (value: unknown): boolean => value === undefined || typeof value !== 'object'
const said = (value: unknown): string => (typeof value === 'string' ? value : JSON.stringify(value))

/** Leaves that differ below two values. */
function compare(before: unknown, after: unknown, path: string, label: string): Difference[] {
  if (JSON.stringify(before) === JSON.stringify(after)) return []
  if (isPlain(before) || isPlain(after) || before === null || after === null) {
    if (before === undefined) return [{ kind: 'added', path, label, after: said(after) }]
    if (after === undefined) return [{ kind: 'removed', path, label, before: said(before) }]
    return [{ kind: 'changed', path, label, before: said(before), after: said(after) }]
  }
  const [a, b] = [before as Row, after as Row]
  const keys = new Set([...Object.keys(a), ...Object.keys(b)])
  return [...keys].flatMap((key) => compare(a[key], b[key], `${path}.${key}`, `${label}, ${wordOf(key)}`))
}

/** @example wordOf('0') //=> '1' */
const wordOf = (key: string): string => (/^\d+$/.test(key) ? String(Number(key) + 1) : key)

function compareRooms(room: Room, before: readonly Row[], after: readonly Row[]): Difference[] {
  const old = new Map(before.map((row, i) => [keyOf(room, row, i), { row, i }]))
  const now = new Map(after.map((row, i) => [keyOf(room, row, i), { row, i }]))
  const name = (key: string): string => `${ROOMS[room]} «${key}»`
  const removed = [...old].flatMap(([key, { i }]): Difference[] =>
    now.has(key) ? [] : [{ kind: 'removed', path: `${room}.${i}`, label: name(key) }],
  )
  const rest = [...now].flatMap(([key, { row, i }]): Difference[] => {
    const was = old.get(key)
    const path = `${room}.${i}`
    return was === undefined
      ? [{ kind: 'added', path, label: name(key) }]
      : compare(was.row, row, path, name(key)).map((d) => ({
          ...d,
          label: d.label.replace(/, id$/, ', name'),
        }))
  })
  return [...removed, ...rest]
}

/** @example differences(recipe, recipe) //=> [] */
export function differences(before: Recipe, after: Recipe): Difference[] {
  const rooms = (Object.keys(ROOMS) as Room[]).flatMap((room) =>
    compareRooms(room, (before[room] ?? []) as unknown as Row[], (after[room] ?? []) as unknown as Row[]),
  )
  return [
    ...compare(before.name, after.name, 'name', 'Name'),
    ...compare(before.goodFor, after.goodFor, 'goodFor', 'What it is good for'),
    ...rooms,
    ...compare(before.middle, after.middle, 'middle', 'Middle'),
    ...compare(before.use, after.use, 'use', 'Use'),
    ...compare(before.place, after.place, 'place', 'Place'),
    ...compare(before.hangs, after.hangs, 'hangs', 'Hangs'),
  ]
}
