import { describe, expect, it } from 'vitest'
import { rectangle } from '#lib/core/geometry/polygon2'
import { type JointMake, jointUse, type PlacedScrew, type Shoulders } from '#lib/core/statics/joint-capacity'
import { speciesById } from '#lib/core/wood/species'
import { allowables } from '#lib/core/wood/strength'

const OAK = allowables(speciesById('redOak'), 'clear')
const NONE = { xN: 0, yN: 0, pullN: 0, mxNmm: 0, myNmm: 0, torqueNmm: 0 }
const screw = (x: number, y: number): PlacedScrew => ({
  id: `${x} ${y}`,
  at: [x, y],
  hold: { pullN: 800, acrossN: 400, pullBy: 'thread', pullVariation: 0.2 },
})
const make = (more: Partial<JointMake> = {}): JointMake => ({
  polygon: rectangle(-25, -25, 25, 25),
  isGlued: false,
  sides: [
    { wood: OAK, grain: 'long', grainRad: 0 },
    { wood: OAK, grain: 'long', grainRad: Math.PI / 2 },
  ],
  screws: [screw(-12, -12), screw(12, 12)],
  ...more,
})
const NOTCH: Shoulders = {
  channelRad: 0,
  lengthMm: 45,
  depthMm: 19,
  bearingMPa: 3.8,
  beyondMm: [60, 200],
  widthMm: 45,
  shearMPa: 4,
}

describe('screws', () => {
  it('share a side load', () => {
    expect(jointUse(make(), { ...NONE, xN: 400 }).share).toBeCloseTo(0.5, 9)
  })

  it('a twist loads each by T r / sum r^2', () => {
    const arm = Math.hypot(12, 12)
    expect(jointUse(make(), { ...NONE, torqueNmm: 400 * 2 * arm }).share).toBeCloseTo(1, 9)
  })

  it('share a straight pull; a press needs none', () => {
    expect(jointUse(make(), { ...NONE, pullN: 800 }).share).toBeCloseTo(0.5, 9)
    expect(jointUse(make(), { ...NONE, pullN: -800 }).share).toBe(0)
  })

  it('resist prying by levers about the pressed edge', () => {
    // Levers 13 and 37 mm from the edge at -25.
    const share = jointUse(make(), { ...NONE, mxNmm: 20_000 }).share
    expect(share).toBeCloseTo((20_000 * 37) / (37 ** 2 + 13 ** 2) / 800, 9)
    // Pressed together at the same time, the moment first has to lift that.
    expect(jointUse(make(), { ...NONE, mxNmm: 20_000, pullN: -800 }).share).toBeLessThan(1e-9)
  })

  it('one alone does not stop a twist', () => {
    const one = make({ screws: [screw(0, 0)] })
    expect(jointUse(one, { ...NONE, torqueNmm: 9000 }).share).toBe(Number.POSITIVE_INFINITY)
    expect(jointUse(one, { ...NONE, xN: 100 }).share).toBeCloseTo(0.25, 9)
  })
})

describe('notch', () => {
  it('shoulders take what runs square to the channel, screws what runs along it', () => {
    const use = jointUse(make({ shoulders: NOTCH }), { ...NONE, yN: 1000, xN: 200 })
    const by = new Map(use.mechanical.map((carrier) => [carrier.kind, carrier.share]))
    expect(by.get('shoulders')).toBeCloseTo(1000 / (45 * 19) / 3.8, 9)
    expect(by.get('screws')).toBeCloseTo(0.25, 9)
  })

  it('bear a twist as a triangle on each half: 6 T / (d l^2)', () => {
    const use = jointUse(make({ shoulders: NOTCH }), { ...NONE, torqueNmm: 10_000 })
    expect(use.mechanical[0].demand).toBeCloseTo((6 * 10_000) / (19 * 45 ** 2), 9)
  })

  it('short wood beyond the notch shears off first', () => {
    const short = make({ shoulders: { ...NOTCH, beyondMm: [5, 200] } })
    const down = jointUse(short, { ...NONE, yN: -1500 })
    expect(down.governing?.kind).toBe('woodBeyond')
    expect(down.governing?.share).toBeCloseTo(1500 / (4 * 45 * 5), 9)
    expect(jointUse(short, { ...NONE, yN: 1500 }).governing?.kind).toBe('shoulders')
  })

  it('is stronger than the same screws on the face', () => {
    for (const f of [
      { ...NONE, yN: 600 },
      { ...NONE, yN: 600, torqueNmm: 8000 },
    ])
      expect(jointUse(make({ shoulders: NOTCH }), f).share).toBeLessThan(jointUse(make(), f).share)
  })
})

describe('both ways', () => {
  it('the joint is as good as the better one, and they are not added', () => {
    const f = { ...NONE, yN: 900 }
    const glued = jointUse(make({ isGlued: true }), f)
    const bare = jointUse(make(), f)
    expect(glued.mechanical[0].share).toBe(bare.mechanical[0].share)
    expect(glued.share).toBe(Math.min(glued.glue[0].share, bare.share))
  })

  it('nothing but end-grain glue hardly holds; nothing at all does not', () => {
    const butt = make({
      isGlued: true,
      screws: [],
      sides: [{ wood: OAK, grain: 'end', grainRad: 0 }, make().sides[1]],
    })
    expect(jointUse(butt, { ...NONE, pullN: 2500 }).share).toBeGreaterThan(1)
    expect(jointUse(make({ screws: [] }), { ...NONE, yN: 10 }).share).toBe(Number.POSITIVE_INFINITY)
  })

  it('twice the load is twice the use', () => {
    const f = { xN: 30, yN: -200, pullN: 40, mxNmm: 900, myNmm: -700, torqueNmm: 1500 }
    const twice = Object.fromEntries(Object.entries(f).map(([k, v]) => [k, 2 * v])) as unknown as typeof f
    for (const joint of [make(), make({ isGlued: true }), make({ shoulders: NOTCH })])
      expect(jointUse(joint, twice).share).toBeCloseTo(2 * jointUse(joint, f).share, 9)
  })
})
