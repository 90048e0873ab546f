/**
 * Which woods a piece may be made of: it is judged again in every wood of the table, for parts that no wood is named
 * for. In: a model. Out: for each wood whether what could hurt someone holds, and what is closest to giving way; best
 * first. Method: strength.ts as it stands, once a wood. A step of the budget is one wood.
 * Tests: tests/core/statics/compare-woods.test.ts
 */
import type { Model } from '#lib/core/design/model'
import { type Budget, unlimited } from '#lib/core/units/budget'
import { SPECIES, type Species } from '#lib/core/wood/species'
import { checkStrength, type StrengthOptions } from './strength'

export interface WoodVerdict {
  readonly speciesId: string
  readonly name: string
  readonly passes: boolean
  /** Of the check of safety that is closest to failing, and its title. */
  readonly margin: number
  readonly title: string
}

/** What stands for a wood that nobody named, and which woods it may turn out to be. */
const UNNAMED: Readonly<Record<string, (species: Species) => boolean>> = {
  any: () => true,
  unknown: () => true,
  hardwood: ({ kind }) => kind === 'hardwood',
  unknownHardwood: ({ kind }) => kind === 'hardwood',
  softwood: ({ kind }) => kind === 'softwood',
  unknownSoftwood: ({ kind }) => kind === 'softwood',
}

const fitsWish = (wish: string | undefined): ((species: Species) => boolean) | undefined =>
  UNNAMED[wish === undefined || wish === '' ? 'any' : wish]

/** Whether a part's wood is left open. */
export const isUnnamed = (wish: string | undefined): boolean => fitsWish(wish) !== undefined

/** The model with every open wish filled by a wood; undefined where a part may not be of it. */
function madeOf(model: Model, species: Species): Model | undefined {
  const open = model.parts.filter(({ species: wish }) => isUnnamed(wish))
  if (!open.every(({ species: wish }) => fitsWish(wish)?.(species))) return undefined
  return {
    ...model,
    parts: model.parts.map((part) => (isUnnamed(part.species) ? { ...part, species: species.id } : part)),
  }
}

/**
 * The woods of the table that the open parts may be of, those that pass first, the most to spare first.
 * @returns none if every part's wood is named, or if the model cannot be judged
 */
export function compareWoods(
  model: Model,
  options: StrengthOptions = {},
  budget: Budget = unlimited,
): WoodVerdict[] {
  if (!model.parts.some(({ species }) => isUnnamed(species))) return []
  const woods: WoodVerdict[] = []
  for (const species of SPECIES) {
    if (isUnnamed(species.id) || budget.shouldStop?.()) continue
    const made = madeOf(model, species)
    const report = made && checkStrength(made, options)
    if (!report?.ok) continue
    const safety = report.value.checks.filter(({ weight }) => weight === 'safety')
    const worst = safety.reduce((a, b) => (b.margin < a.margin ? b : a))
    woods.push({
      speciesId: species.id,
      name: species.name,
      passes: report.value.verdict === 'passes',
      margin: worst.margin,
      title: worst.title,
    })
  }
  return woods.sort((a, b) => Number(b.passes) - Number(a.passes) || b.margin - a.margin)
}
