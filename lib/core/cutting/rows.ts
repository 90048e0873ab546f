/**
 * Parts head to tail in one strip, where one crosscut ends one part and begins the next: parts with leaning ends nest,
 * so that the slant is paid once a row and not once a part; short parts stay one piece until they are planed.
 *
 * A part turned half round in the board's plane keeps the lean of its ends and swaps them, so turning every other part
 * makes any two ends meet: parallelograms lie alike, trapezia alternate. Length of k parts = sum of their mid-lengths
 * + half of both outer slants + (k - 1) kerfs along the grain, each kerf / cos of the lean (plane geometry).
 * Whole micrometres, rounded so that the kerf square to the cut is never less than the saw's. Rows have square outer
 * ends; the finish cut takes the corners. Tests: tests/core/cutting/rows.test.ts
 */
import type { BlankEnds, CutBlank, CutNode, MachineLimits } from './problem'

/** One part in a row: corners along the grain from the row's left end. */
interface Place {
  readonly nearFromUm: number
  readonly nearToUm: number
  readonly farFromUm: number
  readonly farToUm: number
}

export interface Row {
  readonly count: number
  readonly lengthUm: number
  readonly places: readonly Place[]
}

/**
 * Kerf along the grain of a cut that leans: the smallest whole number whose square distance is not under the kerf.
 * @example kerfAlongUm(3_000, 100_000, 0) //=> 3_000
 * @example kerfAlongUm(3_000, 100_000, 75_000) //=> 3_750
 */
export function kerfAlongUm(kerfUm: number, widthUm: number, leanUm: number): number {
  if (leanUm === 0) return kerfUm
  let along = Math.floor(kerfUm * Math.sqrt(1 + (leanUm / widthUm) ** 2))
  const [k2, w2, l2] = [BigInt(kerfUm) ** 2n, BigInt(widthUm) ** 2n, BigInt(leanUm) ** 2n]
  while (BigInt(along) ** 2n * w2 < k2 * (w2 + l2)) along++
  return along
}

const SQUARE = (lengthUm: number): BlankEnds => ({ nearUm: lengthUm, leanAUm: 0, leanBUm: 0 })

/** Half a turn in the plane of the board: near edge and far edge change places, and so do the ends. */
const halfTurned = ({ nearUm, leanAUm, leanBUm }: BlankEnds): BlankEnds => ({
  nearUm: nearUm + leanBUm - leanAUm,
  leanAUm: leanBUm,
  leanBUm: leanAUm,
})

/**
 * `count` parts of one blank in a row.
 * @throws RangeError for a count under 1
 * @example rowOf({ lengthUm: 120, widthUm: 100, ends: { nearUm: 100, leanAUm: 20, leanBUm: 20 } }, 2, 0).lengthUm //=> 220
 */
export function rowOf(
  blank: Pick<CutBlank, 'lengthUm' | 'widthUm' | 'ends'>,
  count: number,
  kerfUm: number,
): Row {
  if (!Number.isInteger(count) || count < 1) throw new RangeError(`count: ${count}`)
  const ends = blank.ends ?? SQUARE(blank.lengthUm)
  const shapes = [ends, halfTurned(ends)]
  const places: Place[] = []
  let nearUm = Math.max(0, -ends.leanAUm)
  for (let i = 0; i < count; i++) {
    const { nearUm: length, leanAUm, leanBUm } = shapes[i % 2]
    const nearTo = nearUm + length
    places.push({
      nearFromUm: nearUm,
      nearToUm: nearTo,
      farFromUm: nearUm + leanAUm,
      farToUm: nearTo + leanBUm,
    })
    nearUm = nearTo + kerfAlongUm(kerfUm, blank.widthUm, leanBUm)
  }
  const last = places[count - 1]
  return { count, places, lengthUm: Math.max(last.nearToUm, last.farToUm) }
}

/**
 * What nesting a row saves against its parts one by one.
 * @example savedByRow(leg, 4, 3_000) //=> 18_412
 */
export function savedByRow(
  blank: Pick<CutBlank, 'lengthUm' | 'widthUm' | 'ends'>,
  count: number,
  kerfUm: number,
): number {
  return count * blank.lengthUm + (count - 1) * kerfUm - rowOf(blank, count, kerfUm).lengthUm
}

/** A piece whose ends may lean, from its four corners along the grain. */
interface Span {
  readonly nearFrom: number
  readonly nearTo: number
  readonly farFrom: number
  readonly farTo: number
}

/** The rectangle around a span, and how its ends lean where they do. */
function around(span: Span, yUm: number, widthUm: number) {
  const xUm = Math.min(span.nearFrom, span.farFrom)
  const lean = [span.farFrom - span.nearFrom, span.farTo - span.nearTo] as const
  const rect = { xUm, yUm, lengthUm: Math.max(span.nearTo, span.farTo) - xUm, widthUm }
  return lean[0] === 0 && lean[1] === 0 ? rect : { ...rect, leanUm: lean }
}

/** The cuts of a row from the part at `index` on, in a piece that ends square at `end`. */
function rowFrom(
  row: Row,
  index: number,
  left: { readonly nearFrom: number; readonly farFrom: number },
  frame: {
    readonly xUm: number
    readonly yUm: number
    readonly widthUm: number
    readonly kerfUm: number
    readonly blank: number
  },
): CutNode {
  const { xUm, yUm, widthUm, kerfUm, blank } = frame
  const end = xUm + row.lengthUm
  const leaf = (span: Span): CutNode => ({
    kind: 'blank',
    ...around(span, yUm, widthUm),
    blank,
    turned: false,
  })
  const whole = { ...left, nearTo: end, farTo: end }
  if (index === row.count - 1) return leaf(whole)
  const [nearTo, farTo] = [xUm + row.places[index].nearToUm, xUm + row.places[index].farToUm]
  const slant = farTo - nearTo
  const gap = kerfAlongUm(kerfUm, widthUm, slant)
  const rect = around(whole, yUm, widthUm)
  return {
    kind: 'cut',
    ...rect,
    cut: 'crosscut',
    atUm: nearTo - rect.xUm,
    ...(slant === 0 ? {} : { slantUm: slant }),
    first: leaf({ ...left, nearTo, farTo }),
    second: rowFrom(row, index + 1, { nearFrom: nearTo + gap, farFrom: farTo + gap }, frame),
  }
}

/**
 * The cuts of a row that lies in a rectangle at least as long as it is: what stands over comes off first, then one part
 * after another from the left.
 */
export function rowTree(
  row: Row,
  at: { readonly xUm: number; readonly yUm: number; readonly lengthUm: number; readonly widthUm: number },
  kerfUm: number,
  blank: number,
): CutNode {
  const { xUm, yUm, lengthUm, widthUm } = at
  const parts = rowFrom(row, 0, { nearFrom: xUm, farFrom: xUm }, { xUm, yUm, widthUm, kerfUm, blank })
  if (lengthUm === row.lengthUm) return parts
  const rect = { xUm, yUm, lengthUm, widthUm }
  const cut = { kind: 'cut' as const, ...rect, cut: 'crosscut' as const, atUm: row.lengthUm, first: parts }
  const restUm = lengthUm - row.lengthUm - kerfUm
  if (restUm <= 0) return cut
  return {
    ...cut,
    second: { kind: 'waste', xUm: xUm + row.lengthUm + kerfUm, yUm, lengthUm: restUm, widthUm },
  }
}

/** Whether the machines may make every cut of a row: no piece too short to hold, no slant longer than the sled takes. */
export function mayCutRow(row: Row, widthUm: number, limits: MachineLimits): boolean {
  if (row.count === 1) return true
  if (limits.stages !== null) return false
  const last = row.places[row.count - 2]
  const heldUm = row.lengthUm - Math.min(last.nearFromUm, last.farFromUm)
  if (heldUm < limits.minPieceLengthUm) return false
  const slant = Math.max(...row.places.slice(0, -1).map((p) => Math.abs(p.farToUm - p.nearToUm)))
  return Math.hypot(widthUm, slant) <= (limits.maxCrosscutWidthUm ?? Number.POSITIVE_INFINITY)
}

/**
 * Length that a part takes up in an endless row, less the kerf: no layout gives it less.
 * @example leastPitchUm({ lengthUm: 120, widthUm: 100, ends: { nearUm: 100, leanAUm: 20, leanBUm: 20 } }) //=> 100
 */
export function leastPitchUm(blank: Pick<CutBlank, 'lengthUm' | 'ends'>): number {
  if (blank.ends === undefined) return blank.lengthUm
  const { nearUm, leanAUm, leanBUm } = blank.ends
  return Math.min(blank.lengthUm, Math.floor(nearUm + (leanBUm - leanAUm) / 2))
}

/**
 * Area of a piece whose ends may lean, in square micrometres.
 * @example pieceAreaUm2({ lengthUm: 120, widthUm: 100, leanUm: [20, 20] }) //=> 10_000
 */
export function pieceAreaUm2(piece: {
  readonly lengthUm: number
  readonly widthUm: number
  readonly leanUm?: readonly [number, number]
}): number {
  const [a, b] = piece.leanUm ?? [0, 0]
  return piece.widthUm * (piece.lengthUm - (Math.abs(a) + Math.abs(b)) / 2)
}

/**
 * Length of a piece from its left tip along the edge that the tip is on: what a stop on the sled's fence measures when
 * that edge lies against the fence. The far edge does where the left end is square.
 * @example stopLengthUm({ lengthUm: 120, leanUm: [20, 20] }) //=> 100
 */
export function stopLengthUm(piece: {
  readonly lengthUm: number
  readonly leanUm?: readonly [number, number]
}): number {
  const [a, b] = piece.leanUm ?? [0, 0]
  return piece.lengthUm - Math.max(0, a > 0 ? b : -b)
}
