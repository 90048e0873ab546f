/**
 * The plan as a whole: every cut after those that it waits for, and the numbers that are told of it add up.
 * Tests: tests/core/setups/verify-setups.test.ts.
 */
import type { Setup } from '../setup-plan'
import type { Check } from './check'

/** Every cut after the ones that it says it waits for. */
export function checkOrder(check: Check): void {
  for (const found of check.all) {
    for (const key of found.cut.after) {
      const first = check.byKey.get(key)
      if (first === undefined) check.fault('unknown', found.cut.key, `waits for ${key}, which is not there`)
      else check.before(first, found, 'it says that it waits for it')
    }
  }
}

export function checkSums(check: Check): void {
  const { plan } = check
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'sum', 'plan', what)
  const sum = (of: (setup: Setup) => number, setups = plan.setups): number =>
    setups.reduce((s, x) => s + of(x), 0)
  const same = (a: number, b: number): boolean => Math.abs(a - b) < 1e-6 * Math.max(1, Math.abs(b))
  const isSet = (setup: Setup): boolean => setup.resumes === undefined
  ok(plan.setups.filter(isSet).length === plan.settings, 'settings')
  ok(plan.settingsBound <= plan.settings && plan.distinctSettings <= plan.settings, 'bound above the plan')
  ok((plan.status === 'optimal') === (plan.settings === plan.settingsBound), 'status')
  ok(
    same(
      sum((s) => s.settingSeconds),
      plan.settingSeconds,
    ),
    'setting time',
  )
  ok(
    same(
      sum((s) => s.cuttingSeconds),
      plan.cuttingSeconds,
    ),
    'cutting time',
  )
  for (const setup of plan.setups) {
    ok(
      same(
        setup.cuts.reduce((s, cut) => s + cut.seconds, 0),
        setup.cuttingSeconds,
      ),
      `cutting time of ${setup.id}`,
    )
    ok(setup.cuts.length > 0, `${setup.id} is empty`)
  }
  const stations = [...new Set(plan.setups.map((setup) => setup.station))]
  for (const station of stations) {
    const here = plan.setups.filter((setup) => setup.station === station)
    const told = plan.stations.find((entry) => entry.station === station)
    ok(told?.setups === here.filter(isSet).length, `set-ups of ${station}`)
    ok(
      same(
        sum((s) => s.settingSeconds + s.cuttingSeconds, here),
        told?.seconds ?? -1,
      ),
      `time of ${station}`,
    )
    here.forEach((setup, i) => {
      ok(
        setup.resumes === undefined || here[i - 1]?.id === setup.resumes,
        `${setup.id} goes on with another set-up`,
      )
    })
  }
  ok(stations.length === plan.stations.length, 'stations')
}
