/**
 * Shop rules about one board: what its finish means for the lead gate, which safety checks may be recorded, what has
 * changed. What a gate forbids at a machine: lib/core/board/gates.ts.
 * In and out: plain values, lengths in whole micrometres. Pure. Tests: tests/shop/boards.test.ts
 */
import type { Board, DefectKind } from '#lib/core/board/board'
import type { BoardComplaint } from '#lib/core/board/validate'

export type Finish = Board['finish']
export type Metal = Board['metal']
export type Lead = Board['lead']

export const FINISHES = ['bare', 'clear', 'paint', 'unknown'] as const satisfies readonly Finish[]
export const METALS = ['unchecked', 'cleared', 'found'] as const satisfies readonly Metal[]
export const LEADS = ['notNeeded', 'untested', 'free', 'found'] as const satisfies readonly Lead[]

export const FINISH_WORDS: Readonly<Record<Finish, string>> = {
  bare: 'Bare wood',
  clear: 'Clear finish',
  paint: 'Paint',
  unknown: 'Not known',
}
export const METAL_WORDS: Readonly<Record<Metal, string>> = {
  unchecked: 'Not checked for metal',
  cleared: 'Metal cleared',
  found: 'Metal found',
}
export const LEAD_WORDS: Readonly<Record<Lead, string>> = {
  notNeeded: 'No lead test needed',
  untested: 'Not tested for lead',
  free: 'Lead free',
  found: 'Lead found',
}

/** Finish and age in one choice, as a form asks for them. */
export const FINISH_CHOICES = [
  { value: 'bare', label: 'Bare wood', finish: 'bare', isFinishNew: false },
  { value: 'clear', label: 'Clear finish, age not known', finish: 'clear', isFinishNew: false },
  { value: 'clearNew', label: 'Clear finish, known to be new', finish: 'clear', isFinishNew: true },
  { value: 'paint', label: 'Paint, age not known', finish: 'paint', isFinishNew: false },
  { value: 'paintNew', label: 'Paint, known to be new', finish: 'paint', isFinishNew: true },
  { value: 'unknown', label: 'Something, not known what', finish: 'unknown', isFinishNew: false },
] as const satisfies readonly { value: string; label: string; finish: Finish; isFinishNew: boolean }[]

export type FinishChoice = (typeof FINISH_CHOICES)[number]['value']

/** @example finishChoice({ finish: 'paint', lead: 'notNeeded' }) //=> 'paintNew' */
export function finishChoice(board: { readonly finish: Finish; readonly lead: Lead }): FinishChoice {
  const isNew = board.finish !== 'bare' && board.lead === 'notNeeded'
  return (
    FINISH_CHOICES.find((c) => c.finish === board.finish && c.isFinishNew === isNew)?.value ?? board.finish
  )
}

/** Name and the letter that marks it on a drawing. */
export const DEFECT_WORDS: Readonly<Record<DefectKind, { readonly name: string; readonly letter: string }>> =
  {
    hole: { name: 'Hole', letter: 'H' },
    nailHole: { name: 'Nail hole', letter: 'N' },
    knot: { name: 'Knot', letter: 'K' },
    crack: { name: 'Crack', letter: 'C' },
    rot: { name: 'Rot', letter: 'R' },
    wane: { name: 'Wane', letter: 'W' },
    stain: { name: 'Stain', letter: 'S' },
    metal: { name: 'Metal', letter: 'M' },
  }
export const FACE_WORDS = { A: 'Face A', B: 'Face B', through: 'Right through' } as const

/**
 * The lead gate of a board as it is taken in: bare wood and a finish known to be new need no test, all else does.
 * @example leadWhenTakenIn('paint', false) //=> 'untested'
 */
export const leadWhenTakenIn = (finish: Finish, isFinishNew: boolean): Lead =>
  finish === 'bare' || isFinishNew ? 'notNeeded' : 'untested'

/**
 * The lead gate after the owner says that the finish is another. A result of a test stands; what needed no test needs
 * one once there is a finish of unknown age; wood that is stripped is not thereby tested.
 * @example leadAfterFinish({ finish: 'bare', lead: 'notNeeded' }, 'paint', false) //=> 'untested'
 */
export function leadAfterFinish(
  was: { readonly finish: Finish; readonly lead: Lead },
  finish: Finish,
  isFinishNew: boolean,
): Lead {
  if (was.lead === 'free' && finish !== was.finish && finish !== 'bare' && !isFinishNew) return 'untested'
  if (was.lead === 'free' || was.lead === 'found') return was.lead
  if (finish === 'bare') return was.lead
  return isFinishNew ? 'notNeeded' : 'untested'
}

const METAL_STEPS: Readonly<Record<Metal, readonly Metal[]>> = {
  unchecked: ['cleared', 'found'],
  found: ['cleared'],
  cleared: ['found'],
}

/** What any member may record of metal, having looked. Taking a check back is the owner's: `reopenGate`. */
export const metalSteps = (metal: Metal): readonly Metal[] => METAL_STEPS[metal]

/** What any member may record of lead, having tested. Bare wood may be said to need no test. */
export function leadSteps(lead: Lead, finish: Finish): readonly Lead[] {
  if (lead === 'untested') return finish === 'bare' ? ['free', 'found', 'notNeeded'] : ['free', 'found']
  if (lead === 'notNeeded') return ['free', 'found']
  return lead === 'found' ? ['free'] : ['found']
}

type Fact = string | number | boolean
export type Change = { readonly was: Fact; readonly is: Fact }

/** Field by field what differs. @example changesBetween({ place: 'Rack 1' }, { place: 'Rack 2' }) //=> { place: { was: 'Rack 1', is: 'Rack 2' } } */
export function changesBetween<T extends Readonly<Record<string, Fact>>>(
  before: T,
  after: T,
): Record<string, Change> {
  const names = Object.keys(after).filter((name) => before[name] !== after[name])
  return Object.fromEntries(names.map((name) => [name, { was: before[name], is: after[name] }]))
}

/** Two marks that say the same of a board. */
const markKey = (d: MarkLike) => [d.kind, d.face, d.xUm, d.yUm, d.widthUm, d.heightUm].join(' ')

export interface MarkLike {
  readonly kind: DefectKind
  readonly face: 'A' | 'B' | 'through'
  readonly xUm: number
  readonly yUm: number
  readonly widthUm: number
  readonly heightUm: number
}

/** Marks that went and marks that came; each as often as it stands there. */
export function marksBetween<T extends MarkLike>(
  before: readonly T[],
  after: readonly T[],
): { readonly gone: T[]; readonly come: T[] } {
  const left = new Map<string, T[]>()
  for (const mark of before) left.set(markKey(mark), [...(left.get(markKey(mark)) ?? []), mark])
  const come = after.filter((mark) => left.get(markKey(mark))?.pop() === undefined)
  return { gone: [...left.values()].flat(), come }
}

/**
 * Marks that a new size would leave off the board, said beside the side that is too short.
 * @example marksOff([markAt900mm], { lengthUm: 800_000, widthUm: 90_000 })[0].field //=> 'length'
 */
export function marksOff(
  marks: readonly MarkLike[],
  size: { readonly lengthUm: number; readonly widthUm: number },
): BoardComplaint[] {
  const long = marks.filter((m) => m.xUm + m.widthUm > size.lengthUm).length
  const wide = marks.filter((m) => m.yUm + m.heightUm > size.widthUm).length
  const said = (count: number) =>
    `${count === 1 ? 'One mark' : `${count} marks`} would lie off the board: move or delete ${count === 1 ? 'it' : 'them'} first.`
  return [
    ...(long > 0 ? [{ field: 'length' as const, message: said(long) }] : []),
    ...(wide > 0 ? [{ field: 'width' as const, message: said(wide) }] : []),
  ]
}

/**
 * Said when boards have got their numbers.
 * @example chalkSentence([15, 16, 17]) //=> 'Boards 15 to 17 are logged: chalk each number on its board.'
 */
export function chalkSentence(numbers: readonly number[]): string {
  const [first] = numbers
  const last = numbers[numbers.length - 1]
  if (numbers.length === 1) return `Board ${first} is logged: chalk ${first} on it.`
  const isRun = last - first === numbers.length - 1
  const list = isRun ? `${first} to ${last}` : numbers.join(', ')
  return `Boards ${list} are logged: chalk each number on its board.`
}
