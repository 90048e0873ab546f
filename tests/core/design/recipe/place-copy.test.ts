/** Copies are mirror images: every corner, cut and notch of the right and back copies against those of the first. */
import { beforeAll, describe, expect, it } from 'vitest'
import { crateRecipe } from '#lib/core/design/designs/crate/crate-recipe'
import type { Model, Part } from '#lib/core/design/model'
import { depthInWood, massProperties, wallsOf } from '#lib/core/design/part-shape'
import { partSolid } from '#lib/core/design/part-solid'
import type { Recipe, RecipePart } from '#lib/core/design/recipe/recipe'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { isRightHanded, toLocal, toWorld } from '#lib/core/geometry/frame'
import type { SolidKernel } from '#lib/core/geometry/solid'
import type { Vec3 } from '#lib/core/geometry/vec3'
import { seededRng } from '#lib/core/units/rng'
import { parseFormula } from '#lib/engine/formula-parser'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { distance } from './distance'

const shaped: RecipePart = {
  id: 'leg',
  name: 'Leg',
  kind: 'leg',
  sides: 'corners',
  length: '300',
  width: '60',
  thickness: '30',
  grain: 'z',
  face: 'left',
  x: '50',
  y: '40',
  z: '10',
  turns: [
    { about: 'y', by: '8' },
    { about: 'x', by: '-5' },
    { about: 'z', by: '20' },
  ],
  cuts: [
    { kind: 'plane', end: 'down', x: '0', y: '0', z: '30', facing: 'down', turns: [{ about: 'x', by: '3' }] },
    { kind: 'angle', end: 'up', mitre: '12', bevel: '7' },
  ],
  notches: [
    { face: 'left', along: '120', width: '30', depth: '10', skew: '15' },
    { face: 'front', along: '200', width: '20', depth: '12' },
  ],
  holes: [{ face: 'right', along: '150', across: '15', diameter: '8', depth: '20' }],
  edgeBevels: [{ edge: 'back', by: '10' }],
  tapers: [{ face: 'right', end: 'down', length: '120', depth: '9' }],
  chamfers: [
    { between: ['left', 'front'], width: '3' },
    { between: ['left', 'back'], width: '0' },
  ],
  engravings: [
    { face: 'left', along: '240', across: '25', length: '40', width: '12', depth: '1.5' },
    { face: 'right', along: '0', across: '0', length: '0', width: '12', depth: '1' },
  ],
}
const recipe: Recipe = {
  ...crateRecipe,
  middle: { x: '400', y: '250' },
  derived: [],
  rules: [],
  parts: [shaped],
  joints: [],
  figures: [],
  dimensions: [],
  notices: [],
  use: { kind: 'shelf', surfaces: ['leg'] },
}

function modelOf(): Model {
  const made = recipeDesign(recipe, { id: 'x', version: 1 }, parseFormula)
  const built = made.ok ? made.value.build({}) : made
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}

/** How deep a point of the world lies in a part's wood. */
const depthIn = (part: Part, p: Vec3): number => depthInWood(wallsOf(part), toLocal(part.frame, p))
const holeOf = (part: Part) => part.operations.find((op) => op.kind === 'hole')!

const model = modelOf()
const [first] = model.parts
let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

it('a chamfer and a field of nothing are none', () => {
  const kinds = first.operations.map(({ kind }) => kind)
  expect(kinds.filter((kind) => kind === 'chamfer')).toHaveLength(1)
  expect(kinds.filter((kind) => kind === 'engravedField')).toHaveLength(1)
})

describe.each([
  ['leg-left-back', ([x, y, z]: Vec3): Vec3 => [x, 500 - y, z]],
  ['leg-right-front', ([x, y, z]: Vec3): Vec3 => [800 - x, y, z]],
  ['leg-right-back', ([x, y, z]: Vec3): Vec3 => [800 - x, 500 - y, z]],
])('%s', (id, mirror) => {
  const copy = model.parts.find((part) => part.id === id)!

  it('every point is as deep in its wood as the mirrored point in the wood of the first', () => {
    const rng = seededRng(9)
    let inWood = 0
    for (let k = 0; k < 2000; k++) {
      const p: Vec3 = [40 + rng.next() * 120, 20 + rng.next() * 120, rng.next() * 330]
      const depth = depthIn(first, p)
      if (depth > 0) inWood++
      expect(depthIn(copy, mirror(p))).toBeCloseTo(depth, 6)
    }
    expect(inWood).toBeGreaterThan(100)
  })

  it('its hole is the mirrored one, its frame is right-handed, its volume the same', () => {
    const [a, b] = [holeOf(first), holeOf(copy)]
    if (a.kind !== 'hole' || b.kind !== 'hole') throw new Error('no hole')
    expect(distance(toWorld(copy.frame, b.point), mirror(toWorld(first.frame, a.point)))).toBeLessThan(1e-9)
    const tip = (part: Part, { point, direction }: typeof a): Vec3 =>
      toWorld(part.frame, [0, 1, 2].map((k) => point[k] + direction[k]) as unknown as Vec3)
    expect(distance(tip(copy, b), mirror(tip(first, a)))).toBeLessThan(1e-9)
    expect(isRightHanded(copy.frame)).toBe(true)
    expect(massProperties(copy).volumeMm3).toBeCloseTo(massProperties(first).volumeMm3, 3)
  })

  it('the solid library finds the same volume in the copy as in the first', () => {
    const [a, b] = [first, copy].map((part) => partSolid(kernel, part).volumeMm3())
    expect(Math.abs(a - b) / a).toBeLessThan(1e-6)
  })
})
