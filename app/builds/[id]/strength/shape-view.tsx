'use client'
import clsx from 'clsx'
import type { StrengthCheck } from '#lib/core/statics/checks'
import type { StrengthSheet } from '#lib/engine/strength-run'
import { shapeDrawing, svgPoints } from '#lib/shop/strength-drawing'
import { useSay } from './say'

const VIEW = { front: 'from the front', side: 'from the side' } as const

/** The piece in elevation, how it bends under the load of a check, and where that hurts. */
export function ShapeView({ sheet, check }: { sheet: StrengthSheet; check: StrengthCheck }) {
  const say = useSay()
  const shape = sheet.shapes.find(({ loadCase }) => loadCase === check.loadCase)
  const drawing = shapeDrawing(sheet.parts, shape, check.where.at)
  const { box, deflected, mark } = drawing
  const size = Math.max(box.width, box.height)
  const hurt = new Set(check.where.partIds)
  const names = sheet.parts.filter(({ partId }) => hurt.has(partId)).map(({ name }) => `«${name}»`)
  const isHurt = ({ partId }: { readonly partId: string }) => hurt.has(partId)
  const parts = [...drawing.parts.filter((p) => !isHurt(p)), ...drawing.parts.filter(isHurt)]
  const moved = deflected
    ? say(
        ` Thick lines: how it bends, drawn ${deflected.times} times larger (in truth ${shape?.mostMm.toFixed(1)} mm at most).`,
      )
    : ''
  return (
    <figure className="min-w-0">
      <svg
        viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
        role="img"
        aria-label={`The piece ${VIEW[drawing.view]}, ${names.join(' and ') || 'the place'} marked`}
        className="mx-auto block max-h-96 w-full"
      >
        {parts.map(({ partId, outline }) => (
          <polygon
            key={partId}
            points={svgPoints(outline)}
            vectorEffect="non-scaling-stroke"
            className={clsx(
              hurt.has(partId)
                ? 'fill-wood stroke-ink [fill-opacity:0.75] [stroke-width:1.8]'
                : 'fill-sheet stroke-hairline-strong [fill-opacity:0.6] [stroke-width:1]',
            )}
          />
        ))}
        {deflected?.lines.map((line) => (
          <polyline
            key={svgPoints(line)}
            points={svgPoints(line)}
            fill="none"
            vectorEffect="non-scaling-stroke"
            strokeLinecap="round"
            className="stroke-accent [stroke-width:3]"
          />
        ))}
        <circle
          cx={mark[0]}
          cy={mark[1]}
          r={size * 0.035}
          fill="none"
          vectorEffect="non-scaling-stroke"
          className={clsx(check.passes ? 'stroke-ink' : 'stroke-stop', '[stroke-width:3.5]')}
        />
      </svg>
      <figcaption className="mt-2 text-[0.88rem] text-ink-soft">
        {check.loadCase}, {VIEW[drawing.view]}. Ring: where it is closest to failing
        {names.length > 0 ? `, ${names.join(' and ')} filled` : ''}.{moved}
      </figcaption>
    </figure>
  )
}
