'use client'
import { MOVEMENT } from '#lib/core/statics/sources'
import type { StrengthSheet } from '#lib/engine/strength-run'
import { alikeHeld, movingParts } from '#lib/shop/strength-words'
import { Section } from '../../../ui/sheet'
import { useSay } from './say'
import { SourceOf } from './source-of'

/** Lines that are shown at once. */
const HELD_SHOWN = 4

/** How much every part grows across its grain from the dry to the damp end of the year, and what holds or pinches it. */
export function MovementSection({ sheet }: { sheet: StrengthSheet }) {
  const mm = useMm()
  const { season, parts, held, gaps } = sheet.report.movement
  const nameOf = new Map(sheet.parts.map(({ partId, name }) => [partId, name]))
  const kindOf = new Map(sheet.parts.map(({ partId, kind }) => [partId, kind]))
  const name = (id: string) => `«${nameOf.get(id) ?? id}»`
  const kind = (id: string) => kindOf.get(id) ?? id
  const lines = alikeHeld(held, kind)
  return (
    <Section
      title="Wood movement"
      note={`Across the grain, from the dry end of the year (${season.dryPct.toFixed(1)} % moisture in the wood) to the damp one (${season.dampPct.toFixed(1)} %), as for the widest-moving way to saw it. Along the grain it hardly moves.`}
    >
      <div className="grid gap-x-10 gap-y-6 lg:grid-cols-2">
        <table className="w-full self-start text-left">
          <caption className="sr-only">Movement across the grain by kind of part</caption>
          <thead>
            <tr className="border-b border-hairline-strong">
              <th scope="col" className="py-2 pr-3 font-medium">
                Part
              </th>
              <th scope="col" className="py-2 pr-3 text-right font-medium">
                Width
              </th>
              <th scope="col" className="py-2 text-right font-medium">
                Grows by
              </th>
            </tr>
          </thead>
          <tbody>
            {movingParts(parts, kind).map((row) => (
              <tr key={row.partId} className="border-b border-hairline">
                <td className="py-2 pr-3">
                  {nameOf.get(row.partId)}
                  {row.count > 1 ? <span className="text-ink-soft"> and {row.count - 1} like it</span> : null}
                </td>
                <td className="py-2 pr-3 text-right whitespace-nowrap">{mm(row.widthMm)}</td>
                <td className="py-2 text-right font-medium whitespace-nowrap">{mm(row.growthMm)}</td>
              </tr>
            ))}
          </tbody>
        </table>
        <div className="grid content-start gap-5">
          <div>
            <h3 className="font-semibold">Held across the grain</h3>
            {held.length === 0 ? <p className="text-ink-soft">Nothing is held.</p> : null}
            <HeldList of={lines.slice(0, HELD_SHOWN)} name={name} />
            {lines.length > HELD_SHOWN ? (
              <details className="print-open">
                <summary className="min-h-11 py-2.5 font-medium text-accent">
                  {lines.length - HELD_SHOWN} more that are held
                </summary>
                <HeldList of={lines.slice(HELD_SHOWN)} name={name} />
              </details>
            ) : null}
          </div>
          {gaps.length > 0 ? (
            <div>
              <h3 className="font-semibold">Gaps between boards</h3>
              <ul className="mt-1 grid list-disc gap-1.5 pl-5">
                {gaps.map((gap) => (
                  <li key={gap.partIds.join()}>
                    Between {name(gap.partIds[0])} and {name(gap.partIds[1])}: damp takes{' '}
                    <strong>{mm(gap.growthMm)}</strong> of {mm(gap.gapMm)}.
                  </li>
                ))}
              </ul>
            </div>
          ) : null}
        </div>
      </div>
      <p className="mt-4 max-w-[78ch] text-[0.85rem] text-ink-soft">
        <SourceOf source={MOVEMENT} />
      </p>
    </Section>
  )
}

interface HeldListProps {
  readonly of: ReturnType<typeof alikeHeld>
  readonly name: (partId: string) => string
}

/** A movement in this member's units. */
function useMm(): (mm: number) => string {
  const say = useSay()
  return (mm) => say(`${mm.toFixed(1)} mm`)
}

function HeldList({ of, name }: HeldListProps) {
  const mm = useMm()
  const say = useSay()
  return (
    <ul className="mt-1 grid list-disc gap-1.5 pl-5">
      {of.map(({ worst: one, count }) => (
        <li key={`${one.partId} ${one.byId}`}>
          {name(one.partId)}, {one.isGlued ? 'glued' : 'screwed'} to {name(one.byId)} over{' '}
          {say(`${Math.round(one.spanMm)} mm`)}: wants to move <strong>{mm(one.growthMm)}</strong>,{' '}
          {mm(one.limitMm)} is borne.{' '}
          {one.growthMm > one.limitMm ? 'It will crack or tear loose unless it can slide. ' : ''}
          {count > 1 ? <span className="text-ink-soft">{count} alike.</span> : null}
        </li>
      ))}
    </ul>
  )
}
