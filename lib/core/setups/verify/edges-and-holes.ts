/**
 * Operations off the saw: holes and countersinks, eased edges, engraved fields.
 * Tests: tests/core/setups/verify-setups.test.ts, eased-edges.test.ts.
 */
import type { EasedEdge, EngravedField, Hole, Part } from '#lib/core/design/model'
import { type Check, type Found, near, THIN_MM } from './check'

export function checkHole(
  check: Check,
  part: Part,
  op: Hole,
  { cut, setup }: Found,
  sinks: readonly Found[],
): void {
  const { settings } = setup
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const axis = { end: 0, edg: 1, fac: 2 }[op.face.slice(0, 3)] ?? 0
  const woodMm = [part.blank.lengthMm, part.blank.widthMm, part.blank.thicknessMm][axis]
  const upright = Math.abs(op.direction[axis]) / Math.hypot(...op.direction)
  ok(near(settings.bitMm, op.diameterMm), 'another bit')
  ok(near(Math.cos(settings.tableTiltRad ?? 9), upright, 1e-4), 'table tilt is not the slope of the hole')
  const isThrough = op.depthMm * upright > woodMm - THIN_MM - 1e-9
  ok(isThrough || near(settings.depthMm, op.depthMm), 'depth stop is not the depth')
  const sinksWanted = op.countersinkDiameterMm === undefined ? 0 : 1
  check.expect(
    sinks.length === sinksWanted,
    sinks.length < sinksWanted ? 'missing' : 'twice',
    cut.key,
    'countersink',
  )
  for (const sink of sinks) {
    check.expect(
      near(sink.setup.settings.bitMm, op.countersinkDiameterMm ?? 0),
      'setting',
      sink.cut.key,
      'another countersink',
    )
  }
}

export function checkEased(check: Check, part: Part, op: EasedEdge, { cut, setup }: Found): void {
  const { routerTable } = check.input.shop
  const sizeMm = op.kind === 'roundOver' ? op.radiusMm : op.widthMm
  const deepestMm = setup.settings.passDepthMm ?? 0
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  ok(setup.station === 'routerTable', 'not made on the router table')
  ok(near(setup.settings.bitMm, sizeMm), 'another size of edge')
  ok(op.kind === 'roundOver' || near(setup.settings.depthMm, sizeMm), 'the bit stands at another height')
  ok(
    setup.settings.bit?.includes(op.kind === 'chamfer' ? 'chamfer' : 'round') === true,
    'a bit of another shape',
  )
  ok(deepestMm * cut.passes >= sizeMm - 1e-6, 'the passes do not reach the size')
  check.expect(deepestMm <= routerTable.maxPassMm + 1e-9, 'limit', cut.key, 'a pass is too deep')
  check.limit(part.blank.lengthMm < routerTable.minLengthMm, 'tooShortToRout', cut.key)
}

export function checkEngraving(check: Check, part: Part, op: EngravedField, { cut, setup }: Found): void {
  const { laserEngraver } = check.input.shop
  const { settings } = setup
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const woodMm = op.face.startsWith('face') ? part.blank.thicknessMm : part.blank.widthMm
  ok(setup.station === 'laserEngraver', 'not made on the engraver')
  ok(near(settings.thicknessMm, woodMm), 'focused for another thickness')
  ok(near(settings.depthMm, op.depthMm), 'another depth')
  ok(cut.passes * laserEngraver.passDepthMm >= op.depthMm - 1e-6, 'the passes do not reach the depth')
  // No head moves faster than its speed along every line.
  const leastS = (op.widthMm / laserEngraver.lineMm) * (op.lengthMm / laserEngraver.speedMmPerS)
  ok(cut.seconds >= cut.passes * leastS, 'faster than the engraver moves')
}
