/**
 * Places on a picture of a variant: which drawn pictures there are, and where on one, or on a still that a member
 * shows, a comment points to. `x` and `y` run from 0 to 1, from the picture's left and its top.
 * Tests: tests/data/comments.test.ts, tests/data/stills.test.ts
 */
export const PICTURE_VIEWS = ['corner', 'front', 'side', 'top'] as const
export type PictureView = (typeof PICTURE_VIEWS)[number]

export const PICTURE_NAMES: Readonly<Record<PictureView, string>> = {
  corner: 'Corner',
  front: 'Front',
  side: 'Side',
  top: 'Top',
}

/** Of a picture: a drawn one by its name, a still by its id. */
export type PictureId = PictureView | (string & {})

export interface PicturePlace {
  readonly view: PictureId
  readonly x: number
  readonly y: number
}

/** @example isPictureView('corner') //=> true */
export const isPictureView = (name: string): name is PictureView =>
  (PICTURE_VIEWS as readonly string[]).includes(name)
