/**
 * Operations made on the saw: bevelled edges, ends, notches and tapers come out of the settings as the part wants them.
 * Recomputed from planes and arrises, not from the planner's formulas. Tests: tests/core/setups/verify-setups.test.ts.
 */
import type { EdgeBevel, EndCut, Notch, Part, Taper } from '#lib/core/design/model'
import { type Check, type Found, NEAR_RAD, near } from './check'

/** An edge bevelled along the fence: the plane that the tilted blade leaves is the one that is wanted. */
export function checkEdgeBevel(check: Check, part: Part, op: EdgeBevel, { cut, setup }: Found): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const { widthMm, thicknessMm, lengthMm } = part.blank
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const [, ny, nz] = op.normal
  const tiltRad = Math.asin(Math.min(1, Math.abs(nz) / Math.hypot(ny, nz)))
  // Where the plane meets either face, measured from the edge that stays.
  const kept = [0, thicknessMm].map((z) => {
    const y = op.point[1] + ((op.point[2] - z) * nz) / ny
    return op.edge === 'edgeB' ? y : widthMm - y
  })
  const lean = settings.bladeTiltRad ?? 9
  ok(settings.guide === 'ripFence', 'not along the fence')
  ok(near(Math.abs(lean), tiltRad, NEAR_RAD), 'blade tilt does not make this bevel')
  ok(saw.tiltsTo === 'left' ? lean >= -NEAR_RAD : lean <= NEAR_RAD, 'the blade does not lean to this side')
  ok(near(settings.fenceMm, Math.min(...kept)), 'the fence is not at the narrower face')
  check.limit(lengthMm < saw.minRipLengthMm, 'tooShortToRip', cut.key)
  check.limit(Math.min(...kept) > saw.maxRipMm, 'tooWideForFence', cut.key)
  check.limit(thicknessMm / Math.cos(tiltRad) > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
}

/** Length along the grain at which a plane cuts the line through y, z. */
const alongAt = (cut: Pick<EndCut, 'point' | 'normal'>, y: number, z: number): number =>
  cut.point[0] + ((cut.point[1] - y) * cut.normal[1] + (cut.point[2] - z) * cut.normal[2]) / cut.normal[0]

/** Where both ends of a part stand on its four arrises, in the order y0z0, y0z1, y1z0, y1z1. */
function endsOnArrises(part: Part): readonly (readonly [number, number])[] {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const cutOf = (end: 'endA' | 'endB') =>
    part.operations.find((op): op is EndCut => op.kind === 'endCut' && op.end === end)
  const [a, b] = [cutOf('endA'), cutOf('endB')]
  return [0, widthMm].flatMap((y) =>
    [0, thicknessMm].map((z) => [a ? alongAt(a, y, z) : 0, b ? alongAt(b, y, z) : lengthMm] as const),
  )
}

export function checkEndCut(
  check: Check,
  part: Part,
  op: EndCut,
  { cut, setup, at }: Found,
  own: readonly Found[],
): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const [nx, ny, nz] = op.normal
  const turnRad = Math.abs(Math.atan(ny / nx))
  const tiltRad = Math.asin(Math.abs(nz) / Math.hypot(nx, ny, nz))
  ok(near(Math.abs(settings.sledAngleRad ?? 9), turnRad, NEAR_RAD), 'sled angle does not make this end')
  ok(near(Math.abs(settings.bladeTiltRad ?? 9), tiltRad, NEAR_RAD), 'blade tilt does not make this end')
  const lean = settings.bladeTiltRad ?? 0
  ok(saw.tiltsTo === 'left' ? lean >= -NEAR_RAD : lean <= NEAR_RAD, 'the blade does not lean to this side')
  const ends = endsOnArrises(part)
  const others = ends.map(([a, b]) => (op.end === 'endA' ? b : a))
  const tip = op.end === 'endA' ? Math.max(...others) : Math.min(...others)
  const lengths = ends.map(([a, b]) => Math.abs((op.end === 'endA' ? a : b) - tip))
  if (cut.isToMark !== true)
    ok(
      lengths.some((length) => near(settings.stopMm, length)),
      'the stop does not give the length',
    )
  const isLast = !own.some((o) => o.cut.kind === 'endCut' && o.at > at)
  const isOutOfReach = lengths.some((length) => length < saw.minStopMm || length > saw.maxStopMm)
  ok(cut.isToMark !== true || !isLast || isOutOfReach, 'cut to length without a stop')
  check.limit(turnRad > saw.maxSledAngleRad, 'angleTooSteep', cut.key)
  check.limit(part.blank.thicknessMm / Math.cos(tiltRad) > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
  check.limit(part.blank.widthMm > saw.maxCrosscutWidthMm, 'tooWideForSled', cut.key)
  check.limit(part.blank.lengthMm < saw.minHoldMm, 'tooShortToHold', cut.key)
}

/** Distances from the tip of each end to the near shoulder, along either long side of the notched face. */
function shoulderDistances(part: Part, op: Notch): readonly number[] {
  const isWide = op.face === 'faceA' || op.face === 'faceB'
  const acrossMm = isWide ? part.blank.widthMm : part.blank.thicknessMm
  const ends = endsOnArrises(part)
  const [tipA, tipB] = [Math.min(...ends.map(([a]) => a)), Math.max(...ends.map(([, b]) => b))]
  const shift = (acrossMm / 2) * Math.tan(op.skewRad)
  const half = op.widthMm / (2 * Math.cos(op.skewRad))
  return [op.alongMm - shift, op.alongMm + shift].flatMap((x) => [x - half - tipA, tipB - (x + half)])
}

export function checkNotch(check: Check, part: Part, op: Notch, { cut, setup }: Found): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const bladeMm = settings.bladeWidthMm ?? 0
  const squareStepMm = (settings.stepMm ?? 0) * Math.cos(op.skewRad)
  ok(near(settings.bladeHeightMm, op.depthMm), 'blade height is not the depth')
  ok(near(Math.abs(settings.sledAngleRad ?? 9), Math.abs(op.skewRad), NEAR_RAD), 'sled angle is not the skew')
  const isWideBlade = op.widthMm < bladeMm - 1e-9
  ok(
    isWideBlade || near(bladeMm + (cut.passes - 1) * squareStepMm, op.widthMm),
    'the passes do not make the width',
  )
  ok(squareStepMm <= bladeMm + 1e-6, 'ridges are left between two passes')
  const first = shoulderDistances(part, op)
  ok(
    cut.isToMark === true || first.some((d) => near(settings.stopMm, d)),
    'the stop does not stand at a shoulder',
  )
  const travelMm = (settings.lastStopMm ?? settings.stopMm ?? 0) - (settings.stopMm ?? 0)
  ok(
    cut.isToMark === true || near(travelMm, (cut.passes - 1) * (settings.stepMm ?? 0)),
    'the second stop is not at the last pass',
  )
  check.limit(isWideBlade, 'notchWiderThanPart', cut.key)
  check.limit(Math.abs(op.skewRad) > saw.maxSledAngleRad, 'angleTooSteep', cut.key)
  check.limit(op.depthMm > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
  check.limit(part.blank.lengthMm < saw.minHoldMm, 'tooShortToHold', cut.key)
}

/** A taper: the line from the jig's wide size to its slim one is where the sloping face must come to lie. */
export function checkTaper(
  check: Check,
  part: Part,
  op: Taper,
  { cut, setup, at }: Found,
  own: readonly Found[],
): void {
  const { settings } = setup
  const saw = check.input.shop.tableSaw
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const ok = (condition: boolean, what: string): void => check.expect(condition, 'setting', cut.key, what)
  const isFace = op.face.startsWith('face')
  const sizeMm = isFace ? thicknessMm : widthMm
  const places = [op.lengthMm, 0].map((fromEnd) => (op.end === 'endA' ? fromEnd : lengthMm - fromEnd))
  // What earlier tapers took from the face that bears on the jig, on straight lines from start to end.
  const gone = places.map(() => 0)
  for (const other of part.operations) {
    if (other.kind !== 'taper' || other.face === op.face || other.face.slice(0, 4) !== op.face.slice(0, 4))
      continue
    if (!own.some((f) => f.at < at && f.cut.kind === 'taper' && f.cut.operationIds?.includes(other.id)))
      continue
    places.forEach((x, i) => {
      const away = other.end === 'endA' ? x : lengthMm - x
      if (away < other.lengthMm) gone[i] += other.depthMm - (away * other.depthMm) / other.lengthMm
    })
  }
  const [wideMm, slimMm] = [sizeMm - gone[0], sizeMm - op.depthMm - gone[1]]
  ok(settings.guide === 'taperJig', 'not on the taper jig')
  ok(near(settings.bladeTiltRad, 0, NEAR_RAD), 'blade tilted')
  ok(near(settings.jigWideMm, wideMm), 'the jig is not set to the size where the taper begins')
  ok(near(settings.jigSlimMm, slimMm), 'the jig is not set to the slim end')
  ok(near(Math.tan(settings.jigRad ?? 9), (wideMm - slimMm) / op.lengthMm, NEAR_RAD), 'another slope')
  check.limit((isFace ? widthMm : thicknessMm) > saw.maxBladeHeightMm, 'bladeTooLow', cut.key)
  check.limit(lengthMm < saw.minHoldMm, 'tooShortToHold', cut.key)
}
