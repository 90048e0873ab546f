/**
 * What a set-up is called, how it is tried in scrap, what it is checked with and what to mind. The cautions are the
 * usual ones of the trade; the machine's manual, local rules and the shop's keeper come first (docs/safety.md).
 */

import type { SetupKind, SetupSettings } from './setup-plan'
import type { SettingName, SetupShop } from './setup-shop'
import type { Step } from './step'
import { degText, mmText } from './wording'

export interface Description {
  readonly title: string
  readonly testCut: string
  readonly checkWith: string
  readonly cautions: readonly string[]
}

export const CHANGE_WORDS: Readonly<Record<SettingName, string>> = {
  blade: 'blade',
  guide: 'sled or fence',
  bladeHeight: 'blade height',
  bladeTilt: 'blade tilt',
  sledAngle: 'sled angle',
  fence: 'fence',
  stop: 'stop',
  lastStop: 'second stop',
  carrier: 'carrier board or bed',
  thickness: 'thickness',
  bit: 'bit',
  depth: 'depth stop',
  tableTilt: 'table tilt',
  clamps: 'clamps',
  jig: 'taper jig',
}

const isTurned = (rad: number | undefined): boolean => Math.abs(rad ?? 0) > 1e-6

function sledWords(s: SetupSettings): string {
  const side = (s.sledAngleRad ?? 0) > 0 ? 'counter-clockwise' : 'clockwise'
  const angle = isTurned(s.sledAngleRad)
    ? `sled turned ${degText(s.sledAngleRad ?? 0)} ${side}`
    : 'sled square'
  const tilt = isTurned(s.bladeTiltRad) ? `, blade tilted ${degText(s.bladeTiltRad ?? 0)}` : ''
  const stop = s.stopMm === undefined ? ', to a mark' : `, stop at ${mmText(s.stopMm)}`
  return `${angle}${tilt}${stop}`
}

function notchTitle(s: SetupSettings): string {
  const stops = s.lastStopMm === undefined ? '' : ` and ${mmText(s.lastStopMm)}`
  return `Notch ${mmText(s.bladeHeightMm ?? 0)} deep: ${sledWords(s)}${stops}`
}

function title(kind: SetupKind, s: SetupSettings): string {
  switch (kind) {
    case 'flatten':
      return 'Flatten one face on a carrier board'
    case 'plane':
      return `Plane to ${mmText(s.thicknessMm ?? 0)}`
    case 'crosscut':
      return `Crosscut: ${sledWords(s)}`
    case 'endCut':
      return `Cut ends: ${sledWords(s)}`
    case 'rip':
      return `Rip: fence at ${mmText(s.fenceMm ?? 0)}`
    case 'edgeBevel':
      return `Bevel an edge: blade tilted ${degText(s.bladeTiltRad ?? 0)}, fence at ${mmText(s.fenceMm ?? 0)}`
    case 'notch':
      return notchTitle(s)
    case 'drill':
      return `Drill: ${s.bit}${s.depthMm === undefined ? ', through' : `, ${mmText(s.depthMm)} deep`}`
    case 'countersink':
      return `Drill: ${s.bit}`
    case 'taper':
      return `Taper ${degText(s.jigRad ?? 0)}: jig from ${mmText(s.jigWideMm ?? 0)} to ${mmText(s.jigSlimMm ?? 0)}`
    case 'roundOver':
      return `Round edges: ${s.bit} bit`
    case 'chamfer':
      return `Chamfer edges ${mmText(s.bitMm ?? 0)}: ${s.bit} bit`
    case 'engrave':
      return `Engrave ${mmText(s.depthMm ?? 0)} deep: focus for ${mmText(s.thicknessMm ?? 0)} of wood`
    case 'glueUp':
      return 'Glue up a panel'
  }
}

const TESTS: Readonly<Record<SetupKind, readonly [string, string]>> = {
  flatten: [
    'Run one light pass and look where it cuts.',
    'straightedge and winding sticks; the piece must not rock on a flat table',
  ],
  plane: ['Plane a scrap of the same wood first.', 'calliper at both ends and both edges'],
  crosscut: [
    'Cut a scrap to the stop; with no stop, one scrap across.',
    'square against the edge, steel rule from end to end',
  ],
  endCut: [
    'Cut two scraps at this setting and put the cut ends together.',
    'bevel gauge set to the angle, or the full-size drawing; steel rule for the length',
  ],
  rip: [
    'Rip 100 mm into a scrap, stop the saw, measure.',
    'calliper or steel rule at the front and the back of the cut',
  ],
  edgeBevel: [
    'Rip a scrap of the same thickness at this tilt.',
    'bevel gauge against the face; calliper over the narrower face',
  ],
  notch: [
    'Cut the notch in a scrap of the same thickness.',
    'depth gauge, and the mating part: it slides in by hand without play',
  ],
  drill: ['Drill one hole in scrap.', 'the screw or dowel itself, rule for the depth'],
  countersink: ['Countersink one hole in scrap.', 'the screw itself: its head just under the surface'],
  taper: [
    'Taper a scrap of the same width on the jig.',
    'calliper across the slim end and where the slope begins; the line on the part',
  ],
  chamfer: ['Rout a scrap edge at full depth.', 'rule across the flat; 45° on a bevel gauge'],
  engrave: [
    'Engrave a corner of the field on a scrap of the same wood and finish.',
    'depth gauge in the field; char brushed off',
  ],
  roundOver: [
    'Rout a scrap edge at full depth in the same passes.',
    'radius gauge; no step where the curve meets the face',
  ],
  glueUp: ['Clamp it dry first.', 'straightedge across the joints; no light through them'],
}

const MANUAL = "The machine's manual, your induction and the keeper's word come before this list."

function sawCautions(kind: SetupKind, s: SetupSettings, shop: SetupShop): readonly string[] {
  if (kind === 'rip' || kind === 'edgeBevel') {
    const isNarrow = (s.fenceMm ?? 0) < shop.tableSaw.pushStickBelowMm
    return [
      'Guard and riving knife on. Stand out of line with the blade.',
      'The edge at the fence must be straight and the face flat: a piece that rocks or twists is thrown back.',
      ...(isNarrow
        ? [`Only ${mmText(s.fenceMm ?? 0)} between fence and blade: push stick or push block, never a hand.`]
        : []),
      ...(kind === 'edgeBevel'
        ? [
            'Fence on the side that the blade leans away from: on the other side it traps the piece and throws it.',
          ]
        : []),
    ]
  }
  const sled = [
    'Rip fence out of the way. Never use it as a stop with a sled or mitre gauge: an offcut caught between fence and blade is thrown. Measure from a spacer block clamped well before the blade instead.',
    'Hold the piece on the stop side; leave the offcut free and do not reach for it until the blade stands.',
  ]
  if (kind !== 'notch') return ['Guard on. Both hands clear of the line of the cut.', ...sled]
  return [
    'This cut does not go through: the usual guard and riving knife may have to come off. Fit the guard that the manual names for grooves, and put both back at once.',
    'The blade is hidden under the wood: know where it comes out of the sled, and keep hands off that line.',
    ...sled,
  ]
}

function ownCautions(kind: SetupKind, s: SetupSettings, shop: SetupShop): readonly string[] {
  switch (kind) {
    case 'flatten':
    case 'plane':
      return [
        'Metal cleared? A staple ruins the knives and flies.',
        'No painted or varnished face of unknown age before it is tested for lead.',
        `Nothing shorter than ${mmText(shop.planer.minLengthMm)}: it can tip and be thrown. Feed with the grain, stand to the side.`,
        ...(kind === 'flatten'
          ? ['Shim and fix the piece to the carrier so that it cannot shift under the rollers.']
          : []),
      ]
    case 'crosscut':
    case 'endCut':
    case 'rip':
    case 'edgeBevel':
    case 'notch':
      return ['Metal cleared? Every piece of salvage, both faces.', ...sawCautions(kind, s, shop)]
    case 'drill':
    case 'countersink':
      return [
        'Part against a fence or clamped: a drill that catches spins it.',
        'No gloves, sleeves and hair tied back.',
      ]
    case 'taper':
      return [
        'Metal cleared? Every piece of salvage, both faces.',
        'Clamps or toggles hold the part on the carriage, clear of the line of the cut; hands on its handles, never on the part.',
        'Carriage along the rip fence, guard on. Let the slip that is cut off lie until the blade stands.',
      ]
    case 'engrave':
      return [
        'Never treated wood, and no old paint or varnish of unknown age: the smoke poisons.',
        'Extraction on, lid shut, somebody beside it until it has cooled: it can set fire to the wood.',
      ]
    case 'roundOver':
    case 'chamfer':
      return [
        'Feed against the turning of the bit, from right to left along the front of a table.',
        `Nothing shorter than ${mmText(shop.routerTable.minLengthMm)} without a jig or push pad.`,
      ]
    case 'glueUp':
      return ['Gloves for glue; wipe squeeze-out before it hardens.']
  }
}

/** @example describeSetup(step of a rip at 63.5 mm, shop).title //=> 'Rip: fence at 63.5 mm' */
export function describeSetup(kind: Step['kind'], settings: SetupSettings, shop: SetupShop): Description {
  const [testCut, checkWith] = TESTS[kind]
  const eyes = kind === 'glueUp' ? [] : ['Eyes, ears and lungs covered; dust extraction on.']
  return {
    title: title(kind, settings),
    testCut,
    checkWith,
    cautions: [...ownCautions(kind, settings, shop), ...eyes, MANUAL],
  }
}
