'use client'
import { useEffect, useMemo, useRef, useState } from 'react'
import { PICTURE_NAMES, PICTURE_VIEWS, type PicturePlace, type PictureView } from '#lib/shop/picture-places'
import { useAnswers, useVariantDesk } from '../use-answers'
import { CommentList, type ShownComment } from './comment-list'
import type { LookedAt } from './looked-at'
import { PinnedPicture } from './pinned-picture'
import { pinsOn } from './pins'
import { SayForm } from './say-form'

interface PicturesProps {
  readonly variant: LookedAt
  readonly parts: readonly { readonly id: string; readonly name: string }[]
  readonly comments: readonly ShownComment[]
  readonly mayComment: boolean
}

/** The pictures with their numbered pins, what was said beside them, and a form to say something. */
export function PinnedPictures({ variant, parts, comments, mayComment }: PicturesProps) {
  const [view, setView] = useState<PictureView>('corner')
  const [place, setPlace] = useState<PicturePlace | null>(null)
  const [partId, setPartId] = useState('')
  const [lit, setLit] = useState<string | null>(null)
  const desk = useVariantDesk()
  const { designId, parameters } = variant
  const [drawn] = useAnswers(desk, [{ kind: 'picture', designId, parameters, from: view }])
  const pins = useMemo(
    () => (drawn.state === 'done' ? pinsOn(view, comments, drawn.answer.centres) : []),
    [view, comments, drawn],
  )
  // The part under the place that was pointed at is taken to be meant.
  const asked = useRef(0)
  useEffect(() => {
    if (!place) return
    const mine = ++asked.current
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
        <PinnedPicture
          drawn={drawn}
          label={`${variant.name}: ${PICTURE_NAMES[view]}`}
          pins={pins}
          lit={lit}
          light={setLit}
          aim={place?.view === view ? place : null}
          point={mayComment ? (at) => setPlace({ view, ...at }) : undefined}
        />
      </div>
      <div className="grid min-w-0 gap-6">
        <CommentList comments={comments} parts={parts} lit={lit} show={show} />
        {mayComment ? (
          <SayForm
            variant={variant}
            parts={parts}
            partId={partId}
            pickPart={pickPart}
            place={place}
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

function Views({ view, pick }: { view: PictureView; pick: (view: PictureView) => void }) {
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
