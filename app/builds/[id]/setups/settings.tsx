import type { SetupSettings } from '#lib/core/setups/setup-plan'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'

const BLADE = {
  combination: 'combination',
  rip: 'rip',
  crosscut: 'crosscut',
  stack: 'stack for grooves',
} as const
const GUIDE = { sled: 'crosscut sled', ripFence: 'rip fence' } as const
const DEGREES = 180 / Math.PI
const TURNED_RAD = 1e-6

interface Item {
  readonly label: string
  readonly value: string
}

const angle = (rad: number) => `${(Math.abs(rad) * DEGREES).toFixed(2)}°`
const isTurned = (rad: number | undefined): rad is number => Math.abs(rad ?? 0) > TURNED_RAD

/** What is set, in the order in which it is set. What stands square or upright is said, not left out. */
export function settingItems(s: SetupSettings, units: LengthUnit): Item[] {
  const length = (mm: number) => sayLength(umFromMm(mm), units)
  const items: (Item | null)[] = [
    s.blade ? { label: 'Blade', value: BLADE[s.blade] } : null,
    s.guide ? { label: 'Guide', value: GUIDE[s.guide] } : null,
    s.bladeHeightMm === undefined ? null : { label: 'Blade height', value: length(s.bladeHeightMm) },
    s.bladeTiltRad === undefined
      ? null
      : { label: 'Blade tilt', value: isTurned(s.bladeTiltRad) ? angle(s.bladeTiltRad) : 'upright' },
    s.sledAngleRad === undefined
      ? null
      : {
          label: 'Sled',
          value: isTurned(s.sledAngleRad) ? `${angle(s.sledAngleRad)} ${turn(s.sledAngleRad)}` : 'square',
        },
    s.fenceMm === undefined ? null : { label: 'Fence', value: length(s.fenceMm) },
    s.stopMm === undefined
      ? s.guide === 'sled'
        ? { label: 'Stop', value: 'none: to a mark' }
        : null
      : { label: 'Stop', value: `${length(s.stopMm)}${s.stopSide ? `, ${s.stopSide}` : ''}` },
    s.lastStopMm === undefined ? null : { label: 'Second stop', value: length(s.lastStopMm) },
    s.stepMm === undefined ? null : { label: 'Move each pass', value: `at most ${length(s.stepMm)}` },
    s.bit === undefined ? null : { label: 'Bit', value: s.bit },
    s.depthMm === undefined ? null : { label: 'Depth stop', value: length(s.depthMm) },
    isTurned(s.tableTiltRad) ? { label: 'Table tilt', value: angle(s.tableTiltRad) } : null,
    s.thicknessMm === undefined ? null : { label: 'Leaves', value: length(s.thicknessMm) },
    s.passDepthMm === undefined ? null : { label: 'A pass takes', value: `at most ${length(s.passDepthMm)}` },
  ]
  return items.filter((i) => i !== null)
}

/** Seen from above, the sled's fence between you and the piece. */
const turn = (rad: number) => (rad > 0 ? 'counter-clockwise' : 'clockwise')

/** Large, to be read at arm's length. */
export function Settings({ settings, units }: { settings: SetupSettings; units: LengthUnit }) {
  return (
    <dl className="grid grid-cols-2 gap-x-6 gap-y-2 sm:grid-cols-[repeat(auto-fill,minmax(10rem,1fr))]">
      {settingItems(settings, units).map((i) => (
        <div key={i.label} className="border-t border-hairline pt-1">
          <dt className="caption">{i.label}</dt>
          <dd className="text-[1.12rem] font-semibold">{i.value}</dd>
        </div>
      ))}
    </dl>
  )
}
