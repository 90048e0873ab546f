/** Reading and changing a recipe by path: `parts.3.length`. Nothing is changed in place. */
import type { Recipe } from '#lib/core/design/recipe/recipe'

type Box = Readonly<Record<string, unknown>> | readonly unknown[]

const keysOf = (path: string): string[] => (path === '' ? [] : path.split('.'))

export function valueAt(recipe: Recipe, path: string): unknown {
  return keysOf(path).reduce<unknown>(
    (box, key) => (box as Record<string, unknown> | undefined)?.[key],
    recipe,
  )
}

function put(box: unknown, keys: readonly string[], value: unknown): unknown {
  if (keys.length === 0) return value
  const [key, ...rest] = keys
  if (Array.isArray(box)) return box.map((item, i) => (String(i) === key ? put(item, rest, value) : item))
  const { [key]: old, ...others } = (box ?? {}) as Record<string, unknown>
  const next = put(old, rest, value)
  // In its place, so that saving again what is alike is alike.
  if (next === undefined) return others
  return key in ((box ?? {}) as object) ? { ...(box as object), [key]: next } : { ...others, [key]: next }
}

/** @param value undefined takes the field away */
export const withValue = (recipe: Recipe, path: string, value: unknown): Recipe =>
  put(recipe, keysOf(path), value) as Recipe

/** Without the row at a path. */
export function takenOut(recipe: Recipe, path: string): Recipe {
  const keys = keysOf(path)
  const list = valueAt(recipe, keys.slice(0, -1).join('.')) as Box
  const rest = (list as readonly unknown[]).filter((_, i) => String(i) !== keys.at(-1))
  return withValue(recipe, keys.slice(0, -1).join('.'), rest)
}
