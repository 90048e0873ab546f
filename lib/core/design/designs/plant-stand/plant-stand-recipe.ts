/** The plant stand as a recipe, for members who copy it. Its twin in code is plant-stand.ts; twins.test.ts compares them. */
import type { Direction, Recipe, RecipeJoint, RecipePart } from '../../recipe/recipe'
import { measured, ownParameters } from '../../recipe/written'
import { plantStand } from './plant-stand'

const SIDES: readonly Direction[] = ['left', 'right', 'front', 'back']

const leg = (id: string, side: string, face: Direction, x: string, y: string): RecipePart => ({
  id,
  name: `Leg, ${side}`,
  kind: 'leg',
  sides: 'one',
  length: 'potHeight + lip',
  width: 'legWidth',
  thickness: 'legThickness',
  grain: 'z',
  face,
  x,
  y,
  z: '0',
  hidden: ['down'],
  chamfers: SIDES.map((side) => ({ between: ['down', side], width: 'footChamfer' })),
})

const rail = (cross: 'upper' | 'lower', way: 'x' | 'y'): RecipePart => ({
  id: `${cross}${way.toUpperCase()}`,
  name: `Rail, ${cross}, ${way === 'x' ? 'left to right' : 'front to back'}`,
  kind: 'rail',
  sides: 'one',
  length: 'span',
  width: 'railWidth',
  thickness: 'railThickness',
  grain: way,
  face: way === 'x' ? 'front' : 'right',
  x: way === 'x' ? '0' : '(span - railThickness) / 2',
  y: way === 'x' ? '(span - railThickness) / 2' : '0',
  z: `${cross === 'upper' ? 'potHeight' : 'lowHeight'} - railWidth`,
})

const legJoints = (id: string, way: 'X' | 'Y', facing: Direction): RecipeJoint[] =>
  ['upper', 'lower'].map((cross) => ({
    id: `${id}-${cross}`,
    a: `${cross}${way}`,
    b: id,
    kind: 'letIn',
    glued: true,
    facing,
    screws: { count: '2', length: 'screwLength', called: 'A leg screw' },
    blame: 'legWidth',
  }))

const lap = (cross: string): RecipeJoint => ({
  id: `cross-${cross}`,
  a: `${cross}Y`,
  b: `${cross}X`,
  kind: 'halfLap',
  glued: true,
  facing: 'down',
  screws: { count: '1', length: 'lapScrewLength', called: 'A half-lap screw' },
  blame: 'railThickness',
})

export const plantStandRecipe: Recipe = {
  format: 1,
  name: plantStand.name,
  goodFor: plantStand.goodFor,
  parameters: ownParameters(plantStand),
  derived: [
    { id: 'span', unit: 'mm', formula: 'pot + 2 * room + 2 * legWidth', note: 'Over all, each way' },
    { id: 'leg', unit: 'mm', formula: 'potHeight + lip', note: 'Length of a leg' },
    {
      id: 'beside',
      unit: 'mm',
      formula: 'railThickness / 2 - letIn',
      note: 'From the middle of a rail to the face of a leg',
    },
  ],
  rules: [
    {
      holds: 'letIn <= legThickness / 2',
      parameter: 'letIn',
      message:
        'The notches would take more than half of a leg {legThickness} thick. Let in at most {legThickness / 2}.',
    },
    {
      holds: 'letIn <= railThickness / 2',
      parameter: 'letIn',
      message:
        'Let in {letIn}, legs of two crosses would meet in the middle of a rail {railThickness} thick. Let in at most half of it.',
    },
    {
      holds: 'potHeight - railWidth >= lowHeight + 30',
      parameter: 'lowHeight',
      message: 'Between the crosses {potHeight - railWidth - lowHeight} would be left; leave 30 mm.',
    },
    {
      holds: 'lowHeight - railWidth >= 15',
      parameter: 'lowHeight',
      message:
        'The lower cross would end {lowHeight - railWidth} above the floor; it must be at least {railWidth + 15} high.',
    },
    {
      holds: 'legWidth >= 6 * shank(screwSize)',
      parameter: 'screwSize',
      message:
        'A {shank(screwSize)} shank would split the end of a rail beside a leg, {legWidth} of wood; it must be {6 * shank(screwSize)} thick.',
    },
    {
      holds: 'railThickness >= 3 * shank(screwSize)',
      parameter: 'screwSize',
      message:
        'A {shank(screwSize)} shank would split a rail, {railThickness} of wood; it must be {3 * shank(screwSize)} thick.',
    },
    {
      holds: 'footChamfer <= 0.2 * min(legWidth, legThickness) + 0.000000001',
      parameter: 'footChamfer',
      message:
        '{footChamfer} off each edge of a foot {min(legWidth, legThickness)} thick leaves little to stand on; take at most {0.2 * min(legWidth, legThickness)}.',
    },
  ],
  middle: { x: 'span / 2', y: 'span / 2' },
  parts: [
    leg('legLeft', 'left', 'front', '0', 'span / 2 + beside'),
    leg('legFront', 'front', 'right', 'span / 2 - beside - legThickness', '0'),
    leg('legRight', 'right', 'back', 'span - legWidth', 'span / 2 - beside - legThickness'),
    leg('legBack', 'back', 'left', 'span / 2 + beside', 'span - legWidth'),
    rail('upper', 'x'),
    rail('upper', 'y'),
    rail('lower', 'x'),
    rail('lower', 'y'),
  ],
  joints: [
    ...legJoints('legLeft', 'X', 'back'),
    ...legJoints('legFront', 'Y', 'left'),
    ...legJoints('legRight', 'X', 'front'),
    ...legJoints('legBack', 'Y', 'right'),
    lap('upper'),
    lap('lower'),
  ],
  figures: [
    { label: 'Pot stands at', unit: 'mm', value: 'potHeight' },
    { label: 'Over all, each way: rails, length', unit: 'mm', value: 'span' },
    { label: 'Clear between opposite legs', unit: 'mm', value: 'span - 2 * legWidth' },
    { label: 'Legs, length', unit: 'mm', value: 'leg' },
    { label: 'Half-laps, depth', unit: 'mm', value: 'railWidth / 2' },
    { label: 'Notches in the legs, depth', unit: 'mm', value: 'letIn' },
    { label: 'Face of a leg from the middle of its rail', unit: 'mm', value: 'beside' },
  ],
  dimensions: [
    measured('front', 'below', '0', 'span'),
    measured('front', 'below', '0', 'legWidth', ['0', 'span / 2 + beside', '0']),
    measured('front', 'above', 'legWidth', 'span - legWidth', ['0', 'span / 2 + beside', 'leg']),
    measured('front', 'left', '0', 'leg', ['0', 'span / 2 + beside', '0']),
    measured('front', 'left', '0', 'potHeight', ['0', 'span / 2 + beside', '0']),
    measured('front', 'right', '0', 'lowHeight', ['span', 'span / 2 + beside', '0']),
    measured('front', 'right', 'potHeight - railWidth', 'potHeight', ['span', 'span / 2 + beside', '0']),
    measured('side', 'below', '0', 'span'),
    measured('side', 'right', 'potHeight - railWidth / 2', 'potHeight', ['span', 'span', '0']),
    measured('side', 'above', '(span - railThickness) / 2', '(span + railThickness) / 2', [
      '0',
      '0',
      'potHeight',
    ]),
    measured('top', 'left', 'span / 2 + beside', 'span / 2 + beside + legThickness', ['0', '0', 'leg']),
    measured('top', 'right', 'span / 2', 'span / 2 + beside', ['span', '0', 'potHeight']),
    measured('top', 'below', '0', 'span / 2', ['0', '0', 'potHeight']),
  ],
  notices: [
    {
      level: 'caution',
      when: 'leg > 2.2 * span',
      parameter: 'potHeight',
      message:
        '{leg} high on a foot of {span}, a tall plant in the wind tips it: keep it indoors, or make it lower.',
      source: 'common practice',
    },
    {
      level: 'note',
      parameter: 'pot',
      message:
        'A full pot of this size, as high as it is wide, weighs about {round(pi * (pot / 2000 mm)^2 * pot / 1000 mm * 1500)} kg when watered; put a saucer under it, and oil or paint the rails.',
      source: 'wet soil about 1500 kg/m3: common practice',
    },
  ],
  use: { kind: 'shelf', surfaces: ['upperX', 'upperY'] },
}
