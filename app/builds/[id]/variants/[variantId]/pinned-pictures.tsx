'use client'
import { type ReactNode, useEffect, useMemo, useRef, useState } from 'react'
import {
  isPictureView,
  PICTURE_NAMES,
  PICTURE_VIEWS,
  type PictureId,
  type PicturePlace,
} from '#lib/shop/picture-places'
import { frameMm, PictureSvg } from '../../../../ui/drawing/picture-svg'
import { StillImg } from '../still-img'
import { useAnswers, useVariantDesk } from '../use-answers'
import type { DrawnVariant } from '../variant-head'
import { CommentList, type ShownComment } from './comment-list'
import type { LookedAt } from './looked-at'
import { PinnedPicture } from './pinned-picture'
import { pinsOn } from './pins'
import { SayForm } from './say-form'
import { pictureName, type ShownStill, StillAbout, StillStrip } from './stills'

interface PicturesProps {
  readonly variant: LookedAt
  readonly parts: readonly { readonly id: string; readonly name: string }[]
  readonly comments: readonly ShownComment[]
  readonly mayComment: boolean
  /** Of the 3-D view, that members show. */
  readonly stills: readonly ShownStill[]
  /** The still that is looked at first. */
  readonly first: string | undefined
}

/** The pictures with their numbered pins, what was said beside them, and a form to say something. */
export function PinnedPictures(props: PicturesProps) {
  const { variant, parts, comments, mayComment, stills } = props
  const [picked, setView] = useState<PictureId>(props.first ?? 'corner')
  const still = stills.find(({ id }) => id === picked)
  // A still that was taken back meanwhile is looked at no more.
  const view = still?.id ?? (isPictureView(picked) ? picked : 'corner')
  const [place, setPlace] = useState<PicturePlace | null>(null)
  const [partId, setPartId] = useState('')
  const [lit, setLit] = useState<string | null>(null)
  const desk = useVariantDesk()
  const { designId, parameters } = variant
  const from = isPictureView(view) ? view : 'corner'
  const [drawn] = useAnswers(desk, [{ kind: 'picture', designId, parameters, from }])
  const pins = useMemo(() => {
    if (still) return pinsOn(view, comments, {})
    return drawn.state === 'done' ? pinsOn(view, comments, drawn.answer.centres) : []
  }, [view, still, comments, drawn])
  // The part under the place that was pointed at is taken to be meant.
  const asked = useRef(0)
  useEffect(() => {
    if (!place) return
    const mine = ++asked.current
    // Where a still was seen from is not known.
    if (!isPictureView(place.view)) return
    desk
      .ask({ kind: 'partAt', designId, parameters, from: place.view, at: [place.x, place.y] })
      .outcome.then((outcome) => {
        if (mine === asked.current && outcome.kind === 'done' && outcome.answer.kind === 'partAt')
          setPartId(outcome.answer.partId ?? '')
      })
  }, [place, desk, designId, parameters])
  const pickPart = (id: string) => {
    // What was picked by hand is not overruled by an answer that is still under way.
    asked.current++
    setPartId(id)
  }
  const show = (comment: ShownComment) => {
    if (comment.place) setView(comment.place.view)
    setLit(comment.id)
  }
  return (
    <div className="grid items-start gap-x-10 gap-y-8 lg:grid-cols-[minmax(0,1fr)_minmax(0,24rem)]">
      <div className="min-w-0 lg:sticky lg:top-4">
        <Views view={view} pick={setView} />
        <Framed {...{ still, drawn }} label={`${variant.name}: ${pictureName(view, stills)}`}>
          {(shape, picture) => (
            <PinnedPicture
              {...{ shape, pins, lit }}
              light={setLit}
              aim={place?.view === view ? place : null}
              point={mayComment ? (at) => setPlace({ view, ...at }) : undefined}
            >
              {picture}
            </PinnedPicture>
          )}
        </Framed>
        {still ? <StillAbout still={still} /> : null}
        <StillStrip stills={stills} shown={still?.id} pick={setView} variantName={variant.name} />
      </div>
      <div className="grid min-w-0 gap-6">
        <CommentList {...{ comments, parts, stills, lit, show }} />
        {mayComment ? (
          <SayForm
            variant={variant}
            parts={parts}
            partId={partId}
            pickPart={pickPart}
            place={place}
            pointedAt={place && pictureName(place.view, stills)}
            unpoint={() => {
              setPlace(null)
              setPartId('')
            }}
          />
        ) : null}
      </div>
    </div>
  )
}

interface FramedProps {
  readonly still: ShownStill | undefined
  readonly drawn: DrawnVariant
  readonly label: string
  readonly children: (shape: number, picture: ReactNode) => ReactNode
}

/** The picture that is looked at with its shape, or why there is none yet. */
function Framed({ still, drawn, label, children }: FramedProps) {
  if (still)
    return children(
      still.widthPx / still.heightPx,
      <StillImg stillId={still.id} alt={label} className="absolute inset-0 size-full" />,
    )
  if (drawn.state !== 'done')
    return (
      <p className="grid h-80 place-items-center border border-hairline bg-sheet p-6 text-center text-ink-soft">
        {drawn.state === 'refused' ? drawn.sentence : 'Drawing…'}
      </p>
    )
  const { picture } = drawn.answer
  const [widthMm, heightMm] = frameMm(picture)
  return children(
    widthMm / heightMm,
    <PictureSvg picture={picture} label={label} className="absolute inset-0 h-full" />,
  )
}

function Views({ view, pick }: { view: PictureId; pick: (view: PictureId) => void }) {
  return (
    <fieldset className="flex border border-b-0 border-hairline bg-sheet">
      <legend className="sr-only">Picture</legend>
      {PICTURE_VIEWS.map((name) => (
        <label
          key={name}
          className="relative flex min-h-11 flex-1 cursor-pointer items-center justify-center border-b-[3px] border-transparent px-1 text-center text-[0.92rem] leading-tight has-checked:border-accent has-checked:font-semibold has-focus-visible:outline-3 has-focus-visible:outline-accent sm:px-4"
        >
          <input
            type="radio"
            name="view"
            className="sr-only"
            checked={view === name}
            onChange={() => pick(name)}
          />
          {PICTURE_NAMES[name]}
        </label>
      ))}
    </fieldset>
  )
}
