/**
 * Where a number is from, for saying so beside it. `read`: seen in the named document or a page that quotes it;
 * `memory`: recalled from it, not read again; `practice`: common practice or plain geometry; `assumed`: a stand-in.
 */
export type SourceTag = 'read' | 'memory' | 'practice' | 'assumed'

export interface Sourced {
  readonly source: string
  readonly tag: SourceTag
}

const WORDS: Readonly<Record<SourceTag, string>> = {
  read: '',
  memory: ' (from memory)',
  practice: '',
  assumed: ' (assumed)',
}

/** @example saySource({ source: 'EN 12520', tag: 'memory' }) //=> 'EN 12520 (from memory)' */
export const saySource = ({ source, tag }: Sourced): string => `${source}${WORDS[tag]}`

/** Of the range that a piece's strength is drawn from. */
export const SCATTER: Sourced = {
  source:
    'how much wood varies: Wood Handbook FPL-GTR-190 Table 5-6; loads within 10 %, joints half to twice as stiff: assumed',
  tag: 'memory',
}

/** Of how far wood moves. */
export const MOVEMENT: Sourced = {
  source:
    'Wood Handbook FPL-GTR-190 eq. 13-2 and Table 13-5; the moisture that wood settles at by eq. 4-5, beyond 14 % eq. 13-3',
  tag: 'memory',
}

/** Must stand on every page and every report that shows a result of this module. */
export const CAUTION =
  'This advises; it certifies nothing. It is a calculation on ideal wood, joints and floors, with published loads where they are known. Salvage can hide cracks, old fixings and weak glue. Load the finished piece with care before anyone trusts it, keep to local rules, and ask someone licensed wherever a failure could hurt.'
