import { describe, expect, test } from 'vitest'
import type { Setup, SetupCut } from '#lib/core/setups/setup-plan'
import {
  benchSetups,
  inUnits,
  recordedKeys,
  stationsLeft,
  whichOnes,
} from '../../app/builds/[id]/setups/bench-sheet'
import { settingItems, setupTitle } from '../../app/builds/[id]/setups/setting-items'

const cut = (key: string, more: Partial<SetupCut> = {}): SetupCut => ({
  key,
  kind: 'endCut',
  pieceId: key,
  pieceName: `Leg, ${key}`,
  passes: 1,
  after: [],
  note: 'Face A down.',
  seconds: 60,
  ...more,
})
const setup = (id: string, more: Partial<Setup> = {}): Setup => ({
  id,
  station: 'tableSaw',
  kind: 'endCut',
  title: '',
  settings: {},
  cuts: [cut('a')],
  testCut: 'Cut two scraps.',
  checkWith: 'bevel gauge',
  cautions: ['Guard on.'],
  changes: [],
  settingSeconds: 120,
  cuttingSeconds: 60,
  ...more,
})
const legs = ['a', 'b', 'c', 'd'].map((id) => ({ id, name: `Leg, ${id}`, kind: 'leg' }))
const cutsOf = (cuts: readonly SetupCut[]) =>
  benchSetups({ setups: [setup('s', { cuts })] }, legs, 'mm')[0].cuts

describe('alike cuts of a set-up', () => {
  test('are one line with their count, also where others stand between them', () => {
    const cuts = cutsOf([cut('a'), cut('b', { note: 'Face B down.' }), cut('c')])
    expect(cuts.map((c) => [c.title, c.keys])).toEqual([
      ['2 × leg', ['a', 'c']],
      ['Leg, b', ['b']],
    ])
    expect(cuts[0]).toMatchObject({ which: 'a, c', names: ['Leg, a', 'Leg, c'] })
  })

  test('none comes before a cut that it waits for', () => {
    const second = { note: 'Turned over.' }
    const cuts = cutsOf([
      cut('a'),
      cut('a2', { ...second, after: ['a'] }),
      cut('b'),
      cut('b2', { ...second, after: ['b'] }),
      cut('c', { after: ['b2'] }),
    ])
    const place = (key: string) => cuts.findIndex((g) => g.keys.includes(key))
    expect(cuts.flatMap((g) => g.keys).sort()).toEqual(['a', 'a2', 'b', 'b2', 'c'])
    expect(place('a')).toBe(place('b'))
    expect(place('b2')).toBeGreaterThan(place('b'))
    expect(place('c')).toBeGreaterThan(place('b2'))
  })

  test('pieces of boards, passes and holes are told', () => {
    const trim = { note: 'Trim.', passes: 2 }
    const boards = [cut('x', { ...trim, pieceName: 'board 4' }), cut('y', { ...trim, pieceName: 'board 13' })]
    expect(cutsOf(boards)[0]).toMatchObject({ title: '2 × board, 2 passes each', which: '4, 13' })
    expect(cutsOf([cut('a', { kind: 'drill', count: 4 })])[0].title).toBe('Leg, a, 4 holes')
  })

  test('a piece that became a part is called by the part', () => {
    const planed = [cut('b1/1', { pieceName: 'Leg, a' }), cut('b1/2', { pieceName: 'Leg, b' })]
    expect(cutsOf(planed)[0].title).toBe('2 × leg')
  })
})

test('names are told without what they share', () => {
  expect(whichOnes(['Leg, left frame, back, seat 1', 'Leg, right frame, back, seat 2'])).toBe(
    'seat 1: left frame, back · seat 2: right frame, back',
  )
  expect(whichOnes(['Seat board 1 from the front, seat 1', 'Seat board 2 from the front, seat 1'])).toBe(
    'seat 1: 1 from the front; 2 from the front',
  )
  expect(whichOnes(['Leg', 'Leg'])).toBe('Leg, Leg')
})

test('cautions are said once a station', () => {
  const [first, planer, again] = benchSetups(
    {
      setups: [
        setup('1'),
        setup('2', { station: 'planer' }),
        setup('3', { cautions: ['Guard on.', 'Push stick.'] }),
      ],
    },
    legs,
    'mm',
  )
  expect([first.newCautions, first.knownCautions]).toEqual([['Guard on.'], []])
  expect(planer.newCautions).toEqual(['Guard on.'])
  expect([again.newCautions, again.knownCautions]).toEqual([['Push stick.'], ['Guard on.']])
})

// 1 inch is 25.4 mm exactly (1959 agreement): 25.4 mm and 50.8 mm are 1 and 2 inches.
test('sentences of the plan in inches', () => {
  expect(inUnits('Fence at 25.4 mm, piece 508 × 50.8 mm.', 'in')).toBe('Fence at 1", piece 20" × 2".')
  expect(inUnits('Fence at 25.4 mm.', 'mm')).toBe('Fence at 25.4 mm.')
  expect(inUnits('Gives waste (867 × 0 mm).', 'mm')).toBe('Gives a sliver.')
})

describe('settings', () => {
  const rip = setup('r', {
    kind: 'rip',
    settings: { blade: 'rip', guide: 'ripFence', fenceMm: 76.2, bladeTiltRad: 0 },
    changes: ['sled or fence', 'fence'],
  })

  test('what is set anew is told from what stays', () => {
    expect(settingItems(rip, 'mm')).toEqual([
      { label: 'Blade', value: 'rip', isNew: false },
      { label: 'Guide', value: 'rip fence', isNew: true },
      { label: 'Blade tilt', value: 'upright', isNew: false },
      { label: 'Fence', value: '76.2 mm', isNew: true },
    ])
    expect(settingItems({ ...rip, resumes: 'x' }, 'mm').some((s) => s.isNew)).toBe(false)
  })

  test('a title names the one setting that matters, in the unit that is read', () => {
    expect(setupTitle(rip, 'mm')).toBe('Rip, fence at 76.2 mm')
    expect(setupTitle(rip, 'in')).toBe('Rip, fence at 3"')
    const ends = { kind: 'endCut' as const, settings: { sledAngleRad: -Math.PI / 18, stopMm: 254 } }
    expect(setupTitle(setup('e', ends), 'in')).toBe('Cut ends, sled 10.0° clockwise, stop at 10"')
  })

  test('a hole right through is said, and a drill keeps its name', () => {
    const drill = setup('d', {
      kind: 'drill',
      settings: { bit: '4.2 mm drill', bitMm: 4.2 },
      changes: ['bit'],
    })
    expect(settingItems(drill, 'in')).toEqual([
      { label: 'Bit', value: '4.2 mm drill', isNew: true },
      { label: 'Depth stop', value: 'none: right through', isNew: false },
    ])
    expect(setupTitle(drill, 'in')).toBe('4.2 mm drill, right through')
  })
})

test('time left: setting counts until the last cut of its set-up is ticked off', () => {
  const setups = [
    setup('1', { cuts: [cut('a'), cut('b')] }),
    setup('2', { cuts: [cut('c')] }),
    setup('3', { station: 'planer' }),
  ]
  const stations = [
    { station: 'planer' as const, setups: 1, seconds: 180 },
    { station: 'tableSaw' as const, setups: 2, seconds: 420 },
  ]
  const left = (...ticked: string[]) =>
    stationsLeft({ setups, stations }, new Set(ticked)).map((t) => [t.station, t.secondsLeft])
  expect(left()).toEqual([
    ['tableSaw', 420],
    ['planer', 180],
  ])
  expect(left('b', 'c')[0]).toEqual(['tableSaw', 180])
})

test('a board that is recorded as cut has its cuts done', () => {
  const at = (layout: number) => ({ tree: { layout, copy: 0, path: '' } })
  const boards = (...cut: boolean[]) => cut.map((isCut, i) => ({ id: `b${i}`, isCut }))
  const setups = [
    setup('1', { cuts: [cut('trim', { pieceId: 'b1' }), cut('a', at(0)), cut('b', at(1)), cut('part')] }),
  ]
  expect(recordedKeys({ setups }, boards(false, true))).toEqual(['trim', 'b'])
  expect(recordedKeys({ setups }, boards(true, false))).toEqual(['a'])
  expect(recordedKeys({ setups }, [])).toEqual([])
})
