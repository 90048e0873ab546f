'use client'
import clsx from 'clsx'
import { useEffect } from 'react'
import type { PicturePlace } from '#lib/shop/picture-places'
import { Section } from '../../../../ui/sheet'
import { TakeBack } from '../../take-back'
import { isThere, pictureName, type ShownStill } from './stills'

export interface ShownComment {
  readonly id: string
  readonly body: string
  readonly memberName: string
  readonly mayRemove: boolean
  readonly partId: string | null
  readonly place: PicturePlace | null
  /** When, in words. */
  readonly said: string
  /** Said of numbers that have changed since. */
  readonly isOlder: boolean
}

interface ListProps {
  readonly comments: readonly ShownComment[]
  readonly parts: readonly { readonly id: string; readonly name: string }[]
  readonly stills: readonly ShownStill[]
  readonly lit: string | null
  /** Turns to the picture that was pointed at. */
  readonly show: (comment: ShownComment) => void
}

/** What was said, numbered as the pins are. */
export function CommentList({ comments, parts, stills, lit, show }: ListProps) {
  useEffect(() => {
    if (lit) document.getElementById(`comment-${lit}`)?.scrollIntoView({ block: 'nearest' })
  }, [lit])
  const nameOf = (partId: string) => parts.find((p) => p.id === partId)?.name ?? 'a part that is gone'
  return (
    <Section title="What members say" id="comments">
      {comments.length === 0 ? (
        <p className="text-ink-soft">
          Nobody has said anything about it yet. Point at the picture and begin.
        </p>
      ) : (
        <ol aria-label="Comments" className="grid gap-4">
          {comments.map((c, i) => (
            <li
              key={c.id}
              id={`comment-${c.id}`}
              className={clsx(
                'scroll-mt-20 border-l-4 pl-3',
                lit === c.id ? 'border-accent' : 'border-hairline',
              )}
            >
              <div className="flex items-start gap-2.5">
                <CommentNumber n={i + 1} comment={c} canShow={canShow(c, stills)} show={show} />
                <div className="min-w-0 flex-1">
                  <p className="caption pt-1">
                    <span className="font-semibold text-ink">{c.memberName}</span> {c.said}
                  </p>
                  {c.partId || c.place ? (
                    <p className="text-[0.88rem] text-ink-soft">
                      {[c.partId ? nameOf(c.partId) : '', c.place ? pictureName(c.place.view, stills) : '']
                        .filter(Boolean)
                        .join(', ')}
                    </p>
                  ) : null}
                  <p className="whitespace-pre-line wrap-anywhere">{c.body}</p>
                  {c.isOlder ? (
                    <p className="text-[0.88rem] font-medium text-caution">Said before its numbers changed</p>
                  ) : null}
                  {c.mayRemove ? <TakeBack commentId={c.id} /> : null}
                </div>
              </div>
            </li>
          ))}
        </ol>
      )}
    </Section>
  )
}

const canShow = ({ place, partId }: ShownComment, stills: readonly ShownStill[]): boolean =>
  place ? isThere(place.view, stills) : partId !== null

interface NumberProps extends Pick<ListProps, 'show'> {
  readonly n: number
  readonly comment: ShownComment
  readonly canShow: boolean
}

/** Its number: a button where there is something to be shown. */
function CommentNumber({ n, comment, canShow, show }: NumberProps) {
  const look =
    'grid size-7 shrink-0 place-items-center rounded-full border-2 text-[0.85rem] leading-none font-semibold'
  if (!canShow)
    return (
      <span className={clsx(look, 'border-hairline-strong text-ink-soft')}>
        <span className="sr-only">Comment </span>
        {n}
      </span>
    )
  return (
    <button
      type="button"
      aria-label={`Show comment ${n} on the picture`}
      onClick={() => show(comment)}
      className="-m-2 grid size-11 shrink-0 place-items-center"
    >
      <span className={clsx(look, 'border-accent text-accent', !comment.place && 'border-dashed')}>{n}</span>
    </button>
  )
}
