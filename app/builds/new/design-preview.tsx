import { designById } from '#lib/core/design/designs/registry'
import { drawView, modelViews } from '#lib/core/design/drawing/draw-model'
import type { Drawing } from '#lib/core/design/drawing/drawing'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { DrawingSvg } from '../../ui/drawing/drawing-svg'

/** A design's drawings never change while the server runs. */
const drawn = new Map<string, Promise<readonly Drawing[]>>()

async function draw(designId: string): Promise<readonly Drawing[]> {
  const model = designById(designId)?.build({})
  if (!model?.ok) return []
  const bare = { ...model.value, dimensions: [] }
  const views = modelViews(await loadSolidKernel(), bare)
  const options = { textMm: 24, hiddenLines: false, screws: false, narrow: true }
  return views.filter((v) => v.view !== 'top').map((v) => drawView(bare, v, options))
}

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
    <div className="grid grid-cols-2 items-end gap-4 border-b border-hairline pb-3">
      {drawings.map((d) => (
        <DrawingSvg key={d.view} drawing={d} className="max-h-64" />
      ))}
    </div>
  )
}
