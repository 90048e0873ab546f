/**
 * What a page asks of a variant, and the answers: plain data that a worker can send. `figures`: what it comes to and
 * what governs its strength, for sound wood in a usual house; `stops`: how far one number may go; `picture`: its seen
 * edges and where each part's middle lies; `partAt`: the part that is seen at a place of that picture.
 * Tests: tests/engine/variant-run.test.ts
 */
import { designById } from '#lib/core/design/designs/registry'
import {
  atShare,
  type Picture,
  type PictureFrom,
  partAt,
  pictureOf,
  shareOf,
} from '#lib/core/design/drawing/picture'
import type { Design, Model, ParameterValues } from '#lib/core/design/model'
import { meshesOf, type PlacedMesh } from '#lib/core/design/part-solid'
import { toWorld } from '#lib/core/geometry/frame'
import type { Vec2 } from '#lib/core/geometry/polygon2'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { checkStrength } from '#lib/core/statics/strength'
import { err, ok, type Result } from '#lib/core/units/result'
import { type SliderStops, sliderStops } from '#lib/shop/slider-stops'
import { type StrengthMark, strengthMark } from '#lib/shop/strength-words'
import { type VariantFigures, type VariantShop, variantFigures } from '#lib/shop/variant-figures'

interface AskedOf {
  readonly designId: string
  readonly parameters: ParameterValues
}

export type VariantAsk = AskedOf &
  (
    | { readonly kind: 'figures'; readonly shop: VariantShop }
    | { readonly kind: 'stops'; readonly parameterId: string }
    | { readonly kind: 'picture'; readonly from: PictureFrom }
    | { readonly kind: 'partAt'; readonly from: PictureFrom; readonly at: Vec2 }
  )

/** What a variant comes to. */
export interface VariantSum {
  readonly figures: VariantFigures
  /** A sentence where its strength cannot be judged. */
  readonly strength: StrengthMark | string
}

export type VariantAnswer =
  | { readonly kind: 'figures'; readonly sum: VariantSum }
  | { readonly kind: 'stops'; readonly stops: SliderStops | null }
  | {
      readonly kind: 'picture'
      readonly picture: Picture
      /** By part: its middle, as shares of the picture's frame. */
      readonly centres: Readonly<Record<string, Vec2>>
    }
  | { readonly kind: 'partAt'; readonly partId: string | null }

type Answered = Result<VariantAnswer, string>
type Tell = (done: number, of?: number) => void

/** Work, then strength. */
const STEPS = 2

function figuresOf(model: Model, shop: VariantShop, tell: Tell): Answered {
  tell(0, STEPS)
  const figures = variantFigures(model, shop)
  tell(1, STEPS)
  const report = checkStrength(model)
  const strength = report.ok ? strengthMark(report.value.checks) : report.error
  return ok({ kind: 'figures', sum: { figures, strength } })
}

function stopsOf(design: Design, values: ParameterValues, parameterId: string): Answered {
  const spec = design.parameters.find(({ id }) => id === parameterId)
  if (!spec) return err('There is no such number any more.')
  return ok({ kind: 'stops', stops: sliderStops(design, values, spec) })
}

function drawn(meshes: readonly PlacedMesh[], from: PictureFrom): Answered {
  const picture = pictureOf(meshes, from)
  const centres = meshes.map(({ part }): [string, Vec2] => {
    const { lengthMm, widthMm, thicknessMm } = part.blank
    const middle = toWorld(part.frame, [lengthMm / 2, widthMm / 2, thicknessMm / 2])
    return [part.id, shareOf(picture, middle)]
  })
  return ok({ kind: 'picture', picture, centres: Object.fromEntries(centres) })
}

/**
 * @param kernel asked for where something is drawn
 * @param find where designs of members are known too
 * @returns a sentence for what cannot be built
 */
export async function answerVariant(
  ask: VariantAsk,
  kernel: () => Promise<SolidKernel>,
  tell: Tell = () => undefined,
  find: (designId: string) => Promise<Design | undefined> = async (id) => designById(id),
): Promise<Answered> {
  const design = await find(ask.designId)
  if (!design) return err('This design is not in the shop any more.')
  if (ask.kind === 'stops') return stopsOf(design, ask.parameters, ask.parameterId)
  const built = design.build(ask.parameters)
  if (!built.ok) return err(built.error.map(({ message }) => message).join(' '))
  if (ask.kind === 'figures') return figuresOf(built.value, ask.shop, tell)
  const meshes = meshesOf(await kernel(), built.value.parts)
  if (ask.kind === 'picture') return drawn(meshes, ask.from)
  const at = atShare(pictureOf(meshes, ask.from).frame, ask.at)
  return ok({ kind: 'partAt', partId: partAt(meshes, ask.from, at) ?? null })
}
