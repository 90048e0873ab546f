/**
 * Shipped designs as recipes against their twins in code, over random parameters: the same parts in the same places,
 * the same joints, volumes and notices, or refused for the same parameters. DESIGN_RUNS=1000 runs longer.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { recipes } from '#lib/core/design/designs/recipes'
import { designById } from '#lib/core/design/designs/registry'
import type { Design, Joint, Model, Part } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { recipeDesign } from '#lib/core/design/recipe/recipe-design'
import { toWorld } from '#lib/core/geometry/frame'
import { parseFormula } from '#lib/engine/formula-parser'
import { parametersOf } from '../random-parameters'
import { distance } from './distance'

const RUNS = Number(process.env.DESIGN_RUNS ?? 60)
const NEAR_MM = 1e-6

function twinOf(id: string): Design {
  const made = recipeDesign(recipes.get(id)!, { id, version: 1 }, parseFormula)
  if (!made.ok) throw new Error(JSON.stringify(made.error, null, 1))
  return made.value
}

const farCorner = ({ frame, blank }: Part) =>
  toWorld(frame, [blank.lengthMm, blank.widthMm, blank.thicknessMm])
const isSame = (a: Part, b: Part): boolean =>
  a.kind === b.kind &&
  distance(a.frame.origin, b.frame.origin) < NEAR_MM &&
  distance(farCorner(a), farCorner(b)) < NEAR_MM

/** Ids of the recipe's parts by those of the code's. */
function partners(coded: Model, recipe: Model): Map<string, Part> {
  expect(recipe.parts.length).toBe(coded.parts.length)
  return new Map(
    coded.parts.map((part) => {
      const found = recipe.parts.filter((other) => isSame(part, other))
      expect(found.length, `${part.id} at ${part.frame.origin}`).toBe(1)
      return [part.id, found[0]]
    }),
  )
}

function compareParts(coded: Model, partner: Map<string, Part>): void {
  for (const part of coded.parts) {
    const other = partner.get(part.id)!
    for (const key of ['lengthMm', 'widthMm', 'thicknessMm'] as const)
      expect(other.blank[key], `${part.id} ${key}`).toBeCloseTo(part.blank[key], 6)
    for (const axis of ['x', 'y', 'z'] as const)
      expect(distance(other.frame[axis], part.frame[axis]), `${part.id} ${axis}`).toBeLessThan(1e-9)
    expect(other.faces, part.id).toEqual(part.faces)
    expect(other.species, part.id).toBe(part.species)
    expect(other.operations.map(({ kind }) => kind).sort(), part.id).toEqual(
      part.operations.map(({ kind }) => kind).sort(),
    )
    const [a, b] = [massProperties(part).volumeMm3, massProperties(other).volumeMm3]
    expect(Math.abs(a - b) / a, part.id).toBeLessThan(1e-6)
  }
}

interface Judged {
  joints: number
  otherPatches: number
}

const pair = ({ a, b }: Joint, name = (id: string): string => id): string => `${name(a)} ${name(b)}`

function compareJoints(coded: Model, recipe: Model, partner: Map<string, Part>, judged: Judged): void {
  const others = new Map(recipe.joints.map((joint) => [pair(joint), joint]))
  expect(others.size).toBe(coded.joints.length)
  for (const joint of coded.joints) {
    const other = others.get(pair(joint, (id) => partner.get(id)!.id))
    if (other === undefined) throw new Error(`no joint ${joint.id}`)
    const plain = ({ kind, glued, grainAtA, grainAtB }: Joint) => ({ kind, glued, grainAtA, grainAtB })
    expect(plain(other), joint.id).toEqual(plain(joint))
    judged.joints++
    // Where notches cut a contact into patches, a rounding may decide which of them is the largest (contact.ts).
    if (Math.abs(other.contact.areaMm2 - joint.contact.areaMm2) > 1e-3) judged.otherPatches++
    expect(distance(other.contact.normal, joint.contact.normal), joint.id).toBeLessThan(1e-9)
    expect(other.screws.length, joint.id).toBe(joint.screws.length)
    joint.screws.forEach((screw, k) => {
      expect(other.screws[k].lengthMm).toBeCloseTo(screw.lengthMm, 6)
    })
  }
}

const words = ({ notices }: Model) =>
  notices
    .map(({ level, message, parameter }) => ({ level, message: inGeneral(message), parameter }))
    .sort((a, b) => a.message.localeCompare(b.message))

/** A recipe calls every highest surface alike, and says the side of a copy after its name. */
const inGeneral = (words: string): string =>
  words.replace(/^.*, within reach/, 'Within reach').replace(/^«[^»]*»(.*marked on the drawings)/, '«…»$1')

const fitOf = ({ fit = [] }: Model) => rounded(fit.map((line) => ({ ...line, label: inGeneral(line.label) })))

/** Numbers to a millionth. */
const rounded = (value: unknown): unknown =>
  JSON.parse(JSON.stringify(value), (_, x) => (typeof x === 'number' ? Math.round(x * 1e6) / 1e6 + 0 : x))

describe.each([...recipes.keys()])('%s', (id) => {
  const coded = designById(id)!
  const recipe = twinOf(id)

  it('has the same name and the same parameters', () => {
    expect(recipe.name).toBe(coded.name)
    expect(recipe.cures).toEqual(coded.cures)
    expect(new Map(recipe.parameters.map((spec) => [spec.id, spec]))).toEqual(
      new Map(coded.parameters.map((spec) => [spec.id, spec])),
    )
  })

  it('makes the same parts, joints and notices over random parameters, or refuses the same', {
    timeout: 300_000,
  }, () => {
    const judged = { built: 0, refused: 0, joints: 0, otherPatches: 0 }
    fc.assert(
      fc.property(parametersOf(coded), (values) => {
        const [a, b] = [coded.build(values), recipe.build(values)]
        if (!a.ok || !b.ok) {
          expect(b.ok ? 'built' : [...new Set(b.error.map((e) => e.parameter))].sort()).toEqual(
            a.ok ? 'built' : [...new Set(a.error.map((e) => e.parameter))].sort(),
          )
          if (!a.ok && !b.ok) {
            const said = new Set(a.error.map((e) => e.message))
            // The code says a shank to a tenth of a millimetre.
            for (const { message, at, parameter } of b.error)
              if (at?.startsWith('rules') && parameter !== 'screwSize') expect(said).toContain(message)
          }
          judged.refused++
          return
        }
        const partner = partners(a.value, b.value)
        compareParts(a.value, partner)
        compareJoints(a.value, b.value, partner, judged)
        expect(words(b.value)).toEqual(words(a.value))
        expect(fitOf(b.value)).toEqual(fitOf(a.value))
        expect(rounded(b.value.place)).toEqual(rounded(a.value.place))
        expect((b.value.clashes ?? []).length).toBe((a.value.clashes ?? []).length)
        expect(b.value.hardware).toEqual(a.value.hardware)
        expect(b.value.figures.map(({ label }) => label)).toEqual(a.value.figures.map(({ label }) => label))
        b.value.figures.forEach((figure, k) => {
          expect(figure.value, figure.label).toBeCloseTo(a.value.figures[k].value, 6)
        })
        expect(b.value.dimensions).toHaveLength(a.value.dimensions!.length)
        expect(new Set(b.value.use!.surfaces)).toEqual(
          new Set(a.value.use!.surfaces.map((s) => partner.get(s)!.id)),
        )
        judged.built++
      }),
      { numRuns: RUNS, seed: 47 },
    )
    expect(judged.built).toBeGreaterThan(RUNS / 8)
    expect(judged.refused).toBeGreaterThan(0)
    expect(judged.otherPatches).toBeLessThan(judged.joints / 100)
  })
})
