'use client'
/** Stills: pictures of the 3-D view that members show, to be looked at and pointed at like the drawn ones. */
import clsx from 'clsx'
import { isPictureView, PICTURE_NAMES, type PictureId } from '#lib/shop/picture-places'
import { AskFirst } from '../../../../ui/dialog'
import { takeBackStill } from '../actions'
import { StillImg } from '../still-img'

export interface ShownStill {
  readonly id: string
  readonly caption: string
  readonly memberName: string
  /** When, in words. */
  readonly said: string
  readonly widthPx: number
  readonly heightPx: number
  /** Made of numbers that have changed since. */
  readonly isOlder: boolean
  readonly mayRemove: boolean
}

const find = (id: PictureId, stills: readonly ShownStill[]) => stills.find((s) => s.id === id)

export const isThere = (id: PictureId, stills: readonly ShownStill[]): boolean =>
  isPictureView(id) || find(id, stills) !== undefined

/** @example pictureName('side', []) //=> 'side view' */
export function pictureName(id: PictureId, stills: readonly ShownStill[]): string {
  if (isPictureView(id)) return `${PICTURE_NAMES[id].toLowerCase()} view`
  const still = find(id, stills)
  return still ? `picture «${still.caption}»` : 'picture that was taken back'
}

/** Under a still that is looked at: what it shows, who shows it, of which numbers. */
export function StillAbout({ still }: { still: ShownStill }) {
  return (
    <div className="flex flex-wrap items-center justify-between gap-x-4 pt-1.5">
      <p className="caption">
        {still.caption}. <span className="font-semibold text-ink">{still.memberName}</span> {still.said}
        {still.isOlder ? (
          <span className="block font-medium text-caution">Made before its numbers changed</span>
        ) : null}
      </p>
      {still.mayRemove ? (
        <AskFirst
          look="quiet"
          label="Take the picture back"
          question="Take this picture back?"
          consequence="It is gone for everyone. What was said about it stays."
          yes="Take it back"
          action={takeBackStill}
          hidden={{ stillId: still.id }}
        />
      ) : null}
    </div>
  )
}

interface StripProps {
  readonly stills: readonly ShownStill[]
  readonly shown: string | undefined
  readonly pick: (stillId: string) => void
  readonly variantName: string
}

/** All of them, small. */
export function StillStrip({ stills, shown, pick, variantName }: StripProps) {
  return (
    <div className="mt-3 border-t border-hairline pt-3">
      <h2 className="text-[0.95rem] font-semibold">Pictures of its 3-D view</h2>
      {stills.length === 0 ? (
        <p className="mt-1 text-[0.92rem] text-ink-soft">
          None yet. Turn it, take it apart or cut it open on the Design page, under 3-D, and choose «Show to
          the shop». That needs a browser with 3-D; the drawn pictures above need none.
        </p>
      ) : (
        <ul aria-label={`Pictures of ${variantName}`} className="mt-2 flex flex-wrap gap-2">
          {stills.map((still) => (
            <li key={still.id}>
              <button
                type="button"
                aria-pressed={still.id === shown}
                onClick={() => pick(still.id)}
                className={clsx(
                  'block border-b-[3px] pb-0.5',
                  still.id === shown ? 'border-accent' : 'border-transparent',
                )}
              >
                <StillImg
                  stillId={still.id}
                  alt={`${still.caption}, by ${still.memberName}`}
                  className="h-18 w-24 border border-hairline object-cover"
                />
              </button>
            </li>
          ))}
        </ul>
      )}
    </div>
  )
}
