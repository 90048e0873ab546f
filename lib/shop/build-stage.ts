/**
 * Where a build stands and what comes next: its stage, one sentence, the place to do it, and whose turn it is.
 * In: facts of one build, counted from the database. Out: BuildStage. The rules are asked in order; the first that
 * has something to say is the next step.
 * Pure; instants are shown through `say`. Tests: tests/shop/build-stage.test.ts
 */
export const STAGES = [
  'design',
  'plan',
  'short',
  'hold',
  'book',
  'cut',
  'assemble',
  'drying',
  'finished',
  'givenUp',
] as const
export type Stage = (typeof STAGES)[number]

export type StepPlace = 'overview' | 'design' | 'cutting' | 'setups' | 'stations' | 'waits'

export interface StepLink {
  /** On the button. */
  readonly label: string
  readonly place: StepPlace
}

/** Who has to do something before the build goes on. `shop`: the server works; `time`: nobody can hurry it. */
export type Turn =
  | { readonly of: 'maker' }
  | { readonly of: 'shop' }
  | { readonly of: 'owner'; readonly names: readonly string[] }
  | { readonly of: 'keeper'; readonly names: readonly string[] }
  | { readonly of: 'time'; readonly until: Date }

export interface NextStep {
  readonly sentence: string
  readonly link: StepLink
  /** What may be done instead. */
  readonly also?: StepLink
  readonly turn: Turn
}

export interface BuildStage {
  readonly stage: Stage
  /** Null: nothing is left to do. */
  readonly next: NextStep | null
}

export interface BuildFacts {
  readonly state: 'open' | 'finished' | 'givenUp'
  /** untouched: the design's own values, never looked at · refused: the numbers make no piece (any more). */
  readonly design: 'none' | 'untouched' | 'saved' | 'refused'
  /** working: being worked out · failed: ended without any plan · stale: for a design that has changed since. */
  readonly plan: 'none' | 'working' | 'failed' | 'stale' | 'ready'
  /** Of the model: all, cut already, and those that the plan could not place. */
  readonly parts: { readonly total: number; readonly made: number; readonly short: number }
  /** Of the plan; `changed`: gone from the pool, held by another build or measured anew since. Each counts once. */
  readonly boards: {
    readonly planned: number
    readonly cut: number
    readonly held: number
    readonly asked: number
    readonly changed: number
  }
  /** Owners who have not answered yet. */
  readonly askedOwners: readonly string[]
  readonly bookings: {
    /** Live ones that have not ended. */
    readonly approved: number
    readonly asked: number
    /** Approved ones that have ended. */
    readonly past: number
    /** The first approved one that has not ended. */
    readonly next: { readonly station: string; readonly startAt: Date; readonly hasBegun: boolean } | null
  }
  /** Keepers who have not answered yet. */
  readonly askedKeepers: readonly string[]
  readonly waits: {
    readonly running: readonly { readonly label: string; readonly readyAt: Date }[]
    /** Their time is up; someone has to look. */
    readonly ready: readonly string[]
    readonly cleared: number
  }
}

type Say = (at: Date) => string
type Rule = (facts: BuildFacts, say: Say) => BuildStage | null

const MAKER: Turn = { of: 'maker' }
const TO_DESIGN: StepLink = { label: 'Open the design', place: 'design' }
const TO_CUTTING: StepLink = { label: 'Plan the cutting', place: 'cutting' }
const TO_RECORD: StepLink = { label: 'Record the cutting', place: 'cutting' }

const stage = (name: Stage, next: NextStep | null): BuildStage => ({ stage: name, next })
const counted = (n: number, one: string, many = `${one}s`) => `${n} ${n === 1 ? one : many}`

/** «Mira», «Mira and Jo», «Mira, Jo and Ada». */
export function nameList(names: readonly string[]): string {
  if (names.length < 2) return names.join('')
  return `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}

/** Boards of the plan that nobody has reserved for it yet. */
const toHold = ({ boards: b }: BuildFacts) => b.planned - b.cut - b.held - b.asked - b.changed
const areAllMade = ({ parts }: BuildFacts) => parts.total > 0 && parts.made >= parts.total

const closed: Rule = (f) => (f.state === 'open' ? null : stage(f.state, null))

const drawing: Rule = (f) => {
  if (f.design === 'none')
    return stage('design', { sentence: 'Choose a design to begin with.', link: TO_DESIGN, turn: MAKER })
  if (f.design === 'refused')
    return stage('design', {
      sentence: 'These numbers make no piece that can be built. Change what is marked.',
      link: TO_DESIGN,
      turn: MAKER,
    })
  if (f.design !== 'untouched' || f.plan !== 'none' || f.parts.made > 0) return null
  return stage('design', {
    sentence: 'Fit the design to the place where it will stand.',
    link: TO_DESIGN,
    also: TO_CUTTING,
    turn: MAKER,
  })
}

/** The first to be ready: what is waited for longest comes after it. */
const firstReady = (f: BuildFacts) =>
  [...f.waits.running].sort((a, b) => a.readyAt.getTime() - b.readyAt.getTime())[0]

const assembling: Rule = (f, say) => {
  if (!areAllMade(f)) return null
  const link: StepLink = { label: 'See what is drying', place: 'waits' }
  if (f.waits.ready.length > 0) {
    const sentence = `Time is up for ${nameList(f.waits.ready)}: look at it, then clear it.`
    return stage('assemble', { sentence, link, turn: MAKER })
  }
  const running = firstReady(f)
  if (running) {
    const sentence = `${running.label}: ready ${say(running.readyAt)}.`
    return stage('drying', { sentence, link, turn: { of: 'time', until: running.readyAt } })
  }
  const sentence =
    f.waits.cleared > 0
      ? 'Nothing is drying. Carry on, or call it finished.'
      : 'Every part is cut. Put it together, and note what has to dry.'
  return stage('assemble', {
    sentence,
    link: { label: 'Note what is drying', place: 'waits' },
    also: { label: 'See the set-ups', place: 'setups' },
    turn: MAKER,
  })
}

const planning: Rule = (f) => {
  if (f.plan === 'ready') return null
  const link = TO_CUTTING
  if (f.plan === 'working')
    return stage('plan', {
      sentence: 'The cut plan is being worked out.',
      link: { label: 'See how far it is', place: 'cutting' },
      turn: { of: 'shop' },
    })
  const sentence = {
    none:
      f.parts.made > 0
        ? `${counted(f.parts.total - f.parts.made, 'part')} still to be cut: plan the rest.`
        : 'Plan which part comes out of which board.',
    failed: 'The last cut plan came to nothing. Plan again.',
    stale: 'The design has changed since the cutting was planned. Plan again.',
  }[f.plan]
  return stage('plan', { sentence, link, turn: MAKER })
}

const boardsChanged: Rule = (f) => {
  if (f.boards.changed === 0) return null
  const have = f.boards.changed === 1 ? 'has' : 'have'
  const sentence = `${counted(f.boards.changed, 'board')} of the plan ${have} changed or gone. Plan again.`
  return stage('plan', { sentence, link: TO_CUTTING, turn: MAKER })
}

/** Short: what the pool lacks comes first, unless every board of the plan is reserved already. */
const shortOfBoards: Rule = (f) => {
  const isAllReserved = f.boards.planned > f.boards.cut && toHold(f) === 0
  if (f.parts.short === 0 || isAllReserved) return null
  return stage('short', {
    sentence: `${counted(f.parts.short, 'part')} short. Find a board that would do, or change the design.`,
    link: { label: 'See what is short', place: 'cutting' },
    also: TO_DESIGN,
    turn: MAKER,
  })
}

const holding: Rule = (f) => {
  const missing = toHold(f)
  if (missing > 0)
    return stage('hold', {
      sentence: `Hold ${counted(missing, 'board')} before someone else does.`,
      link: { label: missing === 1 ? 'Hold the board' : 'Hold the boards', place: 'cutting' },
      turn: MAKER,
    })
  if (f.boards.asked === 0) return null
  const whom = f.askedOwners.length > 0 ? nameList(f.askedOwners) : 'the owner'
  return stage('hold', {
    sentence: `Waiting for ${whom} to say yes to ${counted(f.boards.asked, 'board')}.`,
    link: { label: 'See the boards', place: 'cutting' },
    turn: { of: 'owner', names: f.askedOwners },
  })
}

const booking: Rule = (f, say) => {
  const { next, asked, past } = f.bookings
  const isAllCut = f.boards.cut >= f.boards.planned
  if (isAllCut || next?.hasBegun) return null
  if (next)
    return stage('book', {
      sentence: `${next.station} is yours ${say(next.startAt)}. Have the boards ready.`,
      link: { label: 'See the set-ups', place: 'setups' },
      also: TO_RECORD,
      turn: { of: 'time', until: next.startAt },
    })
  if (asked > 0)
    return stage('book', {
      sentence: `Waiting for ${nameList(f.askedKeepers) || 'the keeper'} to say yes to ${counted(asked, 'booking')}.`,
      link: { label: 'See the set-ups', place: 'setups' },
      also: TO_RECORD,
      turn: { of: 'keeper', names: f.askedKeepers },
    })
  if (past > 0 || f.boards.cut > 0) return null
  return stage('book', {
    sentence: 'The boards are held. Look at the set-ups and book the stations that they need.',
    link: { label: 'Book the stations', place: 'stations' },
    also: TO_RECORD,
    turn: MAKER,
  })
}

const cutting: Rule = (f) => {
  const left = f.boards.planned - f.boards.cut
  if (left > 0)
    return stage('cut', {
      sentence: `Cut ${counted(left, 'board')}, and record what was really cut.`,
      link: TO_RECORD,
      also: { label: 'See the set-ups', place: 'setups' },
      turn: MAKER,
    })
  return stage('cut', {
    sentence: `${counted(f.parts.total - f.parts.made, 'part')} still to be cut: plan the rest.`,
    link: TO_CUTTING,
    turn: MAKER,
  })
}

const RULES: readonly Rule[] = [
  closed,
  drawing,
  assembling,
  planning,
  boardsChanged,
  shortOfBoards,
  holding,
  booking,
  cutting,
]

/**
 * @param say an instant as the shop reads it: «today, 14:00»
 * @example buildStage({ ...facts, plan: 'none' }, say).next?.sentence //=> 'Plan which part comes out of which board.'
 */
export function buildStage(facts: BuildFacts, say: Say): BuildStage {
  for (const rule of RULES) {
    const found = rule(facts, say)
    if (found) return found
  }
  throw new RangeError('no rule speaks of these facts')
}

const PATH: Record<StepPlace, string> = {
  overview: '',
  design: '/design',
  cutting: '/cutting',
  setups: '/setups',
  stations: '/setups#stations',
  waits: '#waits',
}

/** @example stepHref('b1', 'cutting') //=> '/builds/b1/cutting' */
export const stepHref = (buildId: string, place: StepPlace): string => `/builds/${buildId}${PATH[place]}`

const WORDS: Record<Stage, string> = {
  design: 'Being designed',
  plan: 'To be planned',
  short: 'Boards missing',
  hold: 'Holding boards',
  book: 'Booking stations',
  cut: 'Being cut',
  assemble: 'Being put together',
  drying: 'Drying',
  finished: 'Finished',
  givenUp: 'Given up',
}

/** The stage in words. @example stageWords('drying') //=> 'Drying' */
export const stageWords = (name: Stage): string => WORDS[name]

/** «you», «Mira», «the shop», for «whose turn». */
export function turnWords(turn: Turn, maker: string): string {
  if (turn.of === 'maker') return maker
  if (turn.of === 'shop') return 'the shop’s computer'
  if (turn.of === 'time') return 'time'
  return nameList(turn.names) || (turn.of === 'owner' ? 'the owner of a board' : 'the keeper of a station')
}
