import { describe, expect, test } from 'vitest'
import {
  type BuildFacts,
  buildStage,
  nameList,
  STAGES,
  type Stage,
  stageWords,
  stepHref,
  turnWords,
} from '#lib/shop/build-stage'

const say = (at: Date) => at.toISOString().slice(0, 16)
const at = (hour: number) => new Date(Date.UTC(2026, 4, 5, hour))

/** A build that is designed and planned: 4 boards, 10 parts, nothing held yet. */
const PLANNED: BuildFacts = {
  state: 'open',
  design: 'saved',
  plan: 'ready',
  parts: { total: 10, made: 0, short: 0 },
  boards: { planned: 4, cut: 0, held: 0, asked: 0, changed: 0 },
  askedOwners: [],
  bookings: { approved: 0, asked: 0, past: 0, next: null },
  askedKeepers: [],
  waits: { running: [], ready: [], cleared: 0 },
}

const facts = (over: Partial<BuildFacts> = {}): BuildFacts => ({ ...PLANNED, ...over })
const boards = (over: Partial<BuildFacts['boards']>) => ({ ...PLANNED.boards, ...over })
const bookings = (over: Partial<BuildFacts['bookings']>) => ({ ...PLANNED.bookings, ...over })
const waits = (over: Partial<BuildFacts['waits']>) => ({ ...PLANNED.waits, ...over })
const held = boards({ held: 4 })
const made = { total: 10, made: 10, short: 0 }
const saw = { station: 'Table saw', startAt: at(14), hasBegun: false }

interface Case {
  readonly name: string
  readonly facts: BuildFacts
  readonly stage: Stage
  readonly sentence: string
  readonly place: string
  readonly turn: string
}

const CASES: readonly Case[] = [
  {
    name: 'no design',
    facts: facts({ design: 'none', plan: 'none' }),
    stage: 'design',
    sentence: 'Choose a design to begin with.',
    place: 'design',
    turn: 'maker',
  },
  {
    name: 'a fresh build with the design’s own numbers',
    facts: facts({ design: 'untouched', plan: 'none' }),
    stage: 'design',
    sentence: 'Fit the design to the place where it will stand.',
    place: 'design',
    turn: 'maker',
  },
  {
    name: 'numbers that the design refuses',
    facts: facts({ design: 'refused' }),
    stage: 'design',
    sentence: 'These numbers make no piece that can be built. Change what is marked.',
    place: 'design',
    turn: 'maker',
  },
  {
    name: 'designed, not planned',
    facts: facts({ plan: 'none' }),
    stage: 'plan',
    sentence: 'Plan which part comes out of which board.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'the design’s own numbers, planned straight away',
    facts: facts({ design: 'untouched' }),
    stage: 'hold',
    sentence: 'Hold 4 boards before someone else does.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'being planned',
    facts: facts({ plan: 'working' }),
    stage: 'plan',
    sentence: 'The cut plan is being worked out.',
    place: 'cutting',
    turn: 'shop',
  },
  {
    name: 'a plan that failed',
    facts: facts({ plan: 'failed' }),
    stage: 'plan',
    sentence: 'The last cut plan came to nothing. Plan again.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'a design changed after planning',
    facts: facts({ plan: 'stale', boards: held }),
    stage: 'plan',
    sentence: 'The design has changed since the cutting was planned. Plan again.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'a board that someone else took',
    facts: facts({ boards: boards({ changed: 1 }) }),
    stage: 'plan',
    sentence: '1 board of the plan has changed or gone. Plan again.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'parts short',
    facts: facts({ parts: { total: 10, made: 0, short: 3 } }),
    stage: 'short',
    sentence: '3 parts short. Find a board that would do, or change the design.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'parts short, and what there is is held: on with that',
    facts: facts({ parts: { total: 10, made: 0, short: 3 }, boards: held }),
    stage: 'book',
    sentence: 'The boards are held. Look at the set-ups and book the stations that they need.',
    place: 'stations',
    turn: 'maker',
  },
  {
    name: 'one board left to hold',
    facts: facts({ boards: boards({ held: 2, asked: 1 }) }),
    stage: 'hold',
    sentence: 'Hold 1 board before someone else does.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'waiting for owners',
    facts: facts({ boards: boards({ held: 2, asked: 2 }), askedOwners: ['Mira', 'Jo'] }),
    stage: 'hold',
    sentence: 'Waiting for Mira and Jo to say yes to 2 boards.',
    place: 'cutting',
    turn: 'owner',
  },
  {
    name: 'all held, nothing booked',
    facts: facts({ boards: held }),
    stage: 'book',
    sentence: 'The boards are held. Look at the set-ups and book the stations that they need.',
    place: 'stations',
    turn: 'maker',
  },
  {
    name: 'waiting for a keeper',
    facts: facts({ boards: held, bookings: bookings({ asked: 1 }), askedKeepers: ['Ada'] }),
    stage: 'book',
    sentence: 'Waiting for Ada to say yes to 1 booking.',
    place: 'setups',
    turn: 'keeper',
  },
  {
    name: 'booked for later',
    facts: facts({ boards: held, bookings: bookings({ approved: 1, next: saw }) }),
    stage: 'book',
    sentence: 'Table saw is yours 2026-05-05T14:00. Have the boards ready.',
    place: 'setups',
    turn: 'time',
  },
  {
    name: 'the booking has begun',
    facts: facts({ boards: held, bookings: bookings({ approved: 1, next: { ...saw, hasBegun: true } }) }),
    stage: 'cut',
    sentence: 'Cut 4 boards, and record what was really cut.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'the booking is over',
    facts: facts({ boards: held, bookings: bookings({ past: 1 }) }),
    stage: 'cut',
    sentence: 'Cut 4 boards, and record what was really cut.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'half of the boards cut',
    facts: facts({ parts: { total: 10, made: 5, short: 0 }, boards: boards({ cut: 3, held: 1 }) }),
    stage: 'cut',
    sentence: 'Cut 1 board, and record what was really cut.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'all boards cut, a part spoilt',
    facts: facts({ parts: { total: 10, made: 9, short: 0 }, boards: boards({ cut: 4 }) }),
    stage: 'cut',
    sentence: '1 part still to be cut: plan the rest.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'all boards cut, parts short',
    facts: facts({ parts: { total: 10, made: 7, short: 3 }, boards: boards({ cut: 4 }) }),
    stage: 'short',
    sentence: '3 parts short. Find a board that would do, or change the design.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'some parts cut, no plan for the rest',
    facts: facts({ plan: 'none', design: 'untouched', parts: { total: 10, made: 7, short: 0 } }),
    stage: 'plan',
    sentence: '3 parts still to be cut: plan the rest.',
    place: 'cutting',
    turn: 'maker',
  },
  {
    name: 'all parts cut',
    facts: facts({ parts: made, boards: boards({ cut: 4 }) }),
    stage: 'assemble',
    sentence: 'Every part is cut. Put it together, and note what has to dry.',
    place: 'waits',
    turn: 'maker',
  },
  {
    name: 'drying: the first to be ready is named',
    facts: facts({
      parts: made,
      waits: waits({
        running: [
          { label: 'Second coat', readyAt: at(20) },
          { label: 'Glue, left frame', readyAt: at(16) },
        ],
      }),
    }),
    stage: 'drying',
    sentence: 'Glue, left frame: ready 2026-05-05T16:00.',
    place: 'waits',
    turn: 'time',
  },
  {
    name: 'time is up for one, another still dries',
    facts: facts({
      parts: made,
      waits: waits({ ready: ['Glue, left frame'], running: [{ label: 'Second coat', readyAt: at(20) }] }),
    }),
    stage: 'assemble',
    sentence: 'Time is up for Glue, left frame: look at it, then clear it.',
    place: 'waits',
    turn: 'maker',
  },
  {
    name: 'all dry',
    facts: facts({ parts: made, waits: waits({ cleared: 2 }) }),
    stage: 'assemble',
    sentence: 'Nothing is drying. Carry on, or call it finished.',
    place: 'waits',
    turn: 'maker',
  },
  {
    name: 'filler in a hole before cutting does not hide the step',
    facts: facts({ waits: waits({ running: [{ label: 'Filler', readyAt: at(20) }] }) }),
    stage: 'hold',
    sentence: 'Hold 4 boards before someone else does.',
    place: 'cutting',
    turn: 'maker',
  },
]

test.each(CASES)('$name', (c) => {
  const { stage, next } = buildStage(c.facts, say)
  expect({ stage, sentence: next?.sentence, place: next?.link.place, turn: next?.turn.of }).toEqual({
    stage: c.stage,
    sentence: c.sentence,
    place: c.place,
    turn: c.turn,
  })
})

test('closed builds have nothing left to do, whatever else is true of them', () => {
  for (const state of ['finished', 'givenUp'] as const)
    expect(buildStage(facts({ state, plan: 'stale' }), say)).toEqual({ stage: state, next: null })
})

test('every stage is reached by a case', () => {
  const reached = new Set(CASES.map((c) => c.stage))
  expect(STAGES.filter((s) => !reached.has(s))).toEqual(['finished', 'givenUp'])
})

const DESIGNS = ['none', 'untouched', 'saved', 'refused'] as const
const PLANS = ['none', 'working', 'failed', 'stale', 'ready'] as const
const BOOKED = [
  bookings({}),
  bookings({ asked: 1 }),
  bookings({ past: 1 }),
  bookings({ approved: 1, next: saw }),
  bookings({ approved: 1, next: { ...saw, hasBegun: true } }),
]
const DRYING = [
  waits({}),
  waits({ ready: ['Glue'] }),
  waits({ running: [{ label: 'Oil', readyAt: at(9) }] }),
  waits({ cleared: 1 }),
]
/** A model has parts; without a design that can be built there is no model. */
const partsOf = (design: BuildFacts['design']) =>
  (design === 'none' || design === 'refused'
    ? [[0, 0, 0]]
    : [
        [2, 0, 0],
        [2, 0, 1],
        [2, 1, 0],
        [2, 1, 1],
        [2, 2, 0],
      ]
  ).map(([total, made, short]) => ({ total, made, short }))

/** Four numbers from 0 that together are at most `planned`. */
function* boardsOf(planned: number) {
  for (let cut = 0; cut <= planned; cut++)
    for (let live = 0; live <= planned - cut; live++)
      for (let asked = 0; asked <= planned - cut - live; asked++)
        for (let changed = 0; changed <= planned - cut - live - asked; changed++)
          yield { planned, cut, held: live, asked, changed }
}

/** Every mixture of facts that the database can hold. */
function* mixtures(): Generator<BuildFacts> {
  for (const design of DESIGNS)
    for (const plan of PLANS)
      for (const parts of partsOf(design))
        for (const planned of [0, 2])
          for (const count of boardsOf(planned))
            for (const booked of BOOKED)
              for (const wait of DRYING)
                yield facts({ design, plan, parts, boards: count, bookings: booked, waits: wait })
}

describe('every mixture of facts', () => {
  const all = [...mixtures()]

  test('there are many', () => expect(all.length).toBeGreaterThan(10_000))

  test('an open build always has a next step: a sentence, a button, a turn', () => {
    const bad = all.filter((f) => {
      const { stage, next } = buildStage(f, say)
      const isWhole = next && /^[^\s].*\.$/.test(next.sentence) && next.link.label.length > 0
      return (
        !isWhole ||
        stage === 'finished' ||
        /\b0 (parts|boards)|undefined|NaN|-\d/.test(next.sentence.replace(/\d{4}-.*/, ''))
      )
    })
    expect(bad.slice(0, 3)).toEqual([])
  })

  test('a plan is never held, booked or cut by while it is for another design or another board', () => {
    const bad = all.filter(
      (f) =>
        (f.plan !== 'ready' || f.boards.changed > 0) &&
        ['hold', 'book', 'cut', 'short'].includes(buildStage(f, say).stage),
    )
    expect(bad).toEqual([])
  })

  test('booking and cutting come after every board is held', () => {
    const bad = all.filter((f) => {
      const { planned, cut, held: live } = f.boards
      return ['book', 'cut'].includes(buildStage(f, say).stage) && cut + live < planned
    })
    expect(bad).toEqual([])
  })

  test('once every part is made nothing but putting together and drying is left', () => {
    const bad = all.filter(
      (f) =>
        f.parts.total > 0 &&
        f.parts.made === f.parts.total &&
        ['untouched', 'saved'].includes(f.design) &&
        !['assemble', 'drying'].includes(buildStage(f, say).stage),
    )
    expect(bad).toEqual([])
  })
})

test('words and links', () => {
  expect(nameList([])).toBe('')
  expect(nameList(['Mira', 'Jo', 'Ada'])).toBe('Mira, Jo and Ada')
  expect(stepHref('b1', 'overview')).toBe('/builds/b1')
  expect(stepHref('b1', 'stations')).toBe('/builds/b1/setups#stations')
  expect(stepHref('b1', 'waits')).toBe('/builds/b1#waits')
  expect(STAGES.map(stageWords).filter((w) => !w)).toEqual([])
  expect(turnWords({ of: 'maker' }, 'Noor')).toBe('Noor')
  expect(turnWords({ of: 'owner', names: [] }, 'Noor')).toBe('the owner of a board')
  expect(turnWords({ of: 'keeper', names: ['Ada'] }, 'Noor')).toBe('Ada')
})
