import { expect, test } from 'vitest'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { Setup, SetupCut, SetupPlan, SetupSettings } from '#lib/core/setups/setup-plan'
import { verifySetups } from '#lib/core/setups/verify-setups'
import { seededRng } from '#lib/core/units/rng'
import { randomInput } from './small-work'

type Harm = (plan: SetupPlan, at: { setup: number; cut: number }) => SetupPlan | undefined

const withSetup = (plan: SetupPlan, index: number, change: (setup: Setup) => Setup): SetupPlan => ({
  ...plan,
  setups: plan.setups.map((setup, i) => (i === index ? change(setup) : setup)),
})

const withCuts = (plan: SetupPlan, index: number, cuts: readonly SetupCut[]): SetupPlan =>
  withSetup(plan, index, (setup) => ({ ...setup, cuts }))

/** Moves one setting by a millimetre or a degree, if the set-up has it. */
const moved =
  (name: keyof SetupSettings, by: number, onlyKinds: readonly string[] = []): Harm =>
  (plan, { setup }) => {
    const old = plan.setups[setup].settings[name]
    const kinds = plan.setups[setup].cuts.filter((cut) => cut.isToMark !== true).map((cut) => cut.kind)
    if (typeof old !== 'number' || kinds.length === 0) return undefined
    if (onlyKinds.length > 0 && !kinds.some((kind) => onlyKinds.includes(kind))) return undefined
    return withSetup(plan, setup, (s) => ({ ...s, settings: { ...s.settings, [name]: old + by } }))
  }

const SAWN = ['crosscut', 'endCut', 'notch']
const HARMS: Readonly<Record<string, Harm>> = {
  'a cut left out': (plan, { setup, cut }) =>
    withCuts(plan, setup, plan.setups[setup].cuts.toSpliced(cut, 1)),
  'a cut made twice': (plan, { setup, cut }) => {
    const again = { ...plan.setups[setup].cuts[cut], key: 'again' }
    return withCuts(plan, setup, [...plan.setups[setup].cuts, again])
  },
  'a key used twice': (plan, { setup, cut }) => {
    const cuts = plan.setups[setup].cuts
    if (cuts.length < 2) return undefined
    return withCuts(plan, setup, cuts.with(cut, { ...cuts[cut], key: cuts[(cut + 1) % cuts.length].key }))
  },
  'a set-up moved to the front': (plan, { setup }) => {
    const found = plan.setups[setup]
    if (found.cuts.every((c) => c.after.every((key) => found.cuts.some((o) => o.key === key))))
      return undefined
    return { ...plan, setups: [found, ...plan.setups.toSpliced(setup, 1)] }
  },
  'a set-up turned round': (plan, { setup }) => {
    const { cuts } = plan.setups[setup]
    if (!cuts.some((c) => c.after.some((key) => cuts.some((o) => o.key === key)))) return undefined
    return withCuts(plan, setup, cuts.toReversed())
  },
  'the stop moved': moved('stopMm', 1, SAWN),
  'the second stop moved': moved('lastStopMm', 1, SAWN),
  'the fence moved': moved('fenceMm', 1),
  'the blade too high': moved('bladeHeightMm', 1, ['notch']),
  'the sled turned': moved('sledAngleRad', 0.02, SAWN),
  'the planer set thicker': moved('thicknessMm', 0.5),
  'another bit': moved('bitMm', 0.5),
  'the drill too deep': moved('depthMm', 1, ['drill']),
  'a longer step': moved('stepMm', 0.5),
  'the jig set wider': moved('jigWideMm', 1, ['taper']),
  'the jig set slimmer': moved('jigSlimMm', -1, ['taper']),
  'the jig at another slope': moved('jigRad', 0.01, ['taper']),
  'a chamfer bit too high': moved('depthMm', 1, ['chamfer']),
  'engraved deeper': moved('depthMm', 0.2, ['engrave']),
  'focused for other wood': moved('thicknessMm', 3, ['engrave']),
  'a pass fewer': (plan, { setup, cut }) => {
    const { cuts } = plan.setups[setup]
    if (!['notch', 'plane', 'roundOver', 'chamfer'].includes(cuts[cut].kind) || cuts[cut].passes < 2)
      return undefined
    // Planing may have room left in its passes; a third of them is never enough.
    const passes = cuts[cut].kind === 'notch' ? cuts[cut].passes - 1 : 0.3 * cuts[cut].passes
    return withCuts(plan, setup, cuts.with(cut, { ...cuts[cut], passes }))
  },
  'an operation left out': (plan, { setup, cut }) => {
    const { cuts } = plan.setups[setup]
    if (cuts[cut].operationIds === undefined) return undefined
    return withCuts(
      plan,
      setup,
      cuts.with(cut, { ...cuts[cut], operationIds: cuts[cut].operationIds.slice(1) }),
    )
  },
  'a piece that there is not': (plan, { setup, cut }) => {
    const { cuts } = plan.setups[setup]
    return withCuts(plan, setup, [...cuts, { ...cuts[cut], key: 'new', pieceId: 'nobody', after: [] }])
  },
  'another station': (plan, { setup, cut }) => {
    const kind = plan.setups[setup].cuts[cut].kind
    if (
      !['crosscut', 'plane', 'flatten'].includes(kind) ||
      plan.setups[setup].cuts[cut].key.startsWith('trim')
    )
      return undefined
    return withSetup(plan, setup, (s) => ({ ...s, station: 'laserEngraver' }))
  },
  'a limit kept quiet': (plan) => {
    const told = plan.warnings.filter(
      (w) => w.level === 'caution' && w.code !== 'noPiece' && w.code !== 'turnedBlank',
    )
    return told.length === 0 ? undefined : { ...plan, warnings: plan.warnings.filter((w) => w !== told[0]) }
  },
  'a setting not counted': (plan) => ({ ...plan, settings: plan.settings - 1 }),
  'a bound above the plan': (plan) => ({ ...plan, settingsBound: plan.settings + 1 }),
  'time left out': (plan) => ({ ...plan, cuttingSeconds: plan.cuttingSeconds - 1 }),
  'a part without a piece not told': (plan) => ({ ...plan, partsWithoutPiece: [] }),
}

const JOBS = Array.from({ length: 36 }, (_, seed) => {
  const input = randomInput(seededRng(seed + 1))
  return { seed: seed + 1, input, plan: planSetups(input) }
})

/** The harm at the first place where it can be done, from a random one on. */
function harmed(plan: SetupPlan, harm: Harm, from: number): SetupPlan | undefined {
  const places = plan.setups.flatMap((s, setup) => s.cuts.map((_, cut) => ({ setup, cut })))
  for (let i = 0; i < places.length; i++) {
    const worse = harm(plan, places[(from + i) % places.length])
    if (worse !== undefined) return worse
  }
  return undefined
}

/** Harm to the sums alone; all other harm must be found by what it does to the work, too. */
const TO_SUMS = ['a setting not counted', 'a bound above the plan', 'time left out']

test.each(Object.entries(HARMS))('%s is found', (name, harm) => {
  let judged = 0
  for (const { seed, input, plan } of JOBS) {
    const worse = harmed(plan, harm, seed * 7)
    if (worse === undefined) continue
    judged += 1
    const kinds = verifySetups(input, worse).map((fault) => fault.kind)
    const telling = TO_SUMS.includes(name) ? kinds : kinds.filter((kind) => kind !== 'sum')
    expect(telling, `seed ${seed}`).not.toEqual([])
  }
  expect(judged).toBeGreaterThan(5)
})
