/** What a recipe says of people and place: which lines, of which sizes, for whom. */
import { describe, expect, it } from 'vitest'
import { crateRecipe } from '#lib/core/design/designs/crate/crate-recipe'
import { legsSuited } from '#lib/core/design/fit/fit-lines'
import { sitterParameters } from '#lib/core/design/fit/place-parameters'
import type { Model } from '#lib/core/design/model'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { parseFormula } from '#lib/engine/formula-parser'
import { recipeInput } from '#lib/engine/recipe-input'

function modelOf(recipe: Recipe, values = {}): Model {
  const made = recipeDesign(recipeInput.parse(recipe), { id: 'own', version: 1 }, parseFormula)
  const built = made.ok ? made.value.build(values) : made
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}

const sat: Recipe = { ...crateRecipe, fit: { seat: { height: 'height', depth: 'width', width: 'length' } } }
const lines = (model: Model) => model.fit!.map(({ id, valueMm, parameter }) => [id, valueMm, parameter])
const seatHeight = (model: Model) => model.fit!.find(({ id }) => id === 'seatHeight')!

describe('fit of a recipe', () => {
  it('is its way in alone where it asks for no more', () => {
    expect(lines(modelOf(crateRecipe)).map(([id]) => id)).toEqual(['door', 'turn'])
  })

  it('judges the sizes that its formulas give, and names their parameters', () => {
    expect(lines(modelOf(sat, { height: 430 })).slice(0, 3)).toEqual([
      ['seatHeight', 430, 'height'],
      ['seatDepth', 300, 'width'],
      ['seatWidth', 400, 'length'],
    ])
  })

  it('is for any adult in 25 mm shoes, or for whom the parameters name', () => {
    expect(seatHeight(modelOf(sat, { height: 430 })).share).toBeCloseTo(legsSuited(430, 25), 12)
    const who: Recipe = { ...sat, parameters: [...sat.parameters, ...sitterParameters] }
    const own = seatHeight(modelOf(who, { sitter: 'own', popliteal: 380, shoes: 10, height: 430 }))
    // From 60 below to 40 above the hollow of the knee in shoes.
    expect([own.lowMm, own.highMm]).toEqual([330, 430])
  })

  it('says a line only when it is asked for: a counter over a tall crate', () => {
    const table = { seat: 'height', top: '910', underside: '870', when: 'height > 300' }
    const tall: Recipe = { ...crateRecipe, fit: { table } }
    expect(lines(modelOf(tall)).map(([id]) => id)).toEqual(['door', 'turn'])
    expect(lines(modelOf(tall, { height: 600 })).slice(0, 2)).toEqual([
      ['thighRoom', 270, expect.any(String)],
      ['elbows', 310, expect.any(String)],
    ])
  })

  it('a wall that the piece stands into is a clash that names its parameter; one that is not there is none', () => {
    const wall = {
      id: 'wall',
      name: 'Wall',
      when: 'width > 200',
      min: ['-100', 'width - 10', '0'],
      max: ['1000', 'width + 50', '900'],
      parameter: 'width',
    } as const
    const near: Recipe = { ...crateRecipe, place: [wall] }
    const said = modelOf(near).notices.find(({ message }) => message.includes('into «Wall»'))
    expect(said).toMatchObject({ level: 'stop', parameter: 'width' })
    expect(modelOf(near, { width: 200, bottomBoards: 1 }).place).toEqual([])
  })

  it('a formula that is no length is refused at its field', () => {
    const wrong: Recipe = { ...crateRecipe, fit: { reach: { height: 'slats' } } }
    const made = recipeDesign(wrong, { id: 'own', version: 1 }, parseFormula)
    expect(made.ok ? [] : made.error.map(({ path }) => path)).toEqual(['fit.reach.height'])
  })
})
