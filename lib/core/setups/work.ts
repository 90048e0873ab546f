/**
 * Steps as numbers, for the search of an order: what each step waits for, and its class: all steps of one station
 * with the same needs. A class serves another if its setting is right for the other's steps too: a stop at 400 mm does
 * not disturb a cut to a pencil mark. Built once; the search reads it only.
 */
import { fits, needsKey } from './machine-state'
import type { StationKind } from './setup-plan'
import type { Needs, Step } from './step'

export interface SettingClass {
  readonly station: number
  readonly needs: Needs
  /** Indexes of steps, rising. */
  readonly steps: readonly number[]
}

export interface Work {
  readonly steps: readonly Step[]
  readonly stations: readonly StationKind[]
  readonly classes: readonly SettingClass[]
  readonly classOf: readonly number[]
  readonly before: readonly (readonly number[])[]
  readonly following: readonly (readonly number[])[]
  /** One order in which every step comes after the ones that it waits for. */
  readonly topological: readonly number[]
  /** By class, then by class: the first one's setting suits the second. */
  readonly serves: readonly (readonly boolean[])[]
}

/** @throws RangeError if a key is double, is waited for but absent, or if steps wait for each other in a ring */
export function workOf(steps: readonly Step[]): Work {
  const indexOf = new Map(steps.map((step, i) => [step.key, i]))
  if (indexOf.size !== steps.length) throw new RangeError('two steps have the same key')
  const before = steps.map((step) => [...new Set(step.after)].map((key) => indexOf.get(key) ?? missing(key)))
  const following: number[][] = steps.map(() => [])
  before.forEach((list, i) => {
    for (const j of list) following[j].push(i)
  })
  const stations = [...new Set(steps.map((step) => step.station))]
  const { classes, classOf } = classesOf(steps, stations)
  const serves = classes.map((a) => classes.map((b) => a.station === b.station && fits(a.needs, b.needs)))
  return {
    steps,
    stations,
    classes,
    classOf,
    before,
    following,
    topological: sorted(before, following),
    serves,
  }
}

function missing(key: string): never {
  throw new RangeError(`a step waits for ${key}, which is not there`)
}

function classesOf(
  steps: readonly Step[],
  stations: readonly StationKind[],
): Pick<Work, 'classes' | 'classOf'> {
  const byKey = new Map<string, number>()
  const classes: { station: number; needs: Needs; steps: number[] }[] = []
  const classOf = steps.map((step, i) => {
    const key = `${step.station}|${needsKey(step.needs)}`
    const index = byKey.get(key) ?? classes.length
    if (index === classes.length) {
      byKey.set(key, index)
      classes.push({ station: stations.indexOf(step.station), needs: step.needs, steps: [] })
    }
    classes[index].steps.push(i)
    return index
  })
  return { classes, classOf }
}

function sorted(
  before: readonly (readonly number[])[],
  following: readonly (readonly number[])[],
): readonly number[] {
  const waiting = before.map((list) => list.length)
  const order = waiting.flatMap((count, i) => (count === 0 ? [i] : []))
  for (let at = 0; at < order.length; at++) {
    for (const next of following[order[at]]) {
      waiting[next] -= 1
      if (waiting[next] === 0) order.push(next)
    }
  }
  if (order.length < before.length) throw new RangeError('steps wait for each other in a ring')
  return order
}

/** No state of the machine serves both. */
export function clash(a: Needs, b: Needs): boolean {
  return Object.keys(a).some((name) => {
    const key = name as keyof Needs
    return b[key] !== undefined && b[key] !== a[key]
  })
}
