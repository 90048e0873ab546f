/**
 * What a variant comes to, in numbers that variants are compared by: size, weight, wood, parts, screws, machine
 * settings, hours, and what its wood would cost new.
 * In: a Model, the shop's allowances, saw and machines, its prices of sawn wood a cubic metre. Out: VariantFigures.
 * Hours and settings are those of a piece whose every part comes out of a board of its own, so that variants are on an
 * equal footing before anything is planned; a cut plan of the pool differs. Glue, finish and drying are not in them.
 * Method: docs/methods/variants.md. Tests: tests/shop/variant-figures.test.ts
 */
import { type BlankNeed, blankNeedsFromModel } from '#lib/core/board/demand'
import type { CutShop } from '#lib/core/cutting/from-pool'
import type { BoardLayout, CutNode } from '#lib/core/cutting/problem'
import type { Model, Part } from '#lib/core/design/model'
import { facesOfParts, massProperties } from '#lib/core/design/part-shape'
import { densityKgM3 } from '#lib/core/design/weight'
import { toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { SetupInput } from '#lib/core/setups/setup-input'
import type { SetupShop } from '#lib/core/setups/setup-shop'
import { type Money, money, sumMoney, timesMoney } from '#lib/core/units/money'
import { massKg } from '#lib/core/wood/density'
import { speciesById } from '#lib/core/wood/species'

export interface WoodPrices {
  readonly currency: string
  /** A cubic metre of sawn wood, bought new; null: the shop has not said. */
  readonly softwoodPerM3Minor: number | null
  readonly hardwoodPerM3Minor: number | null
}

export interface VariantShop {
  readonly cut: CutShop
  readonly setups: SetupShop
  readonly prices: WoodPrices
}

/** What shows at once, without planning any work. */
export interface PieceFigures {
  /** Left to right, front to back, floor to top, over all pieces of the build. */
  readonly sizeMm: Vec3
  readonly weightKg: number
  /** Wood in the finished parts, and in their blanks before flattening and sanding. */
  readonly woodM3: number
  readonly roughM3: number
  /** One face of all blanks at their rough size. */
  readonly boardM2: number
  readonly parts: number
  /** Blanks that differ from each other. */
  readonly kinds: number
  readonly screws: number
  readonly joints: number
  /** What the rough wood would cost new; null: no price is known for some of it. */
  readonly woodCost: Money | null
}

export interface WorkFigures {
  /** Machine settings that differ from each other. */
  readonly settings: number
  readonly settingSeconds: number
  readonly cuttingSeconds: number
}

export interface VariantFigures extends PieceFigures, WorkFigures {}

const M3_PER_MM3 = 1e-9
const UM3_PER_M3 = 1e18
const UM2_PER_M2 = 1e12

/** The box around all parts. @example overallSizeMm(model).map(Math.round) //=> [515, 420, 610] */
export function overallSizeMm(parts: readonly Part[], faces = facesOfParts(parts)): Vec3 {
  const low = [Infinity, Infinity, Infinity]
  const high = [-Infinity, -Infinity, -Infinity]
  for (const part of parts)
    for (const face of faces.get(part.id) ?? [])
      for (const [u, v] of face.pieces.flat()) {
        const at = toWorld(part.frame, toWorld(face.frame, [u, v, 0]))
        for (const i of [0, 1, 2]) {
          low[i] = Math.min(low[i], at[i])
          high[i] = Math.max(high[i], at[i])
        }
      }
  return [high[0] - low[0], high[1] - low[1], high[2] - low[2]]
}

/** What a blank is thick before it is flattened and sanded. */
const roughThicknessUm = (need: BlankNeed, { allowances }: CutShop): number =>
  need.finishedThicknessUm + 2 * (allowances.skimPerFaceUm + allowances.sandPerFaceUm)

const roughM3Of = (need: BlankNeed, shop: CutShop): number =>
  (need.count * need.roughLengthUm * need.roughWidthUm * roughThicknessUm(need, shop)) / UM3_PER_M3

/** Where no one wood is asked for, softwood: what a maker would buy. */
const isHardwood = (species: string | undefined): boolean =>
  species === 'hardwood' || (species !== undefined && speciesById(species).kind === 'hardwood')

function costOf(needs: readonly BlankNeed[], { cut, prices }: VariantShop): Money | null {
  const { currency } = prices
  const costs = needs.map((need) => {
    const perM3 = isHardwood(need.species) ? prices.hardwoodPerM3Minor : prices.softwoodPerM3Minor
    return perM3 === null ? null : timesMoney(money(perM3, currency), roughM3Of(need, cut))
  })
  return costs.some((cost) => cost === null) ? null : sumMoney(costs as Money[], currency)
}

const sum = <T>(list: readonly T[], of: (one: T) => number): number =>
  list.reduce((total, one) => total + of(one), 0)

export function pieceFigures(model: Model, shop: VariantShop): PieceFigures {
  const { parts, joints } = model
  const faces = facesOfParts(parts)
  const volumes = parts.map((part) => massProperties(part, faces.get(part.id)).volumeMm3)
  const needs = blankNeedsFromModel(model, shop.cut.allowances)
  const asked = String(model.parameters.species ?? 'any')
  return {
    sizeMm: overallSizeMm(parts, faces),
    weightKg: sum(
      parts.map((part, i) => massKg(volumes[i], densityKgM3(part.species ?? asked))),
      (kg) => kg,
    ),
    woodM3: sum(volumes, (volume) => volume) * M3_PER_MM3,
    roughM3: sum(needs, (need) => roughM3Of(need, shop.cut)),
    boardM2: sum(needs, (n) => n.count * n.roughLengthUm * n.roughWidthUm) / UM2_PER_M2,
    parts: parts.length,
    kinds: needs.length,
    screws: sum(joints, (joint) => joint.screws.length),
    joints: joints.length,
    woodCost: costOf(needs, shop),
  }
}

/** A rest worth keeping at the end of each board, so that every part takes a crosscut and a rip. */
const REST_UM = 40_000

/** A board for one blank: crosscut to length first, then ripped to width. */
function treeOf(need: BlankNeed, blank: number, kerfUm: number): CutNode {
  const [lengthUm, widthUm] = [need.roughLengthUm, need.roughWidthUm]
  const over = kerfUm + REST_UM
  const part: CutNode = { kind: 'blank', xUm: 0, yUm: 0, lengthUm, widthUm, blank, turned: false }
  const rip: CutNode = {
    kind: 'cut',
    cut: 'rip',
    xUm: 0,
    yUm: 0,
    lengthUm,
    widthUm: widthUm + over,
    atUm: widthUm,
    first: part,
    second: { kind: 'waste', xUm: 0, yUm: widthUm + kerfUm, lengthUm, widthUm: REST_UM },
  }
  return {
    kind: 'cut',
    cut: 'crosscut',
    xUm: 0,
    yUm: 0,
    lengthUm: lengthUm + over,
    widthUm: widthUm + over,
    atUm: lengthUm,
    first: rip,
    second: { kind: 'waste', xUm: lengthUm + kerfUm, yUm: 0, lengthUm: REST_UM, widthUm: widthUm + over },
  }
}

/** The work on a piece whose every part comes out of a board of its own. */
export function boardForEach(model: Model, { cut, setups }: VariantShop): SetupInput {
  const needs = blankNeedsFromModel(model, cut.allowances)
  const each = needs.flatMap((need, blank) => need.partIds.map(() => ({ need, blank })))
  const layouts = each.map(
    ({ need, blank }, board): BoardLayout => ({ board, copies: 1, tree: treeOf(need, blank, cut.kerfUm) }),
  )
  return {
    model,
    layouts,
    boards: each.map(({ need }, i) => ({
      id: `board-${i + 1}`,
      name: `board ${i + 1}`,
      lengthUm: layouts[i].tree.lengthUm,
      widthUm: layouts[i].tree.widthUm,
      thicknessUm: roughThicknessUm(need, cut),
    })),
    blanks: needs.map(({ id, name }) => ({ id, name })),
    needs: needs.map(({ partIds }, blank) => ({ blank, partIds })),
    shop: setups,
    sandingMm: (2 * cut.allowances.sandPerFaceUm) / 1000,
    maxStates: MOST_STATES,
  }
}

/** The order of set-ups is not what is asked here, so that its proof is given little time. */
const MOST_STATES = 500

export function workFigures(model: Model, shop: VariantShop): WorkFigures {
  const { distinctSettings, settingSeconds, cuttingSeconds } = planSetups(boardForEach(model, shop))
  return { settings: distinctSettings, settingSeconds, cuttingSeconds }
}

export const variantFigures = (model: Model, shop: VariantShop): VariantFigures => ({
  ...pieceFigures(model, shop),
  ...workFigures(model, shop),
})
