'use client'
import type { LeaningTipping, TippingReport } from '#lib/core/statics/tipping-report'
import { feetDrawing, svgPoints } from '#lib/shop/strength-drawing'
import { sayLoads, tippingWords } from '#lib/shop/strength-words'
import { Section } from '../../../ui/sheet'
import { useSay } from './say'
import { SourceOf } from './source-of'

/** Where it stands, seen from above, and which way it would go over first. */
export function TippingSection({ tipping }: { tipping: TippingReport }) {
  const say = useSay()
  const more = [tipping.onFootRest, tipping.onEdge].filter((t) => t !== undefined)
  return (
    <Section title="Tipping">
      <div className="grid gap-x-10 gap-y-5 lg:grid-cols-[minmax(0,22rem)_minmax(0,1fr)]">
        <FeetView tipping={tipping} />
        <div className="min-w-0">
          <ul aria-label="Tipping" className="divide-y divide-hairline border-y border-hairline">
            {[...tipping.cases, ...more].map((one) => (
              <TippingRow key={one.case.id} tipping={one} />
            ))}
          </ul>
          <p className="mt-3 max-w-[62ch] text-ink-soft">
            {say(`As judged it weighs about ${(tipping.piece.weightN / 9.81).toFixed(1)} kg.`)} Empty, it
            falls over when it is tilted by {((tipping.tiltRad * 180) / Math.PI).toFixed(0)}°. All this is on
            a level, hard floor; on carpet or a slope it stands less firmly.
          </p>
        </div>
      </div>
    </Section>
  )
}

function TippingRow({ tipping: { case: one, worst, lean } }: { tipping: LeaningTipping }) {
  const say = useSay()
  return (
    <li className="py-3">
      <p>
        <strong>{one.name}:</strong> {say(tippingWords(worst, lean))}
      </p>
      <p className="mt-0.5 text-[0.85rem] text-ink-soft">
        {say(sayLoads(one))}. <SourceOf source={one.source} />
      </p>
    </li>
  )
}

function FeetView({ tipping }: { tipping: TippingReport }) {
  const drawing = feetDrawing(tipping)
  if (!drawing) return null
  const { box, support, surface, feet, centre, load, line, arrow } = drawing
  const size = Math.max(box.width, box.height)
  const [tail, tip] = arrow
  const dot = size * 0.016
  return (
    <figure className="min-w-0">
      <svg
        viewBox={`${box.x} ${box.y} ${box.width} ${box.height}`}
        role="img"
        aria-label="The feet from above, and the way in which it tips first"
        className="mx-auto block max-h-80 w-full"
      >
        <defs>
          <marker
            id="tips"
            viewBox="0 0 10 10"
            refX="8"
            refY="5"
            markerWidth="5"
            markerHeight="5"
            orient="auto"
          >
            <path d="M0 0 10 5 0 10z" className="fill-stop" />
          </marker>
        </defs>
        <polygon
          points={svgPoints(support)}
          vectorEffect="non-scaling-stroke"
          className="fill-accent-wash stroke-accent [stroke-width:1.5]"
        />
        <polygon
          points={svgPoints(surface)}
          vectorEffect="non-scaling-stroke"
          className="fill-none stroke-ink-soft [stroke-dasharray:6_4] [stroke-width:1.2]"
        />
        <line
          {...{ x1: line[0][0], y1: line[0][1], x2: line[1][0], y2: line[1][1] }}
          vectorEffect="non-scaling-stroke"
          className="stroke-stop [stroke-width:4]"
        />
        {feet.map((p) => (
          <rect
            key={svgPoints([p])}
            {...{ x: p[0] - dot, y: p[1] - dot, width: dot * 2, height: dot * 2 }}
            className="fill-ink"
          />
        ))}
        <circle
          {...{ cx: centre[0], cy: centre[1], r: dot * 1.4 }}
          vectorEffect="non-scaling-stroke"
          className="fill-sheet stroke-ink [stroke-width:2]"
        />
        <circle {...{ cx: load[0], cy: load[1], r: dot * 1.4 }} className="fill-stop" />
        <line
          {...{ x1: tail[0], y1: tail[1], x2: tip[0], y2: tip[1] }}
          vectorEffect="non-scaling-stroke"
          markerEnd="url(#tips)"
          className="stroke-stop [stroke-width:2.5]"
        />
      </svg>
      <figcaption className="mt-2 text-[0.88rem] text-ink-soft">
        From above, front at the bottom. Filled: the ground that the feet (squares) span; dashed: the top.
        Ring: its weight; dot and arrow: where the load stands and which way it goes over first, about the
        thick line.
      </figcaption>
    </figure>
  )
}
