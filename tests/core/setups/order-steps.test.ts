import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { orderSteps, settingsOf } from '#lib/core/setups/order-steps'
import { settingsBound } from '#lib/core/setups/settings-bound'
import { DEFAULT_SETUP_SHOP } from '#lib/core/setups/setup-shop'
import type { Needs, Step } from '#lib/core/setups/step'
import { workOf } from '#lib/core/setups/work'
import { seededRng } from '#lib/core/units/rng'
import { step } from './small-work'

const { times } = DEFAULT_SETUP_SHOP
const flatten = (steps: readonly Step[], maxStates?: number) => {
  const work = workOf(steps)
  const order = orderSteps(work, times, maxStates)
  return { work, order, flat: order.runs.flatMap((run) => run.steps) }
}

/** Fewest settings by trying every order of the steps; shares no code with the planner. */
function fewestByForce(steps: readonly Step[]): number {
  const suits = (have: Needs | undefined, want: Needs): boolean =>
    have !== undefined && Object.entries(want).every(([name, value]) => have[name as keyof Needs] === value)
  let fewest = steps.length
  const go = (done: ReadonlySet<string>, set: ReadonlyMap<string, Needs>, settings: number): void => {
    if (settings >= fewest && done.size < steps.length) return
    if (done.size === steps.length) {
      fewest = Math.min(fewest, settings)
      return
    }
    for (const next of steps) {
      if (done.has(next.key) || !next.after.every((key) => done.has(key))) continue
      const nowDone = new Set(done).add(next.key)
      if (suits(set.get(next.station), next.needs)) {
        go(nowDone, set, settings)
        continue
      }
      for (const other of steps) {
        if (other.station !== next.station || !suits(other.needs, next.needs)) continue
        go(nowDone, new Map(set).set(next.station, other.needs), settings + 1)
      }
    }
  }
  go(new Set(), new Map(), 0)
  return fewest
}

/** Random steps: few settings, some that do not mind the stop, random waiting, two stations. */
function randomSteps(seed: number, count: number): readonly Step[] {
  const rng = seededRng(seed)
  const isDense = rng.below(2) === 0
  return Array.from({ length: count }, (_, i) => {
    const angle = `${rng.below(2)}`
    const needs: Needs =
      rng.below(4) === 0 ? { sledAngle: angle } : { sledAngle: angle, stop: `${rng.below(2)}` }
    const after = Array.from({ length: i }, (__, j) => `s${j}`).filter(() => rng.below(isDense ? 2 : 4) === 0)
    return step(`s${i}`, needs, after, rng.below(4) === 0 ? 'planer' : 'tableSaw')
  })
}

test('nothing to do needs nothing to be set', () => {
  expect(flatten([]).order).toMatchObject({ settings: 0, bound: 0, runs: [] })
})

test('two pieces cut alike are cut at one setting', () => {
  const rip = { fence: '80.00' }
  const stop = { stop: '400.00' }
  const { order } = flatten([
    step('rip 1', rip),
    step('cut 1', stop, ['rip 1']),
    step('rip 2', rip),
    step('cut 2', stop, ['rip 2']),
  ])
  expect(order.settings).toBe(2)
  expect(order.bound).toBe(2)
})

test('a return that the wood itself forces is in the bound', () => {
  const [a, b] = [{ fence: '1' }, { fence: '2' }]
  const { order } = flatten([step('1', a), step('2', b, ['1']), step('3', a, ['2']), step('4', b, ['3'])])
  expect(order).toMatchObject({ settings: 4, bound: 4, distinct: 2 })
})

test('two settings that wait for each other in different boards cost a third', () => {
  const [a, b] = [{ fence: '1' }, { fence: '2' }]
  const { order } = flatten([step('1', a), step('2', b, ['1']), step('3', b), step('4', a, ['3'])])
  expect(order).toMatchObject({ settings: 3, bound: 3, distinct: 2 })
})

test('a cut to a mark is made at whatever stop is set', () => {
  const { order } = flatten([
    step('mark', { sledAngle: '0' }),
    step('stop', { sledAngle: '0', stop: '400' }, ['mark']),
  ])
  expect(order).toMatchObject({ settings: 1, bound: 1 })
})

test('work at one machine does not disturb another', () => {
  const rip = { fence: '80.00' }
  const { order } = flatten([
    step('1', rip),
    step('plane', { thickness: '19' }, ['1'], 'planer'),
    step('2', rip, ['plane']),
  ])
  expect(order).toMatchObject({ settings: 2, bound: 2 })
})

test('fewest settings, against every possible order', () => {
  let judged = 0
  fc.assert(
    fc.property(fc.integer(), fc.integer({ min: 1, max: 7 }), (seed, count) => {
      const steps = randomSteps(seed, count)
      const fewest = fewestByForce(steps)
      const { work, order, flat } = flatten(steps)
      judged += fewest > settingsBound(work).distinct ? 1 : 0
      expect(order.settings).toBe(fewest)
      expect(settingsBound(work).bound).toBeLessThanOrEqual(fewest)
      expect(order.bound).toBe(fewest)
      expect(settingsOf(flat, work)).toBe(fewest)
    }),
    { numRuns: 400, seed: 7 },
  )
  // Cases in which some setting has to be made again.
  expect(judged).toBeGreaterThan(20)
})

describe('larger work', () => {
  const cases = Array.from({ length: 40 }, (_, i) => randomSteps(1000 + i, 30))

  test('each step once, after those it waits for, and as many settings as told', () => {
    for (const steps of cases) {
      const { work, order, flat } = flatten(steps, 500)
      expect(flat.toSorted((a, b) => a - b)).toEqual(steps.map((_, i) => i))
      expect(settingsOf(flat, work)).toBeLessThanOrEqual(order.settings)
      expect(order.runs.reduce((sum, run) => sum + run.settingSeconds, 0)).toBe(order.seconds)
      expect(order.runs.filter((run) => run.isSet)).toHaveLength(order.settings)
      expect(order.bound).toBeLessThanOrEqual(order.settings)
    }
  })

  test('the order in which steps are given does not change the number of settings once proven', () => {
    let proven = 0
    for (const steps of cases) {
      const { order } = flatten(steps, 20_000)
      const turned = flatten(steps.toReversed(), 20_000).order
      if (order.bound < order.settings || turned.bound < turned.settings) continue
      proven += 1
      expect(turned.settings).toBe(order.settings)
    }
    expect(proven).toBeGreaterThan(20)
  })
})

test('bad work is refused by name', () => {
  expect(() => workOf([step('a', {}, ['b'])])).toThrow(/waits for b/)
  expect(() => workOf([step('a', {}, ['b']), step('b', {}, ['a'])])).toThrow(/ring/)
  expect(() => workOf([step('a', {}), step('a', {})])).toThrow(/same key/)
})
