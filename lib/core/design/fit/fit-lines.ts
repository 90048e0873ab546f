/**
 * How seats, tables and shelves suit people, and every piece its way in, as lines to read and notices. mm, shares of
 * adults from 0 to 1 (body-sizes.ts). Allowances marked «common practice» are the trade's, not a standard's.
 * A seat suits legs if it is not more than 40 mm above nor 60 mm below the hollow of the knee in shoes; it is measured
 * from what the feet stand on. Depth leaves 50 mm before the hollow of the knee; width is at least that of the hips; a
 * thigh needs its own thickness and 10 mm; a table top suits elbows from 10 mm below to 90 mm above them.
 * Tests: tests/core/design/fit/fit-lines.test.ts
 */
import { BODY_SOURCE, bodySizeMm, shareBetween } from '../body-sizes'
import type { FitLine, Notice } from '../model'
import { sayValue } from '../parameters'
import { type Sitter, sizeOfSitter } from './place-parameters'
import { type Corner, type Opening, type Pass, roundCorner, type Sides, throughDoor } from './way-in'

/** A person's share of a row: 24 in exactly (NKBA kitchen planning guideline). */
export const PLACE_WIDTH_MM = 609.6
const ABOVE_KNEE_MM = 40
const BELOW_KNEE_MM = 60
const BEFORE_KNEE_MM = 50
const OVER_THIGH_MM = 10
const ELBOW_BELOW_MM = 10
const ELBOW_ABOVE_MM = 90
/** A stair's least headroom, where the door is lower (common practice). */
const HEADROOM_MM = 2000
const PRACTICE = `${BODY_SOURCE}; allowances: common practice`

/** People side by side on a length. @example placesAbreast(2438.4) //=> 4 */
export const placesAbreast = (lengthMm: number): number => Math.floor(lengthMm / PLACE_WIDTH_MM + 1e-9)

/** Sizes from `fromMm` to `toMm` that suit at least eight tenths of as many as the best one does. */
function suiting(share: (mm: number) => number, fromMm: number, toMm: number): readonly [number, number] {
  const sizes = Array.from({ length: Math.floor((toMm - fromMm) / 5) + 1 }, (_, i) => fromMm + 5 * i)
  const most = Math.max(...sizes.map(share))
  const good = sizes.filter((mm) => share(mm) >= 0.8 * most)
  return [good[0], good[good.length - 1]]
}

/** Least room, in steps of 5 mm, that suits nine tenths of adults. */
function leastRoom(share: (mm: number) => number): number {
  let mm = 0
  while (share(mm) < 0.9) mm += 5
  return mm
}

const levelOf = (valueMm: number, lowMm = -Infinity, highMm = Infinity, share = 1): FitLine['level'] => {
  if (valueMm >= lowMm - 1e-9 && valueMm <= highMm + 1e-9) return 'good'
  return share < 0.25 ? 'caution' : 'note'
}

/** A line that is judged by its bounds. */
function judged(line: Omit<FitLine, 'level'> & { readonly valueMm: number }): FitLine {
  return { ...line, level: levelOf(line.valueMm, line.lowMm, line.highMm, line.share) }
}

export interface SeatSizes {
  /** From what the feet stand on to the seat. */
  readonly seatMm: number
  readonly feetOn: string
  readonly depthMm: number
  readonly widthMm: number
  /** Parameters to name. */
  readonly parameters: { readonly height: string; readonly depth: string; readonly width: string }
}

/** Share of adults whose legs a seat suits. @example legsSuited(440, 25).toFixed(2) //=> '0.85' */
export const legsSuited = (seatMm: number, shoesMm: number): number =>
  shareBetween('poplitealHeight', seatMm - shoesMm - ABOVE_KNEE_MM, seatMm - shoesMm + BELOW_KNEE_MM)

function seatHeight({ seatMm, feetOn, parameters }: SeatSizes, sitter: Sitter): FitLine {
  const kneeMm = sizeOfSitter(sitter, 'poplitealHeight')
  const inShoes = kneeMm === undefined ? undefined : kneeMm + sitter.shoesMm
  const [lowMm, highMm] =
    inShoes === undefined
      ? suiting((mm) => legsSuited(mm, sitter.shoesMm), 250, 650)
      : [Math.round(inShoes - BELOW_KNEE_MM), Math.round(inShoes + ABOVE_KNEE_MM)]
  return judged({
    id: 'seatHeight',
    label: 'Height of the seat',
    valueMm: seatMm,
    lowMm,
    highMm,
    share: legsSuited(seatMm, sitter.shoesMm),
    measured: `from ${feetOn} to the top of the seat; shoes ${sayValue(sitter.shoesMm, 'mm')}`,
    source: PRACTICE,
    parameter: parameters.height,
  })
}

function seatDepth({ depthMm, parameters }: SeatSizes, sitter: Sitter): FitLine {
  const reachMm =
    sizeOfSitter(sitter, 'buttockPoplitealLength') ?? bodySizeMm('buttockPoplitealLength', 'women', 0.05)
  return judged({
    id: 'seatDepth',
    label: 'Depth of the seat',
    valueMm: depthMm,
    highMm: Math.round(reachMm - BEFORE_KNEE_MM),
    share: shareBetween('buttockPoplitealLength', depthMm + BEFORE_KNEE_MM, Infinity),
    measured: 'from the front edge of the seat to its back edge, or to the back that is leant on',
    source: `${PRACTICE} (from memory: 435 mm for the 5th percentile of women)`,
    parameter: parameters.depth,
  })
}

function seatWidth({ widthMm, parameters }: SeatSizes, sitter: Sitter): FitLine {
  const hipsMm = sizeOfSitter(sitter, 'hipBreadth')
  return judged({
    id: 'seatWidth',
    label: 'Width for one person',
    valueMm: widthMm,
    lowMm: Math.round(hipsMm ?? bodySizeMm('hipBreadth', 'men', 0.5)),
    share: shareBetween('hipBreadth', 0, widthMm),
    measured: 'across the seat, left to right; with no arms hips may stand over a little',
    source: PRACTICE,
    parameter: parameters.width,
  })
}

/** Height, depth and width of a seat against the people who sit. */
export const seatLines = (sizes: SeatSizes, sitter: Sitter): FitLine[] => [
  seatHeight(sizes, sitter),
  seatDepth(sizes, sitter),
  seatWidth(sizes, sitter),
]

export interface TableOverSeat {
  readonly seatMm: number
  /** Top surface, and the lowest thing over the thighs: top, edge strip or apron. */
  readonly topMm: number
  readonly undersideMm: number
  /** What to change for more room, and for another height. */
  readonly parameters: { readonly room: string; readonly height: string }
}

/** A table, desk or counter over a seat: room for thighs and a height for elbows. */
export function tableLines({ seatMm, topMm, undersideMm, parameters }: TableOverSeat): FitLine[] {
  const roomMm = undersideMm - seatMm
  const elbowMm = topMm - seatMm
  const thighs = (mm: number): number => shareBetween('thighThickness', 0, mm - OVER_THIGH_MM)
  const elbows = (mm: number): number =>
    shareBetween('sittingElbowHeight', mm - ELBOW_ABOVE_MM, mm + ELBOW_BELOW_MM)
  const [lowMm, highMm] = suiting(elbows, 150, 450)
  return [
    judged({
      id: 'thighRoom',
      label: 'Room for thighs',
      valueMm: roomMm,
      lowMm: leastRoom(thighs),
      share: thighs(roomMm),
      measured: 'from the top of the seat to the underside of the table, apron or edge strip included',
      source: PRACTICE,
      parameter: parameters.room,
    }),
    judged({
      id: 'elbows',
      label: 'Table above the seat',
      valueMm: elbowMm,
      lowMm,
      highMm,
      share: elbows(elbowMm),
      measured: 'from the top of the seat to the top of the table',
      source: PRACTICE,
      parameter: parameters.height,
    }),
  ]
}

/** How many sit abreast, and what each has. @param wanted absent: as many as there is room for */
export function abreastLine(lengthMm: number, parameter: string, wanted?: number): FitLine {
  const places = wanted ?? Math.max(1, placesAbreast(lengthMm))
  const eachMm = lengthMm / places
  return {
    ...judged({
      id: 'abreast',
      label: places === 1 ? 'Room for one' : `Room for each of ${places} abreast`,
      valueMm: eachMm,
      lowMm: PLACE_WIDTH_MM,
      measured: 'along the edge at which they sit, end to end, shared out evenly',
      source: 'NKBA kitchen planning guideline: 24 in (609.6 mm) a person',
      parameter,
    }),
  }
}

/** A shelf or step within reach: the highest surface that something is put on. */
export function reachLine(label: string, surfaceMm: number, standsOnMm: number, parameter: string): FitLine {
  const upMm = surfaceMm - standsOnMm
  const share = shareBetween('gripReach', upMm, Infinity)
  return judged({
    id: 'reach',
    label,
    valueMm: surfaceMm,
    highMm: Math.round(standsOnMm + bodySizeMm('gripReach', 'women', 0.05)),
    share,
    measured:
      standsOnMm > 0
        ? 'from the floor, standing on the top step'
        : 'from the floor to the top surface, standing, no shoes',
    source: `${BODY_SOURCE} (grip of a raised hand: from memory)`,
    parameter,
  })
}

const PASS_WORDS: Readonly<Record<Pass, string>> = {
  upright: 'as it stands',
  laid: 'laid on a side',
  tilted: 'tilted in the opening',
}

/** Whether a box gets to its place. @param sides wide, deep, high */
export function wayInLines(sides: Sides, door: Opening, turnMm: number): FitLine[] {
  const corner: Corner = { fromMm: turnMm, toMm: turnMm, headroomMm: Math.max(HEADROOM_MM, door.heightMm) }
  const line = (
    id: string,
    label: string,
    pass: Pass | undefined,
    parameter: string,
    measured: string,
    source: string,
  ): FitLine => ({
    id,
    label,
    words: pass === undefined ? 'does not pass' : PASS_WORDS[pass],
    level: pass === undefined ? 'caution' : 'good',
    measured,
    source,
    parameter,
  })
  return [
    line(
      'door',
      'Through the door',
      throughDoor(sides, door),
      'doorWidth',
      'the box around the finished piece against the clear opening',
      'a rectangle in a rectangle, turned as need be: Carver (1957), Wetzel (2000)',
    ),
    line(
      'turn',
      'Round the turn',
      roundCorner(sides, corner),
      'turnWidth',
      'the box around the finished piece in plan, one side upright',
      'the ladder problem with a width, at every angle of a right-angled turn',
    ),
  ]
}

const NOT_GOOD: Readonly<Record<string, string>> = {
  door: 'It does not go through the door in one piece, whichever way it is turned: put it together in the room, or make it smaller.',
  turn: 'It does not go round the turn in one piece: put it together in the room, or make it smaller.',
}

function boundsWords({ lowMm, highMm }: FitLine): string {
  const say = (mm: number): string => sayValue(mm, 'mm')
  if (lowMm !== undefined && highMm !== undefined) return `${say(lowMm)} to ${say(highMm)} suits`
  return lowMm !== undefined ? `${say(lowMm)} or more suits` : `${say(highMm ?? 0)} or less suits`
}

/** Share of adults as people say it. @example shareWords(0.784) //=> '78 % of adults' */
export const shareWords = (share: number): string => `${Math.round(100 * share)} % of adults`

/** What of the fit a maker should know. */
export const noticesOfFit = (lines: readonly FitLine[]): Notice[] =>
  lines.flatMap((line): Notice[] => {
    if (line.level === 'good') return []
    const { id, label, valueMm, share, level, parameter, source } = line
    const suits = share === undefined ? '' : `; this suits ${shareWords(share)}`
    const message =
      valueMm === undefined
        ? NOT_GOOD[id]
        : `${label}: ${sayValue(valueMm, 'mm')}. ${boundsWords(line)}${suits}.`
    return [{ level, message, source, ...(parameter === undefined ? {} : { parameter }) }]
  })
