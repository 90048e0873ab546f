/**
 * A piece that stands free, against a wall or in a niche, with a skirting board along the walls. mm; the wall is behind
 * it, at high y. A skirting keeps furniture off its wall, or wants a notch. Tests: tests/core/design/fit/fit-piece.test.ts
 */
import type { FitLine, PlaceBox } from '../model'
import { choiceParameter, mmParameter } from '../shared-parameters'

const THE_PLACE = 'Where it stands'
const WALL_MM = 60
const ABOVE_MM = 150
/** Room to slide it in, and beyond which a gap shows, left and right together (common practice). */
const LEAST_PLAY_MM = 6
const MOST_PLAY_MM = 60

export const nicheParameters = [
  choiceParameter(
    'standsAt',
    'Stands',
    THE_PLACE,
    [
      { value: 'free', label: 'free in the room' },
      { value: 'wall', label: 'against a wall' },
      { value: 'niche', label: 'in a niche' },
    ],
    'Against a wall or in a niche it is tried against the skirting board; nothing in the piece changes by itself.',
  ),
  mmParameter(
    'offWall',
    'Off the wall',
    THE_PLACE,
    [0, 0, 200],
    'From the wall above the skirting to the back of the piece.',
  ),
  mmParameter(
    'skirtingHeight',
    'Skirting height',
    THE_PLACE,
    [100, 0, 400],
    'From the floor to the top of the skirting board; 0 if there is none.',
  ),
  mmParameter(
    'skirtingThickness',
    'Skirting thickness',
    THE_PLACE,
    [15, 0, 80, 0.5],
    'How far the skirting board stands out from the wall.',
  ),
  mmParameter(
    'nicheWidth',
    'Niche width',
    THE_PLACE,
    [900, 200, 5000],
    'Wall to wall, above the skirting, at the narrowest place.',
  ),
  mmParameter(
    'nicheHeight',
    'Niche height',
    THE_PLACE,
    [2300, 300, 4000],
    'From the floor to the underside of what is overhead.',
  ),
] as const

interface Niche {
  readonly standsAt: string
  readonly offWall: number
  readonly skirtingHeight: number
  readonly skirtingThickness: number
  readonly nicheWidth: number
  readonly nicheHeight: number
}

interface Size {
  readonly widthMm: number
  readonly depthMm: number
  readonly heightMm: number
}

/** Walls, skirting and what is overhead, around a piece that stands at the origin. */
export function nicheBoxes(v: Niche, size: Size): PlaceBox[] {
  if (v.standsAt === 'free') return []
  const isNiche = v.standsAt === 'niche'
  const wallY = size.depthMm + v.offWall
  const [left, right] = isNiche
    ? [(size.widthMm - v.nicheWidth) / 2, (size.widthMm + v.nicheWidth) / 2]
    : [-ABOVE_MM, size.widthMm + ABOVE_MM]
  const topMm = isNiche ? v.nicheHeight : size.heightMm + ABOVE_MM
  const [t, h] = [v.skirtingThickness, v.skirtingHeight]
  const box = (
    id: string,
    name: string,
    parameter: string,
    [x0, x1]: readonly [number, number],
    [y0, y1]: readonly [number, number],
    [z0, z1]: readonly [number, number],
    views: PlaceBox['views'] = ['front', 'top'],
  ): PlaceBox => ({ id, name, parameter, views, min: [x0, y0, z0], max: [x1, y1, z1] })
  const back = [box('wall', 'Wall', 'offWall', [left, right], [wallY, wallY + WALL_MM], [0, topMm], ['top'])]
  const skirting =
    t > 0 && h > 0
      ? [box('skirting', 'Skirting', 'offWall', [left, right], [wallY - t, wallY], [0, h], ['top'])]
      : []
  if (!isNiche) return [...back, ...skirting]
  const sides = [
    box('wallLeft', 'Wall, left', 'nicheWidth', [left - WALL_MM, left], [0, wallY], [0, topMm]),
    box('wallRight', 'Wall, right', 'nicheWidth', [right, right + WALL_MM], [0, wallY], [0, topMm]),
    box('overhead', 'What is overhead', 'nicheHeight', [left, right], [0, wallY], [topMm, topMm + WALL_MM]),
  ]
  const sideSkirting =
    t > 0 && h > 0
      ? [
          box('skirtingLeft', 'Skirting, left', 'nicheWidth', [left, left + t], [0, wallY], [0, h]),
          box('skirtingRight', 'Skirting, right', 'nicheWidth', [right - t, right], [0, wallY], [0, h]),
        ]
      : []
  return [...back, ...skirting, ...sides, ...sideSkirting]
}

/** Play of a piece in a niche, left and right together. @param openingMm between skirting boards, or walls */
export function playLine(openingMm: number, widthMm: number, parameter: string): FitLine {
  const playMm = openingMm - widthMm
  const isGood = playMm >= LEAST_PLAY_MM && playMm <= MOST_PLAY_MM
  return {
    id: 'play',
    label: 'Play in the niche',
    valueMm: playMm,
    lowMm: LEAST_PLAY_MM,
    highMm: MOST_PLAY_MM,
    measured:
      'left and right together, at the floor: between the skirting boards, or the walls where there are none',
    source: 'common practice',
    level: isGood ? 'good' : 'note',
    parameter,
  }
}

export function nicheFit(v: Niche, { widthMm }: Size): FitLine[] {
  if (v.standsAt !== 'niche') return []
  const skirtingMm = v.skirtingHeight > 0 ? 2 * v.skirtingThickness : 0
  return [playLine(v.nicheWidth - skirtingMm, widthMm, 'nicheWidth')]
}
