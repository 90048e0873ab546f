/** What is wrong with a piece although its formulas are right: said, with the row, while the piece is still shown. */
import { describe, expect, it } from 'vitest'
import { crateRecipe } from '#lib/core/design/designs/crate/crate-recipe'
import { plantStandRecipe } from '#lib/core/design/designs/plant-stand/plant-stand-recipe'
import { recipes } from '#lib/core/design/designs/recipes'
import type { Notice } from '#lib/core/design/model'
import { readParameters } from '#lib/core/design/parameters'
import { checkRecipe } from '#lib/core/design/recipe/check-recipe'
import type { Recipe, RecipePart } from '#lib/core/design/recipe/recipe'
import { parametersOf, recipeDesign, soundnessOf } from '#lib/core/design/recipe/recipe-design'
import { parseFormula } from '#lib/engine/formula-parser'

function builtOf(recipe: Recipe) {
  const made = recipeDesign(recipe, { id: 'own', version: 1 }, parseFormula)
  if (!made.ok) throw new Error(JSON.stringify(made.error))
  return made.value.build({})
}

function noticesOf(recipe: Recipe): readonly Notice[] {
  const built = builtOf(recipe)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value.notices.filter(({ at }) => at !== undefined)
}

const withPart = (recipe: Recipe, id: string, change: Partial<RecipePart>): Recipe => ({
  ...recipe,
  parts: recipe.parts.map((part) => (part.id === id ? { ...part, ...change } : part)),
})
const rowOf = (recipe: Recipe, id: string): string => `parts.${recipe.parts.findIndex((p) => p.id === id)}`

it.each([...recipes.keys()])('%s as it is shipped: nothing', (id) => {
  expect(noticesOf(recipes.get(id)!)).toEqual([])
})

describe('two parts in the same wood', () => {
  it('are named once for a row, with how deep and how many more', () => {
    const deep = withPart(crateRecipe, 'bottom', { z: '5' })
    const loose = { ...deep, joints: crateRecipe.joints.filter((joint) => joint.id !== 'bottom') }
    const said = noticesOf(loose).filter(({ message }) => message.includes('same wood'))
    expect(said.map(({ level, at }) => [level, at])).toContainEqual(['stop', rowOf(crateRecipe, 'bottom')])
    expect(said.find(({ message }) => message.includes('Post'))!.message).toMatch(
      /^«Post, left front» and «Bottom board 1 from the front» are in the same wood, 5 mm deep, and 3 more like them\./,
    )
  })
})

it('a part in the way of a screw is named too, though the piece is refused for the screw', () => {
  const { face, grain } = crateRecipe.parts.find(({ id }) => id === 'bottom')!
  const sizes = { length: '300', width: '90', thickness: '19', x: '0', y: '0', z: '0' }
  const board: RecipePart = { id: 'board', name: 'Board', kind: 'board', sides: 'one', face, grain, ...sizes }
  const recipe = { ...crateRecipe, parts: [...crateRecipe.parts, board] }
  const built = builtOf(recipe)
  expect(built.ok ? [] : built.error.map(({ at }) => at)).toEqual(['joints.3.screws.length'])
  const checked = checkRecipe(recipe, parseFormula)
  if (!checked.ok) throw new Error(JSON.stringify(checked.error))
  const read = readParameters(parametersOf(recipe), {})
  const said = soundnessOf(checked.value, read.ok ? read.value : {})
  expect(said.map(({ at }) => at)).toContain(`parts.${crateRecipe.parts.length}`)
})

describe('the floor', () => {
  const raised = (mm: number) => ({
    ...plantStandRecipe,
    parts: plantStandRecipe.parts.map((part) => ({ ...part, z: `${part.z} + ${mm}` })),
  })

  it('a piece that floats', () => {
    expect(noticesOf(raised(12))).toMatchObject([
      { level: 'stop', message: expect.stringContaining('ends 12 mm above it'), at: 'parts.0' },
    ])
  })

  it('a leg that goes into it, one that does not reach it', () => {
    const sunk = withPart(plantStandRecipe, 'legLeft', { length: 'potHeight + lip + 4', z: '-4' })
    expect(noticesOf(sunk)).toMatchObject([
      { level: 'stop', message: '«Leg, left» goes 4 mm into the floor.', at: rowOf(sunk, 'legLeft') },
    ])
    const short = withPart(plantStandRecipe, 'legLeft', { length: 'potHeight + lip - 2', z: '2' })
    expect(noticesOf(short)).toMatchObject([
      { level: 'caution', message: expect.stringMatching(/^«Leg, left» ends 2 mm above the floor:/) },
    ])
  })

  it('is not asked of what hangs on a wall', () => {
    expect(noticesOf({ ...raised(12), hangs: 'wall' })).toEqual([])
  })
})

describe('joints', () => {
  it('without contact are refused at their row', () => {
    const apart = withPart(crateRecipe, 'cleat', { z: 'thickness + 20' })
    const built = builtOf(apart)
    expect(built.ok ? [] : built.error).toMatchObject([
      {
        at: `joints.${crateRecipe.joints.findIndex((joint) => joint.id === 'bottom')}.b`,
        message: expect.stringContaining('do not touch'),
      },
    ])
  })

  it('whose screws come out are refused at the length of their row', () => {
    const joints = crateRecipe.joints.map((joint) =>
      joint.id === 'bottom' ? { ...joint, screws: { count: '2', length: '90' } } : joint,
    )
    const built = builtOf({ ...crateRecipe, joints })
    expect(built.ok ? [] : built.error.map(({ at }) => at)).toEqual([
      `joints.${joints.findIndex((joint) => joint.id === 'bottom')}.screws.length`,
    ])
  })
})
