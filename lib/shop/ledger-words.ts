/**
 * The stock ledger in words: what happened to a board, as a sentence and, where figures changed, one line a figure.
 * In: events as stored; their detail was written by several hands over time, so it is read with care. Out: text.
 * Lengths and instants are shown through `say`. Tests: tests/shop/ledger-words.test.ts
 */
import { isSpeciesId, speciesById } from '#lib/core/wood/species'
import { DEFECT_WORDS, FINISH_WORDS, LEAD_WORDS, METAL_WORDS } from './boards'
import { TERMS_WORDS } from './sharing'

export const STOCK_EVENT_KINDS = [
  'takenIn',
  'changed',
  'gate',
  'holdAsked',
  'held',
  'extended',
  'declined',
  'released',
  'lapsed',
  'cut',
  'offcut',
  'removed',
  'putBack',
] as const
export type StockEventKind = (typeof STOCK_EVENT_KINDS)[number]

export interface LedgerEvent {
  readonly kind: StockEventKind
  /** Null: the shop itself, as when a hold lapses. */
  readonly memberName: string | null
  readonly buildName: string | null
  readonly detail: unknown
}

export interface LedgerSay {
  readonly length: (valueUm: number) => string
  readonly instant: (at: Date) => string
}

export interface LedgerWords {
  readonly sentence: string
  /** Figures that changed, marks that came and went: one line each. */
  readonly lines: readonly string[]
}

type Detail = Readonly<Record<string, unknown>>

const detailOf = (detail: unknown): Detail =>
  detail !== null && typeof detail === 'object' && !Array.isArray(detail) ? (detail as Detail) : {}

const text = (value: unknown): string | null =>
  typeof value === 'string' && value.trim() !== '' ? value.trim() : null

const until = (detail: Detail, say: LedgerSay): string => {
  const at = new Date(text(detail.until) ?? Number.NaN)
  return Number.isNaN(at.getTime()) ? '' : ` until ${say.instant(at)}`
}

const LENGTHS: Readonly<Record<string, string>> = {
  lengthUm: 'Length',
  widthUm: 'Width',
  thicknessUm: 'Thickness',
  cupUm: 'Cup',
  bowUm: 'Bow',
  crookUm: 'Crook',
  twistUm: 'Twist',
}

const WORDS: Readonly<Record<string, readonly [label: string, word: (value: string) => string | undefined]>> =
  {
    species: ['Species', (id) => (isSpeciesId(id) ? speciesById(id).name : id)],
    terms: ['Terms', (value) => TERMS_WORDS[value as keyof typeof TERMS_WORDS]?.label],
    finish: ['Old finish', (value) => FINISH_WORDS[value as keyof typeof FINISH_WORDS]],
    metal: ['Metal', (value) => METAL_WORDS[value as keyof typeof METAL_WORDS]],
    lead: ['Lead', (value) => LEAD_WORDS[value as keyof typeof LEAD_WORDS]],
    place: ['Place', (value) => value || 'not said'],
    notes: ['Notes', (value) => value || 'none'],
  }

function valueText(name: string, value: unknown, say: LedgerSay): string {
  if (LENGTHS[name] && typeof value === 'number') return say.length(value)
  if (name === 'treated') return value === true ? 'treated' : 'not treated'
  return WORDS[name]?.[1](String(value)) ?? String(value)
}

const labelOf = (name: string): string =>
  LENGTHS[name] ?? WORDS[name]?.[0] ?? (name === 'treated' ? 'Preservative' : name)

function changeLines(fields: unknown, say: LedgerSay): string[] {
  return Object.entries(detailOf(fields)).map(([name, change]) => {
    const { was, is } = detailOf(change)
    return `${labelOf(name)}: ${valueText(name, was, say)} → ${valueText(name, is, say)}`
  })
}

function markLines(verb: string, marks: unknown, say: LedgerSay): string[] {
  if (!Array.isArray(marks)) return []
  return marks.map((each) => {
    const mark = detailOf(each)
    const name = DEFECT_WORDS[mark.kind as keyof typeof DEFECT_WORDS]?.name ?? 'Mark'
    const [x, y, length, width] = [mark.xUm, mark.yUm, mark.widthUm, mark.heightUm].map((value) =>
      typeof value === 'number' ? say.length(value) : '?',
    )
    return `${verb}: ${name.toLowerCase()}, ${length} by ${width}, at ${x} along and ${y} across`
  })
}

const GATE_SENTENCES: Readonly<Record<string, Readonly<Record<string, string>>>> = {
  metal: {
    cleared: 'checked it for metal: cleared',
    found: 'found metal in it',
    unchecked: 'took the metal check back: to be checked again',
  },
  lead: {
    free: 'tested its finish for lead: free',
    found: 'found lead in its finish',
    untested: 'took the lead test back: to be tested',
    notNeeded: 'recorded that it needs no lead test',
  },
}

function gatePhrase(detail: Detail): string {
  const phrase = GATE_SENTENCES[String(detail.gate)]?.[String(detail.is)]
  return phrase ?? 'recorded a safety check'
}

const numbers = (value: unknown): string =>
  Array.isArray(value) && value.length > 0 ? ` (${value.map(String).join(', ')})` : ''

/** What the one who did it did, and for which build. */
function phrase(event: LedgerEvent, detail: Detail, say: LedgerSay): string {
  const forBuild = event.buildName ? ` for «${event.buildName}»` : ''
  const reason = text(detail.reason) ?? text(detail.note)
  const because = reason ? `: ${reason}` : ''
  switch (event.kind) {
    case 'takenIn':
      return `took it in${text(detail.teardown) ? ` from «${text(detail.teardown)}»` : ''}`
    case 'changed':
      return detail.marks ? 'changed the marks on it' : 'changed it'
    case 'gate':
      return gatePhrase(detail) + because
    case 'holdAsked':
      return `asked for it${forBuild}`
    case 'held':
      return detail.granted
        ? `said yes: held${forBuild}${until(detail, say)}`
        : `held it${forBuild}${until(detail, say)}`
    case 'extended':
      return `held it longer${forBuild}${until(detail, say)}`
    case 'declined':
      return `said no to the request${forBuild}`
    case 'released':
      return detail.was === 'requested' ? `took the request back${forBuild}` : `let it go${forBuild}`
    case 'lapsed':
      return detail.was === 'requested' ? `request${forBuild} ran out` : `hold${forBuild} ran out`
    case 'cut':
      return `cut it${forBuild}${because}`
    case 'offcut':
      return `put it into the pool as an offcut${
        typeof detail.parentNumber === 'number' ? ` of board ${detail.parentNumber}` : ''
      }${forBuild}`
    case 'removed':
      return `took it out of the pool${because}`
    case 'putBack':
      return `put it back into the pool${because}`
  }
}

/**
 * An event in words.
 * @example eventWords({ kind: 'removed', memberName: 'Mira', buildName: null, detail: { reason: 'logged twice' } }, say).sentence
 * //=> 'Mira took it out of the pool: logged twice.'
 */
export function eventWords(event: LedgerEvent, say: LedgerSay): LedgerWords {
  const detail = detailOf(event.detail)
  const who = event.kind === 'lapsed' ? 'The' : (event.memberName ?? 'The shop')
  const said = `${who} ${phrase(event, detail, say)}`
  const marks = detailOf(detail.marks)
  return {
    sentence: /[.!?]$/.test(said) ? said : `${said}.`,
    lines: [
      ...changeLines(detail.fields, say),
      ...markLines('Gone', marks.gone, say),
      ...markLines('New', marks.come, say),
      ...(event.kind === 'cut' && Array.isArray(detail.offcuts) && detail.offcuts.length > 0
        ? [`Offcuts${numbers(detail.offcuts)}`]
        : []),
    ],
  }
}
