import type { LengthUnit } from '#lib/core/units/inches'
import { sayLength, saySize } from '#lib/format/length'
import { ButtonLink } from '../../ui/button'
import { Section } from '../../ui/sheet'

interface ShortProps {
  readonly buildId: string
  readonly units: LengthUnit
  readonly short: {
    readonly parts: readonly {
      readonly name: string
      readonly missing: number
      readonly sizeUm: readonly number[]
    }[]
    readonly cure: { readonly lengthUm: number; readonly widthUm: number } | null
  }
}

/** What the pool lacks, and the board that would make up for it. */
export function Short({ short, units, buildId }: ShortProps) {
  if (short.parts.length === 0) return null
  return (
    <Section
      title="Short"
      actions={
        <ButtonLink look="quiet" href={`/builds/${buildId}/cutting`}>
          Why
        </ButtonLink>
      }
    >
      <ul className="grid gap-1.5">
        {short.parts.map((p) => (
          <li key={`${p.name} ${p.sizeUm.join()}`} className="flex flex-wrap gap-x-3">
            <span className="font-semibold">
              {p.missing} × {p.name}
            </span>
            <span className="text-ink-soft">
              each cut from {saySize(p.sizeUm.slice(0, 2), units)}, {sayLength(p.sizeUm[2], units)} thick when
              flat
            </span>
          </li>
        ))}
      </ul>
      {short.cure ? (
        <p className="mt-3">
          One sound board of <strong>{saySize([short.cure.lengthUm, short.cure.widthUm], units)}</strong>{' '}
          would make up for it all.
        </p>
      ) : null}
    </Section>
  )
}
