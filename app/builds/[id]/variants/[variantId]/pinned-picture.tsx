'use client'
import clsx from 'clsx'
import { Crosshair } from 'lucide-react'
import { type KeyboardEvent, type PointerEvent, type ReactNode, useId } from 'react'
import { movedAim, type Pin } from './pins'

interface At {
  readonly x: number
  readonly y: number
}

interface PinnedPictureProps {
  /** Fills the frame. */
  readonly children: ReactNode
  /** Width over height. */
  readonly shape: number
  readonly pins: readonly Pin[]
  /** The comment that is looked at. */
  readonly lit: string | null
  readonly light: (commentId: string) => void
  readonly aim: At | null
  /** Absent: there is nothing to point for. */
  readonly point: ((at: At) => void) | undefined
}

const percent = (share: number) => `${(share * 100).toFixed(2)}%`

/** A picture that can be pointed at, by finger, mouse or keys. */
export function PinnedPicture({ children, shape, pins, lit, light, aim, point }: PinnedPictureProps) {
  const help = useId()
  const onPointer = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect()
    point?.({ x: (event.clientX - box.left) / box.width, y: (event.clientY - box.top) / box.height })
  }
  const onKeyDown = (event: KeyboardEvent) => {
    const to = movedAim(aim ?? { x: 0.5, y: 0.5 }, event.key, event.shiftKey)
    if (!to) return
    event.preventDefault()
    point?.(to)
  }
  return (
    <div className="grid place-items-center border border-hairline bg-sheet p-2">
      {/* As wide as fits, no higher than the screen is. */}
      <div className="relative w-full" style={{ aspectRatio: shape, maxWidth: `calc(68vh * ${shape})` }}>
        {children}
        {point ? (
          <button
            type="button"
            aria-label="Point at the picture"
            aria-describedby={help}
            className="absolute inset-0 cursor-crosshair touch-manipulation"
            onPointerUp={onPointer}
            onKeyDown={onKeyDown}
          />
        ) : null}
        {pins.map((pin) => (
          <a
            key={pin.commentId}
            href={`#comment-${pin.commentId}`}
            aria-label={`Comment ${pin.number}`}
            onClick={() => light(pin.commentId)}
            className={clsx(
              'absolute grid size-11 -translate-x-1/2 -translate-y-1/2 place-items-center',
              'focus-visible:z-10',
            )}
            style={{ left: percent(pin.x), top: percent(pin.y) }}
          >
            <span
              className={clsx(
                'grid size-7 place-items-center rounded-full border-2 text-[0.85rem] leading-none font-semibold',
                lit === pin.commentId
                  ? 'border-accent bg-accent text-on-accent outline-2 outline-offset-2 outline-accent'
                  : 'border-accent bg-sheet text-accent',
                pin.isByPart && 'border-dashed',
              )}
            >
              {pin.number}
            </span>
          </a>
        ))}
        {aim ? (
          <Crosshair
            aria-hidden="true"
            className="pointer-events-none absolute size-8 -translate-x-1/2 -translate-y-1/2 text-stop"
            style={{ left: percent(aim.x), top: percent(aim.y) }}
          />
        ) : null}
      </div>
      {point ? (
        <p id={help} className="mt-2 text-center text-[0.88rem] text-ink-soft">
          Tap a place to say something about it; with keys, the arrows move the aim, with Shift further.
        </p>
      ) : null}
    </div>
  )
}
