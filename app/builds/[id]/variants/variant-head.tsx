'use client'
import Link from '#app/ui/link'
import type { VariantAsk } from '#lib/engine/variant-run'
import { PictureSvg } from '../../../ui/drawing/picture-svg'
import { Tag } from '../../../ui/tag'
import type { ShownVariant } from './shown-variant'
import { StillImg } from './still-img'
import type { Answered } from './use-answers'

export type DrawnVariant = Answered<Extract<VariantAsk, { kind: 'picture' }>>

interface HeadProps {
  readonly buildId: string
  readonly variant: ShownVariant
  /** Of designs, by id. */
  readonly names: Readonly<Record<string, string>>
  readonly picture: DrawnVariant
  readonly boxMm: readonly [number, number] | undefined
}

/** Over a variant's column: its picture, its name, whether it is the chosen one. */
export function VariantHead(props: HeadProps) {
  const { buildId, variant, names } = props
  const href = `/builds/${buildId}/variants/${variant.id}`
  return (
    <div className="grid gap-2">
      <Link
        href={href}
        aria-label={`Look at ${variant.name}`}
        className="block border border-hairline bg-sheet p-2"
      >
        <CardPicture {...props} />
      </Link>
      <CardStills variant={variant} href={href} />
      <div>
        <h2 className="text-[1.1rem] leading-tight font-semibold wrap-anywhere">
          <Link href={href} className="link">
            {variant.name}
          </Link>
        </h2>
        <p className="caption mt-1">{names[variant.designId] ?? 'A design that is not here any more'}</p>
        {variant.chosen ? (
          <div className="mt-1.5">
            <Tag tone="good">Chosen</Tag>
          </div>
        ) : null}
      </div>
    </div>
  )
}

const MOST_SMALL = 3

/** The last pictures of its 3-D view, small: touched, one is looked at. */
function CardStills({ variant, href }: { variant: ShownVariant; href: string }) {
  if (variant.stills.length === 0) return null
  return (
    <ul aria-label={`Pictures of ${variant.name}`} className="flex gap-1.5">
      {variant.stills.slice(-MOST_SMALL).map(({ id, caption }) => (
        <li key={id}>
          <Link href={`${href}?picture=${id}`} className="block">
            <StillImg stillId={id} alt={caption} className="h-12 w-16 border border-hairline object-cover" />
          </Link>
        </li>
      ))}
    </ul>
  )
}

function CardPicture({ variant, picture, boxMm }: HeadProps) {
  if (picture.state === 'done' && boxMm)
    return (
      <PictureSvg
        picture={picture.answer.picture}
        boxMm={boxMm}
        label={`${variant.name}, seen from its corner`}
        className="h-40 sm:h-48"
      />
    )
  return (
    <p className="grid h-40 place-items-center text-center text-ink-soft sm:h-48">
      {picture.state === 'refused' ? picture.sentence : 'Drawing…'}
    </p>
  )
}
