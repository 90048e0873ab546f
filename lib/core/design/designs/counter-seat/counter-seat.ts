/**
 * Counter seat on raked legs: two leg frames side by side, each with two legs that lean outwards front to back
 * and two supports let into them; a footrest rail and a back rail join the frames; boards make the seat. The
 * model holds every seat of the build; seat 1 is drawn. mm, rad inside.
 * Parts follow from ./layout, joints from the faces that meet, holes from the joints.
 * Tests: tests/core/design/counter-seat.test.ts
 */
import { moveFrame } from '#lib/core/geometry/frame'
import { add, type Vec3 } from '#lib/core/geometry/vec3'
import { err, ok, type Result } from '#lib/core/units/result'
import { ALL_ROUND } from '../../ease-boards'
import { fitOfPiece } from '../../fit/fit-piece'
import { easedParts, FAULT_SENTENCE, screwsNeeded, withHoles } from '../../furniture-design'
import { joinParts } from '../../join-parts'
import type {
  Clash,
  Design,
  DesignRefusal,
  Dimension,
  Joint,
  Model,
  ParameterValues,
  Part,
  PlaceBox,
} from '../../model'
import { readParameters } from '../../parameters'
import { facesOfParts } from '../../part-shape'
import { screwFaults } from '../../screws'
import { weightKg } from '../../weight'
import { dimensionsOf, figuresOf } from './figures'
import { backPlans, jointsOfSeat, moveJoint } from './joints'
import { type Layout, layOut, refusalsOf } from './layout'
import { fitLines, noticesOf, toldOf } from './notices'
import { counterSeatParameters, valuesByName } from './parameters'
import { boardId, partsOfSeat, railId } from './parts'

/** One sentence a parameter, for the first screw that is at fault. */
function screwRefusals(parts: readonly Part[], joints: readonly Joint[]): DesignRefusal[] {
  const screws = joints.flatMap((joint) => joint.screws)
  const byParameter = new Map<string, DesignRefusal>()
  for (const fault of screwFaults(parts, screws)) {
    const isSeat = !fault.screwId.startsWith('lap')
    const parameter = isSeat ? 'seatScrewLength' : 'screwLength'
    const which = isSeat ? 'A seat or rail screw' : 'A frame screw'
    const lengthMm = screws.find((screw) => screw.id === fault.screwId)?.lengthMm ?? 0
    const message = `${which} ${lengthMm} mm long ${FAULT_SENTENCE[fault.kind]}.`
    if (!byParameter.has(parameter)) byParameter.set(parameter, { parameter, message })
  }
  return [...byParameter.values()]
}

/** Middle of each seat is the middle of its share of the counter. */
const seatOffset = (l: Layout, seat: number): Vec3 => [(seat - 0.5) * l.pitchMm - l.v.seatWidth / 2, 0, 0]

/** The counter top, and what stands beneath it. */
function placeOf(l: Layout): PlaceBox[] {
  const { v } = l
  const front = v.seatDepth - v.tuckUnder
  const under = v.counterHeight - v.counterThickness
  const back = front + v.kneeDepth
  return [
    {
      id: 'counter',
      name: 'Counter top',
      min: [0, front, under],
      max: [v.counterLength, back + 50, v.counterHeight],
    },
    {
      id: 'counterBase',
      name: 'Beneath the counter',
      min: [0, back, 0],
      max: [v.counterLength, back + 50, under],
    },
  ]
}

const RANK = { stop: 0, caution: 1, note: 2 } as const

const movePlace = (box: PlaceBox, by: Vec3): PlaceBox => ({
  ...box,
  min: add(box.min, by),
  max: add(box.max, by),
})

/** The clash of the seat that is drawn, the first. */
const moveClash = (clash: Clash, by: Vec3): Clash => ({
  ...clash,
  partId: `seat1-${clash.partId}`,
  min: add(clash.min, by),
  max: add(clash.max, by),
})

const moveDimension = (dimension: Dimension, by: Vec3): Dimension =>
  dimension.kind === 'linear'
    ? { ...dimension, from: add(dimension.from, by), to: add(dimension.to, by) }
    : {
        ...dimension,
        apex: add(dimension.apex, by),
        from: add(dimension.from, by),
        to: add(dimension.to, by),
      }

function assemble(l: Layout, read: ParameterValues, parts: readonly Part[], joints: readonly Joint[]): Model {
  const seats = Array.from({ length: l.v.abreast }, (_, index) => index + 1)
  const drilled = withHoles(parts, joints)
  const faces = facesOfParts(parts)
  const seatKg = weightKg(parts, l.v.species, faces)
  const place = placeOf(l)
  const atSeat = place.map((box) => movePlace(box, [-seatOffset(l, 1)[0], 0, 0]))
  const suits = fitOfPiece({ parts, faces }, atSeat, fitLines(l), read, toldOf(l))
  return {
    designId: counterSeat.id,
    designVersion: counterSeat.version,
    parameters: read,
    parts: seats.flatMap((seat) =>
      drilled.map((part) => ({
        ...part,
        id: `seat${seat}-${part.id}`,
        name: seats.length > 1 ? `${part.name}, seat ${seat}` : part.name,
        operations: part.operations.map((op) =>
          op.kind === 'notch' && op.jointId !== undefined
            ? { ...op, jointId: `seat${seat}-${op.jointId}` }
            : op,
        ),
        frame: moveFrame(part.frame, seatOffset(l, seat)),
        unit: seat,
      })),
    ),
    joints: seats.flatMap((seat) =>
      joints.map((joint) => moveJoint(joint, seatOffset(l, seat), (id) => `seat${seat}-${id}`)),
    ),
    hardware: screwsNeeded(joints, l.v.screwNumber, l.v.abreast),
    place,
    ...(suits.clashes.length === 0
      ? {}
      : { clashes: suits.clashes.map((clash) => moveClash(clash, seatOffset(l, 1))) }),
    fit: suits.fit,
    figures: figuresOf(l, parts, joints, seatKg),
    notices: [...noticesOf(l, seatKg), ...suits.notices].sort((a, b) => RANK[a.level] - RANK[b.level]),
    dimensions: dimensionsOf(l).map((dimension) => moveDimension(dimension, seatOffset(l, 1))),
    use: {
      kind: 'seat',
      surfaces: seats.flatMap((seat) =>
        Array.from({ length: l.v.seatBoards }, (_, index) => `seat${seat}-${boardId(index)}`),
      ),
      ...(l.v.footRest === 'rail' ? { footRests: seats.map((seat) => `seat${seat}-${railId('back')}`) } : {}),
    },
  }
}

const EASED = { eased: { 'seat board': ALL_ROUND }, feet: ['leg, hand a', 'leg, hand b'] }

function build(values: ParameterValues): Result<Model, readonly DesignRefusal[]> {
  const read = readParameters(counterSeatParameters, values)
  if (!read.ok) return read
  const layout = layOut(valuesByName(read.value))
  const refusals = refusalsOf(layout)
  if (refusals.length > 0) return err(refusals)
  const sharp = partsOfSeat(layout)
  const eased = easedParts(EASED, sharp, read.value)
  if (!eased.ok) return eased
  const parts = eased.value
  const frame = jointsOfSeat(layout, parts)
  const screws = frame.flatMap((joint) => joint.screws)
  const back = joinParts(parts, backPlans(layout), { before: screws })
  if (!back.ok) return back
  const joints = [...frame, ...back.value]
  const loose = screwRefusals(parts, joints)
  return loose.length > 0 ? err(loose) : ok(assemble(layout, read.value, parts, joints))
}

export const counterSeat: Design = {
  id: 'counterSeat',
  version: 1,
  name: 'Counter seat on raked legs',
  goodFor:
    'Sitting up to a kitchen counter or a bar: steady front to back on raked legs, made of short boards, tucked away beneath.',
  parameters: counterSeatParameters,
  cures: {
    rake: 'more',
    overhang: 'less',
    legWidth: 'more',
    legThickness: 'more',
    supportWidth: 'more',
    supportThickness: 'more',
    footRestHeight: 'less',
    joint: 'either',
    supportFace: 'either',
    seatBoards: 'more',
    seatBoardThickness: 'more',
    seatGap: 'more',
    screwSize: 'either',
    screwLength: 'more',
    seatScrewLength: 'more',
  },
  build,
}
