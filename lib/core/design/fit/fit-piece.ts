/**
 * The fit of a finished piece: what its design says of people and place, its way in, and what stands in the way of what.
 * mm. Every design ends here, whatever it is. Tests: tests/core/design/fit/fit-piece.test.ts
 */
import type { Clash, FitLine, Notice, ParameterValues, Part, PlaceBox } from '../model'
import type { FlatFace } from '../part-shape'
import { clashesOf, clashNotices } from './clashes'
import { noticesOfFit, wayInLines } from './fit-lines'
import { boxAround, boxOf, sidesOf } from './way-in'

export interface PieceFit {
  readonly clashes: readonly Clash[]
  readonly fit: readonly FitLine[]
  readonly notices: readonly Notice[]
}

/**
 * @param piece one piece: of several alike, the first; its faces by part
 * @param read values of the parameters, `wayInParameters` among them
 * @param told ids of lines that the design has notices of its own for
 */
export function fitOfPiece(
  piece: { readonly parts: readonly Part[]; readonly faces: ReadonlyMap<string, readonly FlatFace[]> },
  place: readonly PlaceBox[],
  lines: readonly FitLine[],
  read: ParameterValues,
  told: readonly string[] = [],
): PieceFit {
  const { parts, faces } = piece
  const door = { widthMm: Number(read.doorWidth), heightMm: Number(read.doorHeight) }
  const boxes = parts.map((part) => boxOf(part, faces.get(part.id)))
  const wayIn = wayInLines(sidesOf(boxAround(boxes)), door, Number(read.turnWidth))
  const clashes = clashesOf(parts, place, boxes)
  const fit = [...lines, ...wayIn]
  const untold = fit.filter(({ id }) => !told.includes(id))
  return { clashes, fit, notices: [...clashNotices(clashes, parts, place), ...noticesOfFit(untold)] }
}
