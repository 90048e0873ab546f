/**
 * What a maker should know about a counter seat that can be built. Each says its source; nothing here is a
 * certificate: tipping is a hand sum with the forces of a published test, not the test. mm, N, kg.
 */
import { abreastLine, placesAbreast, seatLines, tableLines } from '../../fit/fit-lines'
import { sitterOf } from '../../fit/place-parameters'
import type { FitLine, Notice } from '../../model'
import { sayValue } from '../../parameters'
import { tipping, tippingFactor } from '../../tipping'
import type { Layout } from './layout'

const KITCHEN_LISTS =
  'kitchen planning lists (NKBA): 10 to 12 in from the underside of the counter to the seat'
const KITCHEN_KNEES = 'NKBA kitchen planning guideline: knee depth 18, 15, 12 in at 30, 36, 42 in'
const KITCHEN_PLACES = 'NKBA kitchen planning guideline: 24 in a seat'
const POPLITEAL =
  'popliteal height of British adults 19 to 65, 5th percentile of women to 95th of men, plus 25 mm of shoe'

const say = (valueMm: number): string => sayValue(valueMm, 'mm')

type Rule = (l: Layout, seatKg: number) => Notice | undefined

const clearance: Rule = ({ v }) => {
  if (v.kneeClearance >= 254 && v.kneeClearance <= 305) return undefined
  const level = v.kneeClearance < 200 ? 'caution' : 'note'
  const what = v.kneeClearance < 254 ? 'tight for knees and thighs' : 'low to eat or write at'
  return {
    level,
    message: `${say(v.kneeClearance)} from the underside of the counter to the seat is ${what}; usual is 254 to 305 mm.`,
    parameter: 'kneeClearance',
    source: KITCHEN_LISTS,
  }
}

/** What shops sell for a counter of this height; undefined where they sell nothing particular. */
function retailRange(counterHeightMm: number): readonly [number, number] | undefined {
  if (Math.abs(counterHeightMm - 914.4) < 40) return [610, 660]
  return Math.abs(counterHeightMm - 1066.8) < 40 ? [711, 762] : undefined
}

const retail: Rule = (l) => {
  const range = retailRange(l.v.counterHeight)
  if (range === undefined || (l.seatTopMm >= range[0] && l.seatTopMm <= range[1])) return undefined
  return {
    level: 'note',
    message: `Shops sell seats of ${range[0]} to ${range[1]} mm for this counter, since many lists measure from its top surface. This one is ${say(l.seatTopMm)}: its clearance is measured from the underside.`,
    parameter: 'kneeClearance',
    source: 'retail size lists against counter less top less clearance',
  }
}

const feet: Rule = (l) => {
  if (l.v.footRest === 'none')
    return l.seatTopMm > 490
      ? {
          level: 'caution',
          message: `On a seat ${say(l.seatTopMm)} high without a footrest most feet hang free; take a footrest rail, or set the seat under a lower counter.`,
          parameter: 'footRest',
          source: POPLITEAL,
        }
      : undefined
  const dropMm = l.seatTopMm - l.v.footRestHeight
  if (dropMm >= 380 && dropMm <= 515) return undefined
  return {
    level: dropMm < 330 || dropMm > 565 ? 'caution' : 'note',
    message: `The footrest is ${say(dropMm)} below the seat; legs want 380 to 515 mm. A footrest ${say(Math.max(60, Math.round(l.seatTopMm - 430)))} above the floor would suit most.`,
    parameter: 'footRestHeight',
    source: POPLITEAL,
  }
}

const seatDepth: Rule = ({ v }) =>
  v.seatDepth > 400
    ? {
        level: 'note',
        message: `A seat ${say(v.seatDepth)} deep presses behind the knees of shorter people; 300 to 400 mm is usual for a high seat.`,
        parameter: 'seatDepth',
        source: 'common practice',
      }
    : undefined

const places: Rule = ({ v, pitchMm }) =>
  v.abreast > placesAbreast(v.counterLength)
    ? {
        level: 'caution',
        message: `${v.abreast} seats have ${say(pitchMm)} each; elbows want 609.6 mm, and the counter takes ${placesAbreast(v.counterLength)} at that.`,
        parameter: 'abreast',
        source: KITCHEN_PLACES,
      }
    : undefined

const gapBetween: Rule = ({ v, pitchMm }) =>
  v.abreast > 1 && pitchMm - v.seatWidth < 150
    ? {
        level: 'note',
        message: `${say(pitchMm - v.seatWidth)} between two seats; 150 to 250 mm lets people get on and off.`,
        parameter: 'seatWidth',
        source: 'supplier lists: 6 to 10 in between seats',
      }
    : undefined

const knees: Rule = ({ v }) => {
  const wantMm = 25.4 * Math.min(18, Math.max(12, 18 - (v.counterHeight / 25.4 - 30) / 2))
  return v.kneeDepth < wantMm - 1
    ? {
        level: 'note',
        message: `Knees have ${say(v.kneeDepth)} under the counter; at this height they want ${say(Math.round(wantMm))}.`,
        parameter: 'kneeDepth',
        source: KITCHEN_KNEES,
      }
    : undefined
}

const tipsForward: Rule = (l, seatKg) => {
  const at = {
    leverMm: 60 - l.edgeAtMm(0),
    ownLeverMm: l.footSpreadMm / 2,
    weightKg: seatKg,
    heightMm: l.seatTopMm,
  }
  return tipping(tippingFactor(at), 'forwards or backwards', 'rake', 'more rake or less overhang cures it')
}

const tipsSideways: Rule = (l, seatKg) => {
  const at = {
    leverMm: 60 - l.legFaceMm,
    ownLeverMm: l.v.seatWidth / 2 - l.legFaceMm,
    weightKg: seatKg,
    heightMm: l.seatTopMm,
  }
  return tipping(tippingFactor(at), 'sideways', 'overhang', 'a smaller overhang cures it')
}

const grip: Rule = (l) => {
  const gripMm = l.v.screwLength - l.v.supportThickness
  if (gripMm >= 7 * l.shankMm) return undefined
  return {
    level: 'note',
    message: `The frame screws hold ${say(gripMm)} in the leg, less than seven shanks (${say(7 * l.shankMm)}): ${l.v.joint === 'letIn' ? 'they clamp the glue, and the notch carries the load' : 'on the face they and the glue carry all of it; letting the supports in is stronger'}.`,
    parameter: l.v.joint === 'letIn' ? 'screwLength' : 'joint',
    source:
      'Wood Handbook FPL-GTR-190 ch. 8: penetration of at least seven diameters for the lateral formula',
  }
}

const pinch: Rule = ({ v }) =>
  v.seatBoards > 1 && (v.seatGap < 3 || v.seatGap > 10)
    ? {
        level: 'note',
        message:
          v.seatGap < 3
            ? `${say(v.seatGap)} between boards closes up when the wood swells.`
            : `${say(v.seatGap)} between boards can pinch; 4 to 8 mm is usual.`,
        parameter: 'seatGap',
        source: 'common practice',
      }
    : undefined

/** How the seat suits people and the counter. */
export function fitLines(l: Layout): FitLine[] {
  const { v } = l
  const hasRest = v.footRest === 'rail'
  return [
    ...seatLines(
      {
        seatMm: hasRest ? l.seatTopMm - v.footRestHeight : l.seatTopMm,
        feetOn: hasRest ? 'the footrest' : 'the floor',
        depthMm: v.seatDepth,
        widthMm: v.seatWidth,
        parameters: {
          height: hasRest ? 'footRestHeight' : 'kneeClearance',
          depth: 'seatDepth',
          width: 'seatWidth',
        },
      },
      sitterOf(v),
    ),
    ...tableLines({
      seatMm: l.seatTopMm,
      topMm: v.counterHeight,
      undersideMm: v.counterHeight - v.counterThickness,
      parameters: { room: 'kneeClearance', height: 'kneeClearance' },
    }),
    abreastLine(v.counterLength, 'abreast', v.abreast),
  ]
}

/** Lines of the fit that the rules here speak of already: for any adult the trade's ranges are told, not the table's. */
export const toldOf = ({ v }: Layout): string[] =>
  v.sitter === 'adults'
    ? ['seatHeight', 'seatDepth', 'seatWidth', 'thighRoom', 'elbows', 'abreast']
    : ['thighRoom', 'elbows', 'abreast']

const RULES = [
  tipsForward,
  tipsSideways,
  clearance,
  feet,
  places,
  gapBetween,
  knees,
  retail,
  seatDepth,
  grip,
  pinch,
]
const RANK = { stop: 0, caution: 1, note: 2 } as const

/** Stops first, then cautions, then notes. @param seatKg weight of one seat */
export const noticesOf = (layout: Layout, seatKg: number): Notice[] =>
  RULES.flatMap((rule) => rule(layout, seatKg) ?? []).sort((a, b) => RANK[a.level] - RANK[b.level])
