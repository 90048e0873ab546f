/**
 * The state that a machine stands in, and how a step changes it. A state holds all that was ever set at a station,
 * so that a sled keeps its angle while wood is ripped. A step fits a state if everything that it needs is so set.
 * Seconds come from the times of the shop.
 */
import type { SettingName, SetupTimes } from './setup-shop'
import type { Needs } from './step'

export type MachineState = Needs

export const fits = (state: MachineState, needs: Needs): boolean =>
  Object.entries(needs).every(([name, value]) => state[name as SettingName] === value)

export const set = (state: MachineState, needs: Needs): MachineState => ({ ...state, ...needs })

/** What has to be changed. A guide is put on, not set: it counts, since the fence or the sled is fetched. */
export const changed = (state: MachineState, needs: Needs): readonly SettingName[] =>
  (Object.keys(needs) as SettingName[]).filter((name) => state[name] !== needs[name])

/** @example settingSeconds({}, { fence: '80.00' }, times) //=> times.testCut + times.changes.fence */
export const settingSeconds = (state: MachineState, needs: Needs, times: SetupTimes): number =>
  changed(state, needs).reduce((sum, name) => sum + times.changes[name], times.testCut)

/** Same key for the same needs, whatever the order of their names. */
export const needsKey = (needs: Needs): string =>
  Object.keys(needs)
    .sort()
    .map((name) => `${name}=${needs[name as SettingName]}`)
    .join(';')
