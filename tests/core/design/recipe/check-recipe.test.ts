import { describe, expect, it } from 'vitest'
import { crateRecipe } from '#lib/core/design/designs/crate/crate-recipe'
import { recipes } from '#lib/core/design/designs/recipes'
import { checkRecipe } from '#lib/core/design/recipe/check-recipe'
import { LIMITS, type Recipe, type RecipeJoint, type RecipePart } from '#lib/core/design/recipe/recipe'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { parseFormula } from '#lib/engine/formula-parser'

type Changes = { readonly [path: string]: unknown }

/** The crate with other values at some paths. */
function changed(changes: Changes): Recipe {
  const recipe = structuredClone(crateRecipe) as unknown as Record<string, unknown>
  for (const [path, value] of Object.entries(changes)) {
    const keys = path.split('.')
    const room = keys.slice(0, -1).reduce((at, key) => at[key] as Record<string, unknown>, recipe)
    room[keys.at(-1)!] = value
  }
  return recipe as unknown as Recipe
}
function faultsOf(changes: Changes) {
  const checked = checkRecipe(changed(changes), parseFormula)
  return checked.ok ? [] : checked.error
}
function refusalsOf(changes: Changes, values = {}) {
  const made = recipeDesign(changed(changes), { id: 'x', version: 1 }, parseFormula)
  if (!made.ok) throw new Error(JSON.stringify(made.error))
  const built = made.value.build(values)
  return built.ok ? [] : built.error
}

describe('before any number is known', () => {
  it('the shipped recipes have no fault', () => {
    for (const recipe of recipes.values()) expect(checkRecipe(recipe, parseFormula).ok).toBe(true)
  })

  it.each<[string, Changes, string, RegExp]>([
    [
      'a name that is not there',
      { 'parts.0.length': 'heigth - thickness' },
      'parts.0.length',
      /Do you mean «height»/,
    ],
    [
      'an angle for a length',
      {
        'parameters.0.unit': 'deg',
        'parameters.0.max': 90,
        'parameters.0.default': 40,
        'parameters.0.min': 0,
      },
      'middle.x',
      /must be a length in mm; it is an angle/,
    ],
    [
      'a plain number for a length',
      { 'parts.0.width': 'slats' },
      'parts.0.width',
      /must be a length in mm; it is a plain number/,
    ],
    ['a length for a count', { 'parts.2.repeat': 'length' }, 'parts.2.repeat', /must be a plain number/],
    ['the number of a copy where there is none', { 'middle.x': 'i * 2 mm' }, 'middle.x', /no name «i»/],
    ['yes or no for a size', { 'parts.0.length': 'slats > 2' }, 'parts.0.length', /it is yes or no/],
    [
      'a sentence with a wrong name',
      { 'rules.0.message': 'It is {clet} long.' },
      'rules.0.message',
      /In \{clet\}: There is no name «clet»/,
    ],
    ['an open brace', { 'rules.0.message': 'It is {cleat long.' }, 'rules.0.message', /closing one/],
    ['a row that is not there', { 'joints.0.b': 'pst' }, 'joints.0.b', /Do you mean «post»/],
    [
      'a parameter that is not there',
      { 'rules.0.parameter': 'posts' },
      'rules.0.parameter',
      /Do you mean «post»/,
    ],
    ['two names alike', { 'derived.0.id': 'width' }, 'derived.0.id', /two names «width»/],
    ['a name that means something', { 'derived.0.id': 'sin' }, 'derived.0.id', /means something already/],
    ['a name of every object', { 'derived.0.id': 'constructor' }, 'derived.0.id', /means something already/],
    ['a face along the grain', { 'parts.0.face': 'up' }, 'parts.0.face', /along the grain/],
    [
      'a default out of its range',
      { 'parameters.0.default': 5000 },
      'parameters.0.default',
      /between 220 and 900/,
    ],
    ['a range upside down', { 'parameters.0.min': 950 }, 'parameters.0.max', /less than the least/],
    ['no part at all', { parts: [] }, 'parts', /one part at least/],
    ['two rows alike', { 'parts.1.id': 'post' }, 'parts.1.id', /two rows «post»/],
    [
      'a notch in an end',
      { 'parts.0.notches': [{ face: 'up', along: '10', width: '10', depth: '5' }] },
      'parts.0.notches.0.face',
      /not into an end/,
    ],
    [
      'a cut at a face',
      { 'parts.0.cuts': [{ kind: 'angle', end: 'left', mitre: '5', bevel: '0' }] },
      'parts.0.cuts.0.end',
      /end of the grain/,
    ],
  ])('%s: said at its field', (_, changes, path, sentence) => {
    const fault = faultsOf(changes).find((each) => each.path === path)
    expect(fault?.message ?? JSON.stringify(faultsOf(changes))).toMatch(sentence)
  })

  it('a circle is named from name to name', () => {
    const faults = faultsOf({
      'derived.0.formula': 'longSlat + 1',
      'derived.1.formula': 'endSlat * 2',
      'derived.2.formula': 'side - 3',
    })
    expect(faults).toHaveLength(1)
    expect(faults[0].path).toBe('derived.0.formula')
    expect(faults[0].message).toContain('side → longSlat → endSlat → side')
    expect(faultsOf({ 'derived.0.formula': 'side' })[0].message).toContain('side → side')
  })

  it('derived values may stand in any order', () => {
    const recipe = { ...crateRecipe, derived: crateRecipe.derived.toReversed() }
    const [a, b] = [crateRecipe, recipe].map((each) => {
      const made = recipeDesign(each, { id: 'x', version: 1 }, parseFormula)
      const built = made.ok ? made.value.build({}) : made
      return built.ok ? built.value : built.error
    })
    expect(b).toEqual(a)
  })
})

describe('with numbers', () => {
  it.each<[string, Changes, string, RegExp]>([
    [
      'a division by nothing',
      { 'derived.0.formula': 'height / (slats - slats)' },
      'derived.0.formula',
      /«side» cannot be worked out/,
    ],
    [
      'a root of less than nothing',
      { 'parts.0.width': 'sqrt(post * (post - 100))' },
      'parts.0.width',
      /cannot be worked out/,
    ],
    [
      'a negative size',
      { 'parts.0.length': 'thickness - height' },
      'parts.0.length',
      /«Post, left front»: its length would be -236 mm; it must be more than nothing\./,
    ],
    ['a part as long as a street', { 'parts.0.length': 'height * 1000' }, 'parts.0.length', /far too large/],
    [
      'half a slat',
      { 'parts.2.repeat': 'slats / 2' },
      'parts.2.repeat',
      /would be 1\.5; it must be a whole number/,
    ],
    ['a thousand million slats', { 'parts.2.repeat': '1000000000' }, 'parts.2.repeat', /far too large/],
    ['more parts than there may be', { 'parts.2.repeat': '150' }, 'parts.2.repeat', /More than 200 parts/],
    ['minus one part', { 'parts.2.repeat': '0 - slats' }, 'parts.2.repeat', /from 0 to 200/],
    [
      'a power beyond all bounds',
      { 'parts.0.length': '9 ^ 9 ^ 9 * 1 mm' },
      'parts.0.length',
      /cannot be worked out/,
    ],
    [
      'a cut that leaves nothing',
      { 'parts.0.cuts': [{ kind: 'plane', end: 'up', x: '0', y: '0', z: '-50', facing: 'up' }] },
      'parts.0.cuts',
      /Nothing would be left of «Post, left front»/,
    ],
    [
      'a notch right through',
      { 'parts.0.notches': [{ face: 'front', along: '50', width: '10', depth: 'post' }] },
      'parts.0.notches.0.depth',
      /cut it through/,
    ],
    [
      'no part for these numbers',
      {
        'parts.0.when': 'slats > 9',
        'parts.1.when': 'slats > 9',
        'parts.2.when': 'slats > 9',
        'parts.3.when': 'slats > 9',
        'parts.4.when': 'slats > 9',
      },
      'parts',
      /No part/,
    ],
    [
      'too many screws in a joint',
      { 'joints.0.screws.count': '41' },
      'joints.0.screws.count',
      /from 0 to 40/,
    ],
  ])('%s: said at its field, with a parameter', (_, changes, at, sentence) => {
    const refusals = refusalsOf(changes)
    const refusal = refusals.find((each) => each.at === at)
    expect(refusal?.message ?? JSON.stringify(refusals)).toMatch(sentence)
    expect(refusal?.message).not.toMatch(/NaN|Infinity/)
    expect(refusal?.parameter).toMatch(/^\w+$/)
  })

  it('a rule that does not hold names its parameter and fills in the numbers', () => {
    expect(refusalsOf({}, { slats: 8, height: 120 })).toContainEqual({
      at: 'rules.1',
      parameter: 'slats',
      message: 'The slats would be 1.75 mm wide; they need 30 mm. Fewer slats or smaller gaps would do.',
    })
  })

  it('a fault of a derived value names the parameter behind it', () => {
    const [first] = refusalsOf({
      'derived.1.formula': 'side * slatGap / (slatGap - slatGap)',
      'derived.0.formula': 'thickness',
    })
    expect(first).toMatchObject({ at: 'derived.1.formula', parameter: 'slatGap' })
  })
})

describe('recipes that mean harm are refused and do not hold up whoever opens them', () => {
  const board = (id: string, more: Partial<RecipePart> = {}): RecipePart => ({
    ...crateRecipe.parts[0],
    id,
    name: id,
    sides: 'one',
    ...more,
  })
  const joint = (id: string, more: Partial<RecipeJoint> = {}): RecipeJoint => ({
    ...crateRecipe.joints[0],
    id,
    ...more,
  })

  it('a chain of derived values that doubles at each step', () => {
    const derived = Array.from({ length: LIMITS.derived }, (_, k) => ({
      id: `d${k}`,
      unit: 'number' as const,
      formula: k === 0 ? '2' : `d${k - 1} * d${k - 1}`,
    }))
    const made = recipeDesign({ ...crateRecipe, derived }, { id: 'x', version: 1 }, parseFormula)
    expect(made.ok).toBe(false)
    const alone: Recipe = {
      ...crateRecipe,
      derived,
      rules: [],
      joints: [],
      figures: [],
      dimensions: [],
      notices: [],
      use: { kind: 'shelf', surfaces: [] },
      parts: [board('a', { length: 'd119 * 1 mm' })],
    }
    const built = recipeDesign(alone, { id: 'x', version: 1 }, parseFormula)
    if (!built.ok) throw new Error(JSON.stringify(built.error))
    const result = built.value.build({})
    expect(!result.ok && result.error.some(({ at }) => at?.startsWith('derived'))).toBe(true)
  })

  it('a hundred rows of joints between two hundred parts', () => {
    const many: Recipe = {
      ...crateRecipe,
      parts: [board('a', { repeat: '200', x: 'i * 40 mm' })],
      joints: Array.from({ length: LIMITS.jointRows }, (_, k) => joint(`j${k}`, { a: 'a', b: 'a' })),
      use: { kind: 'shelf', surfaces: ['a'] },
    }
    const made = recipeDesign(many, { id: 'x', version: 1 }, parseFormula)
    if (!made.ok) throw new Error(JSON.stringify(made.error))
    const built = made.value.build({})
    expect(!built.ok && built.error[0]).toMatchObject({
      at: 'joints',
      message: 'More than 250 joints would be made.',
    })
  })

  it('thirty parts in one place with a screw from each of one half into each of the other', () => {
    const many: Recipe = {
      ...crateRecipe,
      parts: [board('a', { repeat: '15' }), board('b', { repeat: '15', y: 'thickness + post' })],
      joints: [joint('j', { a: 'a', b: 'b', screws: { count: '1', length: '38' } })],
      use: { kind: 'shelf', surfaces: ['a'] },
    }
    const made = recipeDesign(many, { id: 'x', version: 1 }, parseFormula)
    if (!made.ok) throw new Error(JSON.stringify(made.error))
    const built = made.value.build({})
    expect(built.ok).toBe(false)
    if (!built.ok) for (const { message } of built.error) expect(message).toMatch(/\.$/)
  })

  it('more rows than there may be', () => {
    const rows = Array.from({ length: LIMITS.partRows + 1 }, (_, k) => board(`p${k}`))
    const checked = checkRecipe({ ...crateRecipe, parts: rows }, parseFormula)
    expect(
      !checked.ok &&
        checked.error.some(({ path, message }) => path === 'parts' && /At most 80/.test(message)),
    ).toBe(true)
  })
})
