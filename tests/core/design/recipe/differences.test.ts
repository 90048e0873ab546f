import { expect, test } from 'vitest'
import { crateRecipe } from '#lib/core/design/designs/crate/crate-recipe'
import { differences } from '#lib/core/design/recipe/differences'
import type { Recipe } from '#lib/core/design/recipe/recipe'

test('nothing changed, nothing told; a row that was moved is the same row', () => {
  expect(differences(crateRecipe, structuredClone(crateRecipe))).toEqual([])
  const moved: Recipe = { ...crateRecipe, derived: crateRecipe.derived.toReversed() }
  expect(differences(crateRecipe, moved)).toEqual([])
})

test('each field that changed, each row that came or went', () => {
  const [first, ...rest] = crateRecipe.parts
  const newer: Recipe = {
    ...crateRecipe,
    name: 'Deep crate',
    parts: [{ ...first, length: 'height + 20' }, ...rest.slice(1), { ...first, id: 'lid' }],
    joints: crateRecipe.joints.map((joint, k) =>
      k === 0 ? { ...joint, screws: { count: '3', length: 'screwLength' } } : joint,
    ),
  }
  expect(differences(crateRecipe, newer)).toEqual([
    { kind: 'changed', path: 'name', label: 'Name', before: 'Storage crate', after: 'Deep crate' },
    { kind: 'removed', path: 'parts.1', label: 'Part «cleat»' },
    {
      kind: 'changed',
      path: 'parts.0.length',
      label: 'Part «post», length',
      before: 'height - thickness',
      after: 'height + 20',
    },
    { kind: 'added', path: 'parts.4', label: 'Part «lid»' },
    {
      kind: 'changed',
      path: 'joints.0.screws.count',
      label: 'Joint «long», screws, count',
      before: 'longSlat > 45 ? 2 : 1',
      after: '3',
    },
  ])
})

test('a field that came or went', () => {
  const newer: Recipe = { ...crateRecipe, hangs: 'wall' }
  expect(differences(crateRecipe, newer)).toEqual([
    { kind: 'added', path: 'hangs', label: 'Hangs', after: 'wall' },
  ])
  expect(differences(newer, crateRecipe)[0]).toMatchObject({ kind: 'removed', before: 'wall' })
})
