/**
 * Plant stand: two crosses of half-lapped rails, one above the other, and four legs let in beside the ends of the
 * rails, each turned a quarter from the next like the vanes of a pinwheel, so that no rail is cut for a leg. The pot
 * stands on the upper cross between the legs. mm; plan is a square. Tests: tests/core/design/plant-stand.test.ts
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import { footChamferParameter, refuseFootChamfer } from '../../chamfer-feet'
import { furnitureDesign, type Made, type Rule, refuseIf, refuseSplit, sayMm } from '../../furniture-design'
import type { JointPlan } from '../../join-parts'
import type { Dimension, Figure, Notice, ParameterValues, Part } from '../../model'
import { board, type Housing, letIn, type Span, TO } from '../../placed-part'
import { measure, mmFigure } from '../../read-off'
import {
  mmParameter,
  screwKind,
  screwSizeParameter,
  THE_SCREWS,
  typedValues,
  woodParameters,
} from '../../shared-parameters'

const THE_STAND = 'The stand'
const THE_WOODWORK = 'Legs and rails'

const parameters = [
  mmParameter(
    'pot',
    'Pot',
    THE_STAND,
    [250, 100, 450],
    'Greatest diameter of the pot, where it passes between the legs.',
  ),
  mmParameter('room', 'Room around the pot', THE_STAND, [6, 2, 40], 'Between the pot and each leg.'),
  mmParameter(
    'potHeight',
    'Height of the pot',
    THE_STAND,
    [350, 120, 800],
    'From the floor to the upper cross, on which the pot stands.',
  ),
  mmParameter(
    'lip',
    'Legs above the cross',
    THE_STAND,
    [100, 0, 300],
    'How far the legs rise beside the pot.',
  ),
  mmParameter(
    'lowHeight',
    'Lower cross',
    THE_STAND,
    [130, 50, 500],
    'From the floor to the top of the lower cross; it steadies the legs and takes a small pot.',
  ),
  mmParameter(
    'legWidth',
    'Leg width',
    THE_WOODWORK,
    [40, 25, 80, 0.5],
    'Along the rail that it stands beside.',
  ),
  mmParameter(
    'legThickness',
    'Leg thickness',
    THE_WOODWORK,
    [32, 20, 60, 0.5],
    'Across that rail; the notches are cut into it.',
  ),
  mmParameter(
    'railWidth',
    'Rail width',
    THE_WOODWORK,
    [50, 30, 90, 0.5],
    'Upright size of the rails; each gives half of it where two cross.',
  ),
  mmParameter(
    'railThickness',
    'Rail thickness',
    THE_WOODWORK,
    [22, 14, 40, 0.5],
    'Finished thickness of the rails, and width of the half-laps.',
  ),
  mmParameter(
    'letIn',
    'Rails let in',
    THE_WOODWORK,
    [8, 3, 20, 0.5],
    'Depth of the notches in the legs; their shoulders carry the pot.',
  ),
  footChamferParameter(THE_WOODWORK, 3),
  screwSizeParameter,
  mmParameter(
    'screwLength',
    'Leg screw length',
    THE_SCREWS,
    [40, 16, 80],
    'Through a rail into the leg beside it.',
  ),
  mmParameter(
    'lapScrewLength',
    'Half-lap screw length',
    THE_SCREWS,
    [40, 16, 80],
    'Down through the middle of a cross.',
  ),
  ...woodParameters,
] as const

function layOut(read: ParameterValues) {
  const v = typedValues(parameters, read)
  const spanMm = v.pot + 2 * v.room + 2 * v.legWidth
  const middle = spanMm / 2
  return {
    v,
    spanMm,
    middle,
    legMm: v.potHeight + v.lip,
    across: [middle - v.railThickness / 2, middle + v.railThickness / 2] as Span,
    /** From the middle to the leg's face that the rail is let into. */
    besideMm: v.railThickness / 2 - v.letIn,
    look: { finish: v.finish, species: v.species },
  }
}
type Layout = ReturnType<typeof layOut>

const rules: readonly Rule<Layout>[] = [
  ({ v }) =>
    refuseIf(
      v.letIn > v.legThickness / 2,
      'letIn',
      `The notches would take more than half of a leg ${sayMm(v.legThickness)} thick. Let in at most ${sayMm(v.legThickness / 2)}.`,
    ),
  ({ v }) =>
    refuseIf(
      v.letIn > v.railThickness / 2,
      'letIn',
      `Let in ${sayMm(v.letIn)}, legs of two crosses would meet in the middle of a rail ${sayMm(v.railThickness)} thick. Let in at most half of it.`,
    ),
  ({ v }) =>
    refuseIf(
      v.potHeight - v.railWidth < v.lowHeight + 30,
      'lowHeight',
      `Between the crosses ${sayMm(v.potHeight - v.railWidth - v.lowHeight)} would be left; leave 30 mm.`,
    ),
  ({ v }) =>
    refuseIf(
      v.lowHeight - v.railWidth < 15,
      'lowHeight',
      `The lower cross would end ${sayMm(v.lowHeight - v.railWidth)} above the floor; it must be at least ${sayMm(v.railWidth + 15)} high.`,
    ),
  ({ v }) => refuseFootChamfer(v.footChamfer, Math.min(v.legWidth, v.legThickness)),
  ({ v }) => refuseSplit(v.screwSize, v.legWidth, 'the end of a rail beside a leg', 6),
  ({ v }) => refuseSplit(v.screwSize, v.railThickness, 'a rail'),
]

const CROSSES = ['upper', 'lower'] as const
/** Legs in the order of a quarter turn each, and the way from the rail to the leg. */
const LEGS = [
  { id: 'left', rail: 'x', isFar: false, to: 'back' },
  { id: 'front', rail: 'y', isFar: false, to: 'left' },
  { id: 'right', rail: 'x', isFar: true, to: 'front' },
  { id: 'back', rail: 'y', isFar: true, to: 'right' },
] as const
type Leg = (typeof LEGS)[number]
const OPPOSITE = { left: 'right', right: 'left', front: 'back', back: 'front' } as const

const topOf = (l: Layout, cross: (typeof CROSSES)[number]): number =>
  cross === 'upper' ? l.v.potHeight : l.v.lowHeight

function leg(l: Layout, { id, rail, isFar, to }: Leg): Part {
  const { v } = l
  const along: Span = isFar ? [l.spanMm - v.legWidth, l.spanMm] : [0, v.legWidth]
  const isUp = to === 'back' || to === 'right'
  const near = l.middle + (isUp ? l.besideMm : -l.besideMm)
  const across: Span = isUp ? [near, near + v.legThickness] : [near - v.legThickness, near]
  return board(
    l.look,
    { id: `leg-${id}`, name: `Leg, ${id}`, kind: 'leg', grain: 'z', face: OPPOSITE[to], hidden: ['endA'] },
    [rail === 'x' ? along : across, rail === 'x' ? across : along, [0, l.legMm]],
  )
}

function partsOf(l: Layout): Part[] {
  const { v, look } = l
  const whole: Span = [0, l.spanMm]
  const rails = CROSSES.flatMap((cross) => {
    const z: Span = [topOf(l, cross) - v.railWidth, topOf(l, cross)]
    return [
      board(
        look,
        {
          id: `rail-${cross}-x`,
          name: `Rail, ${cross}, left to right`,
          kind: 'rail',
          grain: 'x',
          face: 'front',
        },
        [whole, l.across, z],
      ),
      board(
        look,
        {
          id: `rail-${cross}-y`,
          name: `Rail, ${cross}, front to back`,
          kind: 'rail',
          grain: 'y',
          face: 'right',
        },
        [l.across, whole, z],
      ),
    ]
  })
  const parts = [...LEGS.map((each) => leg(l, each)), ...rails]
  return halfLapped(
    letIn(
      parts,
      LEGS.flatMap(({ id, rail }) =>
        CROSSES.map(
          (cross): Housing => ({
            host: `leg-${id}`,
            guest: `rail-${cross}-${rail}`,
            face: 'faceA',
            jointId: `leg-${id}-${cross}`,
          }),
        ),
      ),
    ),
    l,
  )
}

/** Rails left to right give their upper half, rails front to back their lower half. */
function halfLapped(parts: readonly Part[], { v, middle }: Layout): Part[] {
  return parts.map((part) => {
    const [, cross, way] = part.id.split('-')
    if (part.kind !== 'rail') return part
    const isUpEdgeB = part.frame.y[2] > 0
    return {
      ...part,
      operations: [
        ...part.operations,
        {
          kind: 'notch' as const,
          id: 'half-lap',
          face: (way === 'x') === isUpEdgeB ? ('edgeB' as const) : ('edgeA' as const),
          alongMm: middle,
          widthMm: v.railThickness,
          depthMm: v.railWidth / 2,
          skewRad: 0,
          jointId: `cross-${cross}`,
        },
      ],
    }
  })
}

function jointsOf(l: Layout): JointPlan[] {
  const { v } = l
  const screws = screwKind(v, 'screwLength', 'A leg screw')
  const lapScrews = screwKind(v, 'lapScrewLength', 'A half-lap screw')
  return [
    ...LEGS.flatMap(({ id, rail, to }) =>
      CROSSES.map(
        (cross): JointPlan => ({
          id: `leg-${id}-${cross}`,
          kind: 'letIn',
          a: `rail-${cross}-${rail}`,
          b: `leg-${id}`,
          glued: true,
          screws: screws(2),
          facing: TO[to] as Vec3,
          bearing: 'legWidth',
        }),
      ),
    ),
    ...CROSSES.map(
      (cross): JointPlan => ({
        id: `cross-${cross}`,
        kind: 'halfLap',
        a: `rail-${cross}-y`,
        b: `rail-${cross}-x`,
        glued: true,
        screws: lapScrews(1),
        facing: TO.down,
        bearing: 'railThickness',
      }),
    ),
  ]
}

const figures = ({ l }: Made<Layout>): Figure[] => [
  mmFigure('potHeight', 'Pot stands at', l.v.potHeight),
  mmFigure('span', 'Over all, each way: rails, length', l.spanMm),
  mmFigure('between', 'Clear between opposite legs', l.spanMm - 2 * l.v.legWidth),
  mmFigure('legLength', 'Legs, length', l.legMm),
  mmFigure('lapDepth', 'Half-laps, depth', l.v.railWidth / 2),
  mmFigure('notchDepth', 'Notches in the legs, depth', l.v.letIn),
  mmFigure('legOff', 'Face of a leg from the middle of its rail', l.besideMm),
]

function dimensions(l: Layout): Dimension[] {
  const { v, spanMm: s, across } = l
  const edge = l.middle + l.besideMm
  return [
    measure('span', 'front', 'below', 0, s, [0, 0, 0]),
    measure('legWidth', 'front', 'below', 0, v.legWidth, [0, edge, 0]),
    measure('between', 'front', 'above', v.legWidth, s - v.legWidth, [0, edge, l.legMm]),
    measure('legLength', 'front', 'left', 0, l.legMm, [0, edge, 0]),
    measure('potHeight', 'front', 'left', 0, v.potHeight, [0, edge, 0]),
    measure('lowHeight', 'front', 'right', 0, v.lowHeight, [s, edge, 0]),
    measure('railWidth', 'front', 'right', v.potHeight - v.railWidth, v.potHeight, [s, edge, 0]),
    measure('spanY', 'side', 'below', 0, s, [0, 0, 0]),
    measure('halfLap', 'side', 'right', v.potHeight - v.railWidth / 2, v.potHeight, [s, s, 0]),
    measure('railThickness', 'side', 'above', across[0], across[1], [0, 0, v.potHeight]),
    measure('legThickness', 'top', 'left', edge, edge + v.legThickness, [0, 0, l.legMm]),
    measure('legOff', 'top', 'right', l.middle, edge, [s, 0, v.potHeight]),
    measure('middle', 'top', 'below', 0, l.middle, [0, 0, v.potHeight]),
  ]
}

function notices({ l }: Made<Layout>): Notice[] {
  const { v } = l
  const out: Notice[] = []
  if (l.legMm > 2.2 * l.spanMm)
    out.push({
      level: 'caution',
      parameter: 'potHeight',
      message: `${sayMm(l.legMm)} high on a foot of ${sayMm(l.spanMm)}, a tall plant in the wind tips it: keep it indoors, or make it lower.`,
      source: 'common practice',
    })
  const kg = (Math.PI * (v.pot / 2000) ** 2 * (v.pot / 1000) * 1500).toFixed(0)
  out.push({
    level: 'note',
    parameter: 'pot',
    message: `A full pot of this size, as high as it is wide, weighs about ${kg} kg when watered; put a saucer under it, and oil or paint the rails.`,
    source: 'wet soil about 1500 kg/m3: common practice',
  })
  return out
}

export const plantStand = furnitureDesign({
  id: 'plantStand',
  version: 1,
  name: 'Plant stand',
  goodFor:
    'One pot off the floor and a smaller one beneath it, out of eight short sticks: chair legs and stretchers will do.',
  parameters,
  cures: {
    legWidth: 'more',
    legThickness: 'more',
    railWidth: 'more',
    railThickness: 'more',
    letIn: 'either',
    screwSize: 'either',
    screwLength: 'more',
    lapScrewLength: 'more',
  },
  layOut,
  rules,
  parts: partsOf,
  feet: ['leg'],
  joints: jointsOf,
  figures,
  dimensions,
  notices,
  use: () => ({ kind: 'shelf', surfaces: ['rail-upper-x', 'rail-upper-y'] }),
})
