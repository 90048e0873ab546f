import { expect, test } from 'vitest'
import { recipes } from '#lib/core/design/designs/recipes'
import { recipeInput } from '#lib/engine/recipe-input'

test.each([...recipes])(
  '%s: the shipped recipe is of the right shape, before and after JSON',
  (_, recipe) => {
    const read = recipeInput.safeParse(JSON.parse(JSON.stringify(recipe)))
    expect(read.error?.issues).toBeUndefined()
    expect(read.data).toEqual(recipe)
  },
)

const [[, crate]] = [...recipes].filter(([id]) => id === 'crate')
test.each([
  ['a field that there is not', { ...crate, colour: 'red' }],
  ['another format', { ...crate, format: 2 }],
  ['no parts', { ...crate, parts: undefined }],
  ['a number for a formula', { ...crate, middle: { x: 5, y: '5' } }],
  ['a formula as long as a page', { ...crate, middle: { x: '1'.repeat(2000), y: '5' } }],
  ['too many rows', { ...crate, rules: Array(61).fill(crate.rules[0]) }],
  ['a wood that there is not', { ...crate, parts: [{ ...crate.parts[0], species: 'unobtainium' }] }],
  ['a prototype', JSON.parse(JSON.stringify(crate).replace('{', '{"__proto__":{"a":1},'))],
  ['a function', { ...crate, name: () => 'x' }],
  ['not a number', { ...crate, parameters: [{ ...crate.parameters[0], min: Number.NaN }] }],
  ['no recipe', 'crate'],
  ['nothing', null],
])('%s is refused', (_, value) => {
  expect(recipeInput.safeParse(value).success).toBe(false)
})
