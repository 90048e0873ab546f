'use client'
import { useMemo } from 'react'
import { drawView, modelViews } from '#lib/core/design/drawing/draw-model'
import type { Model } from '#lib/core/design/model'
import { DrawingSvg } from '../../../ui/drawing/drawing-svg'
import { useSolidKernel } from '../../../ui/drawing/use-solid-kernel'

/** The side of the piece, small and without dimensions: what a thumb's change does, always in sight on a phone. */
export default function SmallView({ model }: { readonly model: Model }) {
  const solids = useSolidKernel()
  const kernel = solids.status === 'ready' ? solids.kernel : null
  const drawing = useMemo(() => {
    if (!kernel) return null
    const bare = { ...model, dimensions: [] }
    const side = modelViews(kernel, bare).find((v) => v.view === 'side')
    const options = { textMm: 1, hiddenLines: false, screws: false, narrow: true }
    return side ? drawView(bare, side, options) : null
  }, [kernel, model])
  return drawing ? <DrawingSvg drawing={drawing} className="h-full" /> : null
}
