/**
 * All sheets of a model's drawings, by id: «all», «front», «side», «top», and «part-1» … for each distinct part. Lines
 * are found when a sheet is asked for, so one sheet costs a few ms. In: a model, a solid kernel. Out: plates.
 * Tests: tests/documents/sheet/drawing-plates.test.ts
 */
import { type ModelView, modelViews } from '#lib/core/design/drawing/draw-model'
import { partShape } from '#lib/core/design/drawing/draw-part'
import type { Model, ViewName } from '#lib/core/design/model'
import { type SameParts, samePartsOf } from '#lib/core/design/same-parts'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { type MadePlate, modelPlate, type PlateOptions, partPlate } from './sheet/drawing-plates'
import type { Plate } from './sheet/plate'
import { type TemplateOptions, templatePlates } from './templates'

export interface SheetName {
  readonly id: string
  readonly label: string
  readonly group: 'The piece' | 'Parts'
}

const VIEWS: Readonly<Record<ViewName | 'all', string>> = {
  all: 'The whole piece, three views',
  front: 'Front',
  side: 'Side, from the right',
  top: 'Top',
}
const viewIds = Object.keys(VIEWS) as (ViewName | 'all')[]
const isView = (id: string): id is ViewName | 'all' => Object.hasOwn(VIEWS, id)

export class DrawingSet {
  readonly groups: readonly SameParts[]
  private views: readonly ModelView[] | undefined

  constructor(
    private readonly kernel: SolidKernel,
    private readonly model: Model,
  ) {
    this.groups = samePartsOf(model.parts)
  }

  /** In the order in which they are bound. */
  get names(): readonly SheetName[] {
    return [
      ...viewIds.map((id) => ({ id, label: VIEWS[id], group: 'The piece' as const })),
      ...this.groups.map(({ name, parts }, i) => ({
        id: `part-${i + 1}`,
        label: `${name}: make ${parts.length}`,
        group: 'Parts' as const,
      })),
    ]
  }

  /** Undefined for an id that is none. */
  sheet(id: string, options: PlateOptions): MadePlate | undefined {
    if (isView(id)) {
      this.views ??= modelViews(this.kernel, this.model)
      return modelPlate(this.model, this.views, id, options)
    }
    const group = this.groups[Number(/^part-(\d{1,4})$/.exec(id)?.[1] ?? 0) - 1]
    if (group === undefined) return undefined
    return partPlate(partShape(this.kernel, group.part), group, this.groups, options)
  }

  /** Full-size templates of all distinct parts. */
  templates(options: TemplateOptions): Plate[] {
    const parts = this.groups.map((group) => ({ group, shape: partShape(this.kernel, group.part) }))
    return templatePlates(parts, options)
  }

  /** All of them, each at the largest standard scale that fits. */
  all(options: Omit<PlateOptions, 'scale'>): MadePlate[] {
    return this.names.map(({ id }) => this.sheet(id, options)!)
  }
}
