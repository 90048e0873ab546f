import { drawView, modelViews } from '#lib/core/design/drawing/draw-model'
import type { Drawing } from '#lib/core/design/drawing/drawing'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { findDesign } from '../../designs/find-design'
import { DrawingSvg } from '../../ui/drawing/drawing-svg'

/** A design's drawings never change while the server runs. */
const drawn = new Map<string, Promise<readonly Drawing[]>>()

async function draw(designId: string): Promise<readonly Drawing[]> {
  const model = (await findDesign(designId))?.build({})
  if (!model?.ok) return []
  const bare = { ...model.value, dimensions: [] }
  const views = modelViews(await loadSolidKernel(), bare)
  const options = { textMm: 24, hiddenLines: false, screws: false, narrow: true }
  return views.filter((v) => v.view !== 'top').map((v) => drawView(bare, v, options))
}

const widthOf = ({ bounds }: Drawing) => bounds.max[0] - bounds.min[0]

/** What the design looks like with its own numbers, from the front and from the side. */
export async function DesignPreview({ designId }: { readonly designId: string }) {
  let waiting = drawn.get(designId)
  if (!waiting) {
    waiting = draw(designId)
    drawn.set(designId, waiting)
    waiting.catch(() => drawn.delete(designId))
  }
  const drawings = await waiting.catch(() => [])
  return (
    // One scale for both: each view is as wide as its share of the two together.
    <div className="flex h-56 items-end gap-4 border-b border-hairline pb-3">
      {drawings.map((d) => (
        <div
          key={d.view}
          className="flex max-h-full min-w-0 items-end self-stretch"
          style={{ flex: `${widthOf(d)} 1 0` }}
        >
          <DrawingSvg drawing={d} className="max-h-full w-full" />
        </div>
      ))}
    </div>
  )
}
