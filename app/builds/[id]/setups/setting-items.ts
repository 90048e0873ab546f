/**
 * What is set at a machine, in words: which settings a set-up has, which of them are turned anew, what the set-up is
 * called. In: a set-up (mm, rad) and the person's unit. Out: labels and values. Bits and drills keep the name that is
 * stamped on them. Tests: tests/app/bench-sheet.test.ts
 */
import { capital } from '#lib/core/design/face-words'
import type { Setup } from '#lib/core/setups/setup-plan'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'

const BLADE = {
  combination: 'combination',
  rip: 'rip',
  crosscut: 'crosscut',
  stack: 'stack for grooves',
} as const
const GUIDE = { sled: 'crosscut sled', ripFence: 'rip fence', taperJig: 'taper jig' } as const
const DEGREES = 180 / Math.PI
const TURNED_RAD = 1e-6

export interface SettingItem {
  readonly label: string
  readonly value: string
  /** To be set or looked at now; false: it stands so since the set-up before. */
  readonly isNew: boolean
}

const angle = (rad: number) => `${(Math.abs(rad) * DEGREES).toFixed(1)}°`
const isTurned = (rad: number | undefined): rad is number => Math.abs(rad ?? 0) > TURNED_RAD

/** Seen from above, the sled's fence between you and the piece. */
const turn = (rad: number) => (rad > 0 ? 'counter-clockwise' : 'clockwise')

const sledValue = (rad: number) => (isTurned(rad) ? `${angle(rad)} ${turn(rad)}` : 'square')
const tiltValue = (rad: number) => (isTurned(rad) ? angle(rad) : 'upright')

/** Label, the word by which the plan says that it changed, value. */
type Line = readonly [label: string, change: string, value: string | undefined]

function lines(setup: Setup, units: LengthUnit): readonly Line[] {
  const s = setup.settings
  const say = (mm: number | undefined) => (mm === undefined ? undefined : sayLength(umFromMm(mm), units))
  const stop = s.stopMm === undefined && s.guide === 'sled' ? 'none: to a mark' : say(s.stopMm)
  return [
    ['Blade', 'blade', s.blade && BLADE[s.blade]],
    ['Guide', 'sled or fence', s.guide && GUIDE[s.guide]],
    ['Blade height', 'blade height', say(s.bladeHeightMm)],
    ['Blade tilt', 'blade tilt', s.bladeTiltRad === undefined ? undefined : tiltValue(s.bladeTiltRad)],
    ['Sled', 'sled angle', s.sledAngleRad === undefined ? undefined : sledValue(s.sledAngleRad)],
    ['Fence', 'fence', say(s.fenceMm)],
    ['Jig, where the slope begins', 'taper jig', say(s.jigWideMm)],
    ['Jig, at the slim end', 'taper jig', say(s.jigSlimMm)],
    ['Stop', 'stop', stop && `${stop}${s.stopSide ? `, ${s.stopSide}` : ''}`],
    ['Second stop', 'second stop', say(s.lastStopMm)],
    ['Move each pass', 'second stop', s.stepMm === undefined ? undefined : `at most ${say(s.stepMm)}`],
    ['Bed', 'carrier board or bed', bedOf(setup)],
    ['Bit', 'bit', s.bit],
    [
      DEPTH[setup.kind] ?? 'Depth stop',
      'depth stop',
      s.depthMm === undefined ? throughOf(setup) : say(s.depthMm),
    ],
    ['Table tilt', 'table tilt', isTurned(s.tableTiltRad) ? angle(s.tableTiltRad) : undefined],
    [setup.kind === 'engrave' ? 'Focus for wood' : 'Leaves', 'thickness', say(s.thicknessMm)],
    ['A pass takes', '', s.passDepthMm === undefined ? undefined : `at most ${say(s.passDepthMm)}`],
  ]
}

/** What a depth is called where it is not the drill's stop. */
const DEPTH: Partial<Record<Setup['kind'], string>> = { chamfer: 'Height of the bit', engrave: 'Depth' }

const bedOf = ({ kind }: Setup) =>
  kind === 'flatten' ? 'carrier board' : kind === 'plane' ? 'bare, no carrier' : undefined

const throughOf = ({ kind }: Setup) => (kind === 'drill' ? 'none: right through' : undefined)

/**
 * In the order in which it is set. What stands square or upright is said, not left out.
 * @example settingItems(ripAt80, 'mm').at(-1) //=> { label: 'Fence', value: '80 mm', isNew: true }
 */
export function settingItems(setup: Setup, units: LengthUnit): SettingItem[] {
  const isNew = (change: string) => setup.resumes === undefined && setup.changes.includes(change)
  return lines(setup, units).flatMap(([label, change, value]) =>
    value === undefined ? [] : [{ label, value, isNew: isNew(change) }],
  )
}

/**
 * What is done, and the one setting that tells it from others of its kind.
 * @example setupTitle(ripAt80, 'in') //=> 'Rip, fence at 3 1/8"'
 */
export function setupTitle({ kind, settings: s }: Setup, units: LengthUnit): string {
  const say = (mm: number | undefined) => sayLength(umFromMm(mm ?? 0), units)
  const stop = s.stopMm === undefined ? 'to a mark' : `stop at ${say(s.stopMm)}`
  const turned = isTurned(s.sledAngleRad) ? `sled ${sledValue(s.sledAngleRad)}, ` : ''
  const leaning = isTurned(s.tableTiltRad) ? `, table tilted ${angle(s.tableTiltRad)}` : ''
  switch (kind) {
    case 'flatten':
      return 'Flatten one face'
    case 'plane':
      return `Plane to ${say(s.thicknessMm)}`
    case 'crosscut':
      return `Crosscut, ${turned}${stop}`
    case 'endCut':
      return `Cut ends, ${turned}${stop}`
    case 'rip':
      return `Rip, fence at ${say(s.fenceMm)}`
    case 'edgeBevel':
      return `Bevel an edge, blade tilted ${angle(s.bladeTiltRad ?? 0)}, fence at ${say(s.fenceMm)}`
    case 'notch':
      return `Notch ${say(s.bladeHeightMm)} deep, ${turned}${stop}`
    case 'drill':
      return `${s.bit}, ${s.depthMm === undefined ? 'right through' : `${say(s.depthMm)} deep`}${leaning}`
    case 'countersink':
      return `${capital(s.bit ?? '')}${leaning}`
    case 'taper':
      return `Taper ${angle(s.jigRad ?? 0)}, jig from ${say(s.jigWideMm)} to ${say(s.jigSlimMm)}`
    case 'roundOver':
      return `Round edges, ${s.bit}`
    case 'chamfer':
      return `Chamfer edges, ${say(s.bitMm)}`
    case 'engrave':
      return `Engrave, ${say(s.depthMm)} deep`
    case 'glueUp':
      return 'Glue up a panel'
  }
}
