import type { Board, Defect, Warp } from '#lib/core/board/board'

export const FLAT: Warp = { cupUm: 0, bowUm: 0, crookUm: 0, twistUm: 0 }

/** A sound, bare, cleared board of 2 m x 200 mm x 25 mm, but for what the test changes. */
export const soundBoard = (changes: Partial<Board> = {}): Board => ({
  id: 'board',
  lengthUm: 2_000_000,
  widthUm: 200_000,
  thicknessUm: 25_000,
  species: 'redOak',
  warp: FLAT,
  defects: [],
  finish: 'bare',
  metal: 'cleared',
  lead: 'notNeeded',
  treated: false,
  ...changes,
})

export const defect = (changes: Partial<Defect> = {}): Defect => ({
  id: 'defect',
  kind: 'nailHole',
  face: 'A',
  xUm: 500_000,
  yUm: 100_000,
  widthUm: 4_000,
  heightUm: 4_000,
  ...changes,
})
