import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import { designById } from '#lib/core/design/designs/registry'
import { placesAbreast } from '#lib/core/design/fit/fit-lines'
import type { Model, ParameterValues, Part } from '#lib/core/design/model'
import { flatFaces, massProperties } from '#lib/core/design/part-shape'
import { partSolid } from '#lib/core/design/part-solid'
import { tippingFactor } from '#lib/core/design/tipping'
import { densityKgM3 } from '#lib/core/design/weight'
import { moveFrame, toWorld } from '#lib/core/geometry/frame'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { firstUnit, judgeJoints, judgeSolids, judgeStanding } from './judge-model'

function modelOf(values: ParameterValues = {}): Model {
  const built = counterSeat.build(values)
  if (!built.ok) throw new Error(JSON.stringify(built.error))
  return built.value
}
const refusedFor = (values: ParameterValues): string[] => {
  const built = counterSeat.build(values)
  return built.ok ? [] : built.error.map((refusal) => refusal.parameter)
}
const figure = (model: Model, id: string): number => {
  const found = model.figures.find((entry) => entry.id === id)
  if (found === undefined) throw new Error(`no figure ${id}`)
  return found.value
}
const DEG = Math.PI / 180
/** For sums done by hand. */
const SMALLER = { supportWidth: 50, overhang: 25 }
const byKind = (model: Model, kind: string): Part[] => model.parts.filter((part) => part.kind === kind)

/** Parameters whose legs stand exactly `h` tall. */
const standing = (h: number, more: ParameterValues = {}): ParameterValues => ({
  counterHeight: 1000,
  counterThickness: 40,
  seatBoardThickness: 20,
  kneeClearance: 1000 - 40 - 20 - h,
  floorDepth: 1500,
  kneeDepth: 1500,
  ...more,
})

describe('lengths and angles by formula', () => {
  it('a leg of 610 mm at 5° is 612.33 mm long, its foot 53.37 mm out (L = h / cos a, h tan a; plane trigonometry)', () => {
    const model = modelOf(standing(610, { rake: 5 }))
    expect(figure(model, 'legLength')).toBeCloseTo(612.33, 2)
    expect(figure(model, 'footOffset')).toBeCloseTo(53.37, 2)
    expect(figure(model, 'legLength')).toBeCloseTo(610 / Math.cos(5 * DEG), 9)
  })

  it('a rake of next to nothing is none: planes that hardly differ are taken as one', () => {
    const plain = massProperties(byKind(modelOf({ rake: 0 }), 'leg, hand a')[0]).volumeMm3
    for (const rake of [1e-12, 5.73e-8, 1.7e-6, 1e-4])
      expect(massProperties(byKind(modelOf({ rake }), 'leg, hand a')[0]).volumeMm3 / plain).toBeCloseTo(1, 5)
  })

  it('a leg of 620 mm at 7° has its foot 76.13 mm out; tops 300 mm apart at 610 mm and 5° give 406.74 mm at the floor', () => {
    expect(figure(modelOf(standing(620, { rake: 7 })), 'footOffset')).toBeCloseTo(76.13, 2)
    const model = modelOf(standing(610, { rake: 5, seatDepth: 350, overhang: 25 }))
    expect(figure(model, 'footSpread')).toBeCloseTo(406.74, 2)
  })

  it('a support 38 mm wide takes a notch of 38.145 mm along a leg raked 5° (w / cos a)', () => {
    const model = modelOf({ supportWidth: 38, rake: 5 })
    expect(figure(model, 'notchWidthAlongLeg')).toBeCloseTo(38.145, 3)
    const [notch] = byKind(model, 'leg, hand a')[0].operations.filter((op) => op.kind === 'notch')
    expect(notch).toMatchObject({ widthMm: 38, depthMm: 19, skewRad: 5 * DEG })
  })

  it('both ends of a leg are cut at the rake, parallel; those of a support mirrored', () => {
    const model = modelOf({ rake: 8 })
    const cuts = (part: Part) => part.operations.flatMap((op) => (op.kind === 'endCut' ? [op.mitreRad] : []))
    for (const part of byKind(model, 'leg, hand a')) expect(cuts(part)).toEqual([8 * DEG, 8 * DEG])
    for (const part of byKind(model, 'leg, hand b')) expect(cuts(part)).toEqual([-8 * DEG, -8 * DEG])
    for (const part of byKind(model, 'lower support')) expect(cuts(part)).toEqual([-8 * DEG, 8 * DEG])
  })

  it('36 in counter, 38 mm top: 254 to 305 mm of clearance give a seat at 622.4 to 571.4 (10 to 12 in from the underside)', () => {
    const seat = (kneeClearance: number): number =>
      figure(modelOf({ counterHeight: 914.4, counterThickness: 38, kneeClearance }), 'seatHeight')
    // The published sum rounds 12 in, 304.8 mm, to 305.
    expect(seat(254)).toBeCloseTo(622.4, 9)
    expect(seat(305)).toBeCloseTo(571.4, 9)
  })

  it('24 in a seat is 609.6 mm: 96 in take four, 2438 mm take three (NKBA 24 in per seat)', () => {
    expect(placesAbreast(96 * 25.4)).toBe(4)
    expect(placesAbreast(2438)).toBe(3)
    expect(placesAbreast(609.5)).toBe(0)
    for (let n = 1; n <= 20; n++) expect(placesAbreast(n * 609.6)).toBe(n)
  })

  it('weighs what its wood weighs: red oak at 12 % is 705.6 kg/m3 (1000 × 0.63 × 1.12)', () => {
    expect(densityKgM3('redOak')).toBeCloseTo(705.6, 9)
    const model = modelOf({ species: 'redOak', abreast: 1, counterLength: 700, ...SMALLER })
    // By hand: each leg is its length along an edge × width × thickness less two notches of
    // width along the leg × leg width × depth; supports are trapezia; rails and boards boxes.
    const [h, a] = [577.4, 8 * DEG]
    const leg = (h / Math.cos(a)) * 45 * 38 - 2 * (50 / Math.cos(a)) * 45 * 19
    const trapezium = (bottomMm: number) => bottomMm * 50 * 19 - 50 * 50 * Math.tan(a) * 19
    const supports =
      trapezium(figure(model, 'topSupportLength')) + trapezium(figure(model, 'lowerSupportLength'))
    const volume = 4 * leg + 2 * supports + 2 * 350 * 50 * 19 + 4 * 85.5 * 400 * 19
    expect(figure(model, 'weight')).toBeCloseTo(volume * 705.6e-9, 9)
  })

  it('tips as the hand sum with the forces of EN 1022 says: 4.678 inside the feet, 0.269 outside', () => {
    const at = { leverMm: 85, ownLeverMm: 200, weightKg: 5, heightMm: 650 }
    expect(tippingFactor(at)).toBeCloseTo(4.678, 2)
    expect(tippingFactor({ ...at, leverMm: -30, ownLeverMm: 170 })).toBeCloseTo(0.269, 2)
  })
})

describe('what it holds', () => {
  it('every seat of the build, side by side at equal pitch, with all their screws', () => {
    const model = modelOf({ abreast: 3, counterLength: 3 * 700 })
    expect(model.parts).toHaveLength(3 * 14)
    expect(new Set(model.parts.map((part) => part.id)).size).toBe(42)
    const boards = model.parts.filter((part) => part.id.endsWith('board-1'))
    expect(boards.map((part) => part.frame.origin[0])).toEqual([150, 850, 1550])
    const screws = model.joints.flatMap((joint) => joint.screws)
    expect(model.hardware.reduce((sum, need) => sum + need.count, 0)).toBe(screws.length)
    const ids = new Set(model.parts.map((part) => part.id))
    for (const joint of model.joints) expect(ids.has(joint.a) && ids.has(joint.b)).toBe(true)
    for (const notch of model.parts.flatMap((part) => part.operations.filter((op) => op.kind === 'notch')))
      expect(model.joints.some((joint) => joint.id === notch.jointId)).toBe(true)
  })

  it('glues long grain to long grain only, and lets the seat boards move', () => {
    for (const joint of modelOf().joints) {
      expect([joint.grainAtA, joint.grainAtB]).toEqual(['long', 'long'])
      expect(joint.glued).toBe(joint.kind !== 'onTop')
    }
  })

  it('laps have the area of the parallelogram, support width × leg width / cos a', () => {
    for (const joint of ['letIn', 'onFace']) {
      const laps = modelOf({ joint, screwLength: 32, supportWidth: 50 }).joints.filter((entry) =>
        entry.id.includes('lap'),
      )
      expect(laps).toHaveLength(16)
      for (const lap of laps) expect(lap.contact.areaMm2).toBeCloseTo((50 * 45) / Math.cos(8 * DEG), 6)
    }
  })

  it('on paper, says which surface a clearance is measured from', () => {
    const spec = counterSeat.parameters.find((parameter) => parameter.id === 'kneeClearance')
    expect(spec?.help).toContain('underside')
    expect(designById('counterSeat')).toBe(counterSeat)
    expect(designById('toString')).toBeUndefined()
  })
})

describe('footrest and back', () => {
  const lowAndHigh = (part: Part, axis: 0 | 1 | 2): [number, number] => {
    const corners = flatFaces(part).flatMap(({ frame, pieces }) =>
      pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(part.frame, toWorld(frame, [u, v, 0]))[axis])),
    )
    return [Math.min(...corners), Math.max(...corners)]
  }
  const partOf = (model: Model, id: string): Part => model.parts.find((part) => part.id === `seat1-${id}`)!
  const bare = { floorDepth: 900, kneeDepth: 700 }

  it('the footrest is where the feet are: on the side of the counter, its highest edge at its height', () => {
    const model = modelOf(bare)
    expect(model.use?.footRests).toContain('seat1-rail-back')
    const rest = partOf(model, 'rail-back')
    expect(lowAndHigh(rest, 2)[1]).toBeCloseTo(178, 9)
    expect(lowAndHigh(rest, 1)[0]).toBeGreaterThan(300)
    expect(lowAndHigh(partOf(model, 'rail-front'), 1)[1]).toBeLessThan(100)
  })

  it('without one, that rail lies 2 mm under the top supports and nothing else moves', () => {
    const small = { ...bare, ...SMALLER }
    const [without, plain] = [modelOf({ ...small, footRest: 'none' }), modelOf(small)]
    expect(without.use?.footRests).toBeUndefined()
    expect(lowAndHigh(partOf(without, 'rail-back'), 2)[1]).toBeCloseTo(577.4 - 50 - 2, 9)
    for (const id of ['rail-front', 'support-left-lower', 'leg-right-back'])
      expect(partOf(without, id).frame).toEqual(partOf(plain, id).frame)
    expect(without.notices.some((notice) => notice.parameter === 'footRest')).toBe(true)
  })

  it('a low back rises on the side away from the counter, through notches in the first board', () => {
    const model = modelOf({ ...bare, ...SMALLER, back: 'low', backHeight: 220, backWidth: 80, seatBoards: 3 })
    expect(model.parts.filter((part) => part.unit === 1)).toHaveLength(13 + 3)
    const rest = partOf(model, 'backrest')
    expect(lowAndHigh(rest, 2)).toEqual([expect.closeTo(596.4 + 220 - 80, 9), expect.closeTo(596.4 + 220, 9)])
    // Against the sitter: nearer to the counter than its posts.
    expect(lowAndHigh(rest, 1)[0]).toBeCloseTo(lowAndHigh(partOf(model, 'post-left'), 1)[1], 9)
    const notches = partOf(model, 'board-1').operations.filter((op) => op.kind === 'notch')
    expect(notches).toHaveLength(2)
    for (const notch of notches) {
      expect(notch).toMatchObject({ face: 'edgeA', widthMm: 19 })
      expect(notch.depthMm).toBeCloseTo(25 + 45, 9)
    }
    expect(model.joints.filter((joint) => joint.id.startsWith('seat1-lap-post'))).toHaveLength(4)
    expect(figure(model, 'backTop')).toBeCloseTo(816.4, 9)
  })
})

describe('refusals name the parameter', () => {
  it.each<[string, ParameterValues, string]>([
    ['clearance leaves no seat', { kneeClearance: 600 }, 'kneeClearance'],
    ['clearance of nought', { kneeClearance: 0 }, 'kneeClearance'],
    ['clearance above the seat', { kneeClearance: -50 }, 'kneeClearance'],
    ['legs lean inwards and cross', { rake: -5 }, 'rake'],
    ['legs too wide for the frame', { legWidth: 120, seatDepth: 300 }, 'legWidth'],
    ['feet wider than the place', { rake: 20 }, 'rake'],
    ['feet in the base of the counter', { tuckUnder: 375 }, 'tuckUnder'],
    ['notch leaves less than a third', { supportThickness: 26, screwLength: 35 }, 'supportThickness'],
    ['leg thinner than a notch allows', { legThickness: 15 }, 'legThickness'],
    ['notch out of the foot of the leg', { footRestHeight: 100 }, 'footRestHeight'],
    ['notches run into each other', { footRestHeight: 560 }, 'footRestHeight'],
    ['screw comes out of the leg', { screwLength: 36 }, 'screwLength'],
    ['screw comes out of the support', { seatScrewLength: 70 }, 'seatScrewLength'],
    ['screw too short', { screwLength: 22 }, 'screwLength'],
    ['seat screw too short', { seatScrewLength: 25 }, 'seatScrewLength'],
    ['screw splits the support', { supportThickness: 12, screwSize: 'no10' }, 'screwSize'],
    ['seats wider than the counter', { abreast: 4 }, 'abreast'],
    ['boards too narrow', { seatBoards: 10 }, 'seatBoards'],
    ['first board misses its support', { seatBoards: 5, overhang: 60 }, 'overhang'],
    ['frames meet in the middle', { seatWidth: 250, legThickness: 50 }, 'seatWidth'],
    ['supports where the posts stand', { back: 'low', joint: 'onFace', seatBoards: 3 }, 'back'],
    ['posts down on the lower supports', { back: 'low', seatBoards: 3, footRestHeight: 490 }, 'back'],
    ['notches through the first board', { back: 'low' }, 'back'],
    [
      'backrest down on the seat',
      { back: 'low', seatBoards: 3, backHeight: 110, backWidth: 100 },
      'backWidth',
    ],
    ['no room for the rail', { footRest: 'none', footRestHeight: 540 }, 'footRestHeight'],
    ['no such parameter', { kneeClearence: 280 }, 'kneeClearence'],
    ['letters in a number', { seatWidth: 'wide' }, 'seatWidth'],
    ['half a seat', { abreast: 1.5 }, 'abreast'],
    ['no such choice', { joint: 'dowel' }, 'joint'],
  ])('%s', (_, values, parameter) => {
    expect(refusedFor(values)).toContain(parameter)
    const built = counterSeat.build(values)
    if (!built.ok) for (const { message } of built.error) expect(message).toMatch(/^.{15,}\.$/)
  })

  it('says the value that would do, and that value does', () => {
    const built = counterSeat.build({ screwLength: 36 })
    expect(!built.ok && built.error[0].message).toContain('at most 35 mm')
    expect(refusedFor({ screwLength: 35 })).toEqual([])
  })
})

describe('notices', () => {
  const about = (values: ParameterValues, parameter: string) =>
    modelOf(values).notices.filter((notice) => notice.parameter === parameter)

  it('stop a seat that tips sideways or forwards under the forces of EN 1022', () => {
    expect(about({ overhang: 80, seatBoards: 2 }, 'overhang')[0].level).toBe('stop')
    expect(about({ rake: 0, overhang: 70, seatBoards: 2 }, 'rake')[0].level).toBe('stop')
    expect(about({}, 'overhang')).toEqual([])
  })

  it('tell clearance, footrest, elbow room and what shops sell, each with its source', () => {
    expect(about({ kneeClearance: 190 }, 'kneeClearance')[0].level).toBe('caution')
    expect(about({ footRestHeight: 280 }, 'footRestHeight')[0].level).toBe('caution')
    expect(about({ abreast: 3, counterLength: 1300 }, 'abreast')[0].level).toBe('caution')
    expect(about({}, 'kneeClearance')[0].message).toContain('610 to 660')
    for (const notice of modelOf({ kneeClearance: 190, footRestHeight: 280 }).notices)
      expect(notice.source).toBeTruthy()
  })
})

/** Random parameters, wide enough that many are refused. */
const parameterSets: fc.Arbitrary<ParameterValues> = fc.record({
  counterHeight: fc.double({ min: 750, max: 1150, noNaN: true }),
  counterThickness: fc.double({ min: 18, max: 60, noNaN: true }),
  kneeClearance: fc.double({ min: 200, max: 340, noNaN: true }),
  counterLength: fc.double({ min: 600, max: 3000, noNaN: true }),
  abreast: fc.integer({ min: 1, max: 3 }),
  seatWidth: fc.double({ min: 280, max: 500, noNaN: true }),
  seatDepth: fc.double({ min: 280, max: 420, noNaN: true }),
  seatBoards: fc.integer({ min: 1, max: 5 }),
  seatBoardThickness: fc.double({ min: 14, max: 32, noNaN: true }),
  seatGap: fc.constantFrom(0, 4, 6.5),
  overhang: fc.constantFrom(0, 12, 25, 40),
  rake: fc.oneof(fc.constant(0), fc.double({ min: 0, max: 14, noNaN: true })),
  legWidth: fc.double({ min: 32, max: 70, noNaN: true }),
  legThickness: fc.double({ min: 28, max: 50, noNaN: true }),
  supportWidth: fc.double({ min: 38, max: 70, noNaN: true }),
  supportThickness: fc.double({ min: 13, max: 26, noNaN: true }),
  footRestHeight: fc.double({ min: 140, max: 300, noNaN: true }),
  floorDepth: fc.constant(900),
  kneeDepth: fc.constant(700),
  joint: fc.constantFrom('letIn', 'onFace'),
  supportFace: fc.constantFrom('inner', 'outer'),
  footRest: fc.constantFrom('rail', 'none'),
  back: fc.constantFrom('none', 'none', 'low'),
  screwSize: fc.constantFrom('no6', 'no8'),
  screwLength: fc.constantFrom(25, 30, 32, 40),
  seatScrewLength: fc.constantFrom(40, 45, 50),
})

describe('over random parameters', () => {
  let kernel: SolidKernel
  beforeAll(async () => {
    kernel = await loadSolidKernel()
  })

  it('sees a support that is pushed 1 mm further into its legs', () => {
    const seat = modelOf(SMALLER).parts.filter((part) => part.unit === 1)
    const [support, leg] = ['seat1-support-left-lower', 'seat1-leg-left-front'].map((id) => {
      const part = seat.find((entry) => entry.id === id)!
      const own = partSolid(kernel, part)
      const frame = id.includes('support') ? moveFrame(part.frame, [-1, 0, 0]) : part.frame
      const placed = kernel.place(own, frame)
      own.free()
      return placed
    })
    const shared = kernel.intersect(support, leg)
    expect(shared.volumeMm3()).toBeCloseTo((50 * 45) / Math.cos(8 * DEG), 2)
    for (const solid of [support, leg, shared]) solid.free()
  })

  it('no two parts take the same wood, all feet are on the floor, every joint touches, every screw holds', () => {
    const judged = { built: 0, refused: 0, pairs: 0 }
    fc.assert(
      fc.property(parameterSets, (values) => {
        const built = counterSeat.build(values)
        if (!built.ok) {
          judged.refused++
          const known = new Set<string>(counterSeat.parameters.map((parameter) => parameter.id))
          expect(built.error.length).toBeGreaterThan(0)
          for (const refusal of built.error) expect(known.has(refusal.parameter)).toBe(true)
          return
        }
        judged.built++
        const model = built.value
        const seat = firstUnit(model)
        judgeStanding(model, seat)
        judged.pairs += judgeSolids(kernel, seat)
        judgeJoints(model, seat)
      }),
      { numRuns: 400, seed: 20 },
    )
    expect(judged.built).toBeGreaterThan(80)
    expect(judged.refused).toBeGreaterThan(20)
    expect(judged.pairs).toBeGreaterThan(1800)
  })
})
