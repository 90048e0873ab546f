/** Numbered pins on pictures: which comments have one, and where. Pure; tests: tests/app/pins.test.ts */
import type { PictureId, PicturePlace } from '#lib/shop/picture-places'

export interface PinnedComment {
  readonly id: string
  readonly partId: string | null
  readonly place: PicturePlace | null
}

export interface Pin {
  readonly commentId: string
  /** As in the list beside it, from 1. */
  readonly number: number
  readonly x: number
  readonly y: number
  /** It stands where its part is now, not where somebody pointed. */
  readonly isByPart: boolean
}

type Centres = Readonly<Record<string, readonly [number, number]>>

/**
 * Pins of one picture. A place that was pointed at is shown on its own picture alone; a comment about a part alone
 * stands at the middle of the part on every picture.
 * @param centres of the parts, as shares of this picture's frame
 */
export function pinsOn(view: PictureId, comments: readonly PinnedComment[], centres: Centres): Pin[] {
  return comments.flatMap(({ id, partId, place }, i): Pin[] => {
    const pin = { commentId: id, number: i + 1 }
    if (place) return place.view === view ? [{ ...pin, x: place.x, y: place.y, isByPart: false }] : []
    const centre = partId === null ? undefined : centres[partId]
    return centre ? [{ ...pin, x: centre[0], y: centre[1], isByPart: true }] : []
  })
}

const STEP = 0.02
const BIG = 5
const WAYS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

/**
 * Where the aim goes with a key; null for keys that are not its own.
 * @example movedAim({ x: 0.5, y: 0.5 }, 'ArrowLeft', false) //=> { x: 0.48, y: 0.5 }
 */
export function movedAim(
  aim: { readonly x: number; readonly y: number },
  key: string,
  isBig: boolean,
): { x: number; y: number } | null {
  const way = WAYS[key]
  if (!way) return null
  const step = isBig ? STEP * BIG : STEP
  const to = (at: number, by: number) => Number(Math.min(1, Math.max(0, at + by * step)).toFixed(4))
  return { x: to(aim.x, way[0]), y: to(aim.y, way[1]) }
}
