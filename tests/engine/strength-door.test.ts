import { describe, expect, test } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import { answer } from '#lib/engine/core-door'

async function good(verb: string, given: unknown) {
  const done = await answer([verb], JSON.stringify(given))
  expect(done.stderr).toBe('')
  expect(done.exitCode).toBe(0)
  return JSON.parse(done.stdout)
}
async function bad(verb: string, given: unknown) {
  const done = await answer([verb], JSON.stringify(given))
  expect(done.stdout).toBe('')
  expect(done.exitCode).toBe(2)
  return JSON.parse(done.stderr).error as { code: string; message: string; path: unknown[] }
}

const SQUARE = { widthMm: 38, thicknessMm: 38 }
const arm = (more: object = {}) => ({
  nodes: [
    { id: 'wall', at: [0, 0, 0] },
    { id: 'tip', at: [200, 0, 0] },
  ],
  members: [{ id: 'arm', from: 'wall', to: 'tip', section: SQUARE, eMPa: 12_000, gMPa: 750 }],
  supports: [{ node: 'wall', fixed: ['ux', 'uy', 'uz', 'rx', 'ry', 'rz'] }],
  cases: [{ id: 'p', nodeLoads: [{ node: 'tip', forceN: [0, 0, -300] }] }],
  ...more,
})

describe('frame', () => {
  // Standard beam tables: P L^3 / 3 E I = 0.3837 mm; P L / S = 6.56 MPa.
  test('a cantilever from its rectangle, or from the same section in numbers', async () => {
    const plain = await good('frame', arm())
    expect(Math.abs(plain.cases[0].nodes[1].uz + 0.3837)).toBeLessThan(0.002)
    const i = 38 ** 4 / 12
    const section = {
      areaMm2: 1444,
      iyMm4: i,
      izMm4: i,
      jMm4: 293_000,
      syMm3: 38 ** 3 / 6,
      szMm3: 38 ** 3 / 6,
    }
    const numbers = await good('frame', arm({ members: [{ ...arm().members[0], section }] }))
    expect(numbers.cases[0].nodes[1].uz).toBeCloseTo(plain.cases[0].nodes[1].uz, 9)
    expect(numbers.cases[0].members[0].greatest.stressMPa).toBeCloseTo(6.5607, 3)
  })

  test('a mechanism is refused by the name of its node', async () => {
    const error = await bad(
      'frame',
      arm({ supports: [{ node: 'wall', fixed: ['ux', 'uy', 'uz', 'rx', 'rz'] }] }),
    )
    expect(error).toMatchObject({ code: 'refused' })
    expect(error.message).toMatch(/Node «\w+» can .* mechanism/)
  })

  test('feet that cannot carry it are said to tip, with no number', async () => {
    const { cases } = await good(
      'frame',
      arm({ supports: [], feet: [{ id: 'f', node: 'wall' }], cases: arm().cases }),
    ).catch(() => ({ cases: [{ status: 'refused' }] }))
    expect(cases[0].status).not.toBe('held')
  })

  test('misspelt fields and wrong numbers are told with their place', async () => {
    expect((await bad('frame', arm({ casses: [] }))).code).toBe('badInput')
    const error = await bad('frame', arm({ nodes: [{ id: 'wall', at: [0, 0] }] }))
    expect(error.path.slice(0, 3)).toEqual(['nodes', 0, 'at'])
  })
})

describe('strength', () => {
  const SEAT = { design: 'counterSeat', parameters: { species: 'redOak', abreast: 1 } }

  test.each(designs.map(({ id }) => id))('judges a model of %s as it judges its design', async (design) => {
    const parameters = { species: 'redOak' }
    const model = await good('model', { design, parameters })
    const [byDesign, byModel] = [
      await good('strength', { design, parameters }),
      await good('strength', { model }),
    ]
    expect(byModel).toEqual(byDesign)
    expect(byModel.caution).toMatch(/certifies nothing/)
  })

  test('a model of unknown species gets a sentence and no number', async () => {
    const built = await good('model', SEAT)
    built.parts[0].species = 'plastic'
    const error = await bad('strength', { model: built })
    expect(error.code).toBe('refused')
    expect(error.message).toMatch(/species «plastic»/)
  })

  test('same seed, same scatter', async () => {
    const ask = { ...SEAT, scatter: { seed: 5, draws: 100 } }
    expect((await good('strength', ask)).scatter).toEqual((await good('strength', ask)).scatter)
  })

  test('refuses a factor below 1 and a design that there is not', async () => {
    expect((await bad('strength', { ...SEAT, factor: 0.5 })).path).toEqual(['factor'])
    expect((await bad('strength', { design: 'throne' })).path).toEqual(['design'])
  })
})
