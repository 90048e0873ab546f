/**
 * What the headless door accepts, as Zod schemas: our own formats strictly, so that a misspelt field is told; the
 * published cutting instances loosely, since their files say more than the engine reads. Every field is in
 * docs/formats.md. Tests: tests/engine/core-door.test.ts
 */
import { z } from 'zod'
import type { CutNode } from '#lib/core/cutting/problem'
import { recipeInput } from './recipe-input'

const mm = z.number()
const size = z.number().positive()
const um = z.int().nonnegative()
const sizeUm = z.int().positive()
const id = z.string().min(1)
const index = z.int().nonnegative()
const vec3 = z.tuple([z.number(), z.number(), z.number()])

const parameters = z.record(z.string(), z.union([z.number(), z.string()])).default({})

export const modelInput = z.union([
  z.strictObject({ design: id, parameters }),
  z.strictObject({ recipe: recipeInput, parameters }),
])

const FACES = ['endA', 'endB', 'edgeA', 'edgeB', 'faceA', 'faceB'] as const
const face = z.enum(FACES)
const longFace = z.enum(['faceA', 'faceB', 'edgeA', 'edgeB'])

const operation = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('endCut'),
    id,
    end: z.enum(['endA', 'endB']),
    point: vec3,
    normal: vec3,
    mitreRad: z.number(),
    bevelRad: z.number(),
  }),
  z.strictObject({
    kind: z.literal('edgeBevel'),
    id,
    edge: z.enum(['edgeA', 'edgeB']),
    point: vec3,
    normal: vec3,
    bevelRad: z.number(),
  }),
  z.strictObject({
    kind: z.literal('notch'),
    id,
    face: longFace,
    alongMm: mm,
    widthMm: size,
    depthMm: size,
    skewRad: z.number(),
    jointId: id.optional(),
  }),
  z.strictObject({
    kind: z.literal('hole'),
    id,
    face,
    point: vec3,
    direction: vec3,
    diameterMm: size,
    depthMm: size,
    countersinkDiameterMm: size.optional(),
    purpose: z.enum(['clearance', 'lead', 'other']),
  }),
  z.strictObject({ kind: z.literal('roundOver'), id, between: z.tuple([face, face]), radiusMm: size }),
  z.strictObject({ kind: z.literal('chamfer'), id, between: z.tuple([face, face]), widthMm: size }),
  z.strictObject({
    kind: z.literal('taper'),
    id,
    face: longFace,
    end: z.enum(['endA', 'endB']),
    lengthMm: size,
    depthMm: size,
  }),
  z.strictObject({
    kind: z.literal('engravedField'),
    id,
    face: longFace,
    alongMm: mm,
    acrossMm: mm,
    lengthMm: size,
    widthMm: size,
    depthMm: size,
  }),
])

/** A part as the verb `model` writes it; only what set-ups need must be there. */
const part = z.looseObject({
  id,
  name: id,
  blank: z.strictObject({ lengthMm: size, widthMm: size, thicknessMm: size }),
  operations: z.array(operation),
})

const lean = z.tuple([z.int(), z.int()]).optional()
const spot = { xUm: um, yUm: um, lengthUm: sizeUm, widthUm: sizeUm, leanUm: lean }

const node: z.ZodType<CutNode> = z.lazy(() =>
  z.discriminatedUnion('kind', [
    z.strictObject({
      kind: z.literal('cut'),
      ...spot,
      cut: z.enum(['crosscut', 'rip']),
      atUm: sizeUm,
      slantUm: z.int().optional(),
      first: node,
      second: node.optional(),
    }),
    z.strictObject({
      kind: z.literal('blank'),
      ...spot,
      blank: index,
      turned: z.boolean(),
      stave: z.strictObject({ panel: index, at: index }).optional(),
    }),
    z.strictObject({ kind: z.enum(['offcut', 'waste']), ...spot }),
  ]),
)

const layout = z.strictObject({ board: index, copies: z.int().positive(), tree: node })

const setupBoard = z.strictObject({
  id,
  name: id,
  lengthUm: sizeUm,
  widthUm: sizeUm,
  thicknessUm: sizeUm,
  warp: z.strictObject({ cupUm: um, bowUm: um, crookUm: um, twistUm: um }).optional(),
  endTrimUm: um.optional(),
})

const planer = z.strictObject({
  maxPassMm: size,
  minLengthMm: size,
  minWidthMm: size,
  maxWidthMm: size,
  minThicknessMm: size,
})

const tableSaw = z.strictObject({
  kerfMm: size,
  stack: z.strictObject({ minMm: size, maxMm: size }).optional(),
  notchStepMm: size,
  blades: z.enum(['combination', 'separate']),
  maxBladeHeightMm: size,
  tiltsTo: z.enum(['left', 'right']),
  maxRipMm: size,
  maxCrosscutWidthMm: size,
  maxStopMm: size,
  minStopMm: size,
  maxSledAngleRad: size,
  minHoldMm: size,
  minRipLengthMm: size,
  pushStickBelowMm: size,
})

const SETTINGS = [
  'blade',
  'guide',
  'bladeHeight',
  'bladeTilt',
  'sledAngle',
  'fence',
  'stop',
  'lastStop',
  'carrier',
  'thickness',
  'bit',
  'depth',
  'tableTilt',
  'clamps',
  'jig',
] as const

const seconds = z.number().nonnegative()
const times = z.strictObject({
  testCut: seconds,
  changes: z.partialRecord(z.enum(SETTINGS), seconds),
  handle: seconds,
  crosscut: seconds,
  ripFeed: size,
  planeFeed: size,
  notchPass: seconds,
  hole: seconds,
  routeFeed: size,
  glueUp: seconds,
})

export const setupsInput = z.strictObject({
  model: z.looseObject({ parts: z.array(part) }),
  layouts: z.array(layout),
  boards: z.array(setupBoard),
  blanks: z.array(z.strictObject({ id, name: id })),
  needs: z.array(z.strictObject({ blank: index, partIds: z.array(id) })),
  /** What is absent stands as in DEFAULT_SETUP_SHOP. */
  shop: z
    .strictObject({
      planer: planer.partial().optional(),
      tableSaw: tableSaw.partial().optional(),
      routerTable: z.strictObject({ minLengthMm: size, maxPassMm: size }).partial().optional(),
      drillPress: z.strictObject({ maxStandingMm: size }).partial().optional(),
      laserEngraver: z
        .strictObject({ lineMm: size, speedMmPerS: size, accelMmPerS2: size, passDepthMm: size })
        .partial()
        .optional(),
      times: times.partial().optional(),
    })
    .default({}),
  sandingMm: z.number().nonnegative().optional(),
  jointMm: z.number().nonnegative().optional(),
  maxStates: z.int().positive().optional(),
})
export type SetupsInput = z.infer<typeof setupsInput>

const cutProblem = z.strictObject({
  kerfUm: um,
  boards: z.array(
    z.strictObject({
      id,
      lengthUm: sizeUm,
      widthUm: sizeUm,
      cost: z.number().nonnegative(),
      count: index.nullable().optional(),
    }),
  ),
  blanks: z.array(
    z.strictObject({
      id,
      lengthUm: sizeUm,
      widthUm: sizeUm,
      demand: index.nullable(),
      grain: z.enum(['along', 'free']),
      weight: z.number().nonnegative(),
      boards: z.array(index).optional(),
      ends: z.strictObject({ nearUm: sizeUm, leanAUm: z.int(), leanBUm: z.int() }).optional(),
      planedUm: sizeUm.optional(),
      stave: z
        .strictObject({
          of: index,
          panelUm: sizeUm,
          minWidthUm: sizeUm,
          maxWidthUm: sizeUm,
          jointUm: um,
          maxStaves: z.int().positive(),
        })
        .optional(),
    }),
  ),
  zones: z.array(
    z.strictObject({
      board: index,
      xUm: um,
      yUm: um,
      lengthUm: um,
      widthUm: um,
      blocks: z.union([z.literal('all'), z.array(index)]),
    }),
  ),
  limits: z.strictObject({
    maxRipWidthUm: sizeUm.optional(),
    maxCrosscutWidthUm: sizeUm.optional(),
    minPieceLengthUm: um,
    minPieceWidthUm: um,
    stages: index.nullable(),
    firstCut: z.enum(['crosscut', 'rip']).optional(),
  }),
  offcut: z.strictObject({ minLengthUm: um, minWidthUm: um }),
  objective: z.enum(['parts', 'maxValue', 'minCost', 'minBoards', 'feasibility']),
})

const effort = {
  seed: z.int().optional(),
  maxSteps: z.int().positive().optional(),
  seconds: z.number().positive().optional(),
}

export const cutInput = z.strictObject({ problem: cutProblem, ...effort })

const count = z.int().nonnegative()
const published = z
  .looseObject({
    name: z.string(),
    dim: z.union([z.literal(1), z.literal(2)]),
    objective: z.enum(['min_bins', 'min_cost', 'max_value', 'feasibility']),
    stock: z
      .array(
        z.looseObject({
          w: sizeUm,
          h: sizeUm.optional(),
          count: count.nullable(),
          cost: z.number().nonnegative().optional(),
        }),
      )
      .min(1),
    items: z
      .array(
        z.looseObject({
          w: sizeUm,
          h: sizeUm.optional(),
          demand: count.nullable(),
          rotate: z.boolean().optional(),
          value: z.number().nonnegative().optional(),
        }),
      )
      .min(1),
    kerf: count.optional(),
    defects: z.array(z.looseObject({ stock: index, x: um, y: um, w: um, h: um })).optional(),
    stages: count.nullable().optional(),
    ...effort,
  })
  .refine((i) => i.dim === 1 || [...i.stock, ...i.items].every((each) => each.h !== undefined), {
    message: 'with dim 2 every stock piece and item needs h',
  })

/** One instance, or a file of them with limits for all. */
export const publishedInput = z.union([
  published,
  z.looseObject({ instances: z.array(published).min(1), ...effort }),
])
export type PublishedInput = z.infer<typeof publishedInput>
export type PublishedCase = z.infer<typeof published>
