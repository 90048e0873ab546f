/**
 * The safety gates: may this board be worked so, yet? A gate that is shut names why, in a closed set of codes with
 * one sentence each. Gates only ever refuse more than the law and the machine's manual do; they replace neither.
 *
 * - Metal: no saw, planer, router, drill, engraver or sanding machine before `cleared`. A defect of kind `metal`
 *   counts as found, whatever the gate says, since a cut may pass anywhere. Machine manuals: inspect for nails
 *   and staples first.
 * - Lead: an old finish of unknown age is not sanded, planed dry, routed or lasered before it is tested (US: before
 *   1978, EPA 40 CFR 745, from memory). Where lead is found, no machine at all until the finish is off, wet, and
 *   the test repeated.
 * - Treated wood is never engraved, and becomes no part that people touch (Wood Handbook FPL-GTR-190, ch. 15).
 * - Paint and unknown coatings are not lasered at all (common practice: their smoke is not known).
 * Tests: tests/core/board/gates.test.ts
 */
import type { FaceName, FaceRole } from '#lib/core/design/model'
import { err, ok, type Result } from '#lib/core/units/result'
import type { Board } from './board'

export const BOARD_WORKS = ['cut', 'plane', 'route', 'drill', 'sand', 'engrave'] as const
/** `sand` means by machine. `cut` is any saw. */
export type BoardWork = (typeof BOARD_WORKS)[number]

export const GATE_REFUSALS = [
  'metalUnchecked',
  'metalFound',
  'leadUntested',
  'leadFound',
  'treatedEngraved',
  'treatedTouched',
  'coatingEngraved',
] as const
export type GateRefusal = (typeof GATE_REFUSALS)[number]

/** What a gate looks at. */
export type GatedBoard = Pick<Board, 'finish' | 'metal' | 'lead' | 'treated' | 'defects'>

const SENTENCES: Readonly<Record<GateRefusal, string>> = {
  metalUnchecked: 'Check it for metal first: no blade, bit or belt before it is cleared.',
  metalFound:
    'There is metal in it: take it out, strike it from the map of damage, check again and clear the board.',
  leadUntested:
    'Its old finish is of unknown age: test it for lead before it is sanded, planed, routed or lasered.',
  leadFound:
    'Its finish holds lead: no machine until the finish is off, without dust, and a new test is free.',
  treatedEngraved: 'It is preservative-treated: never engrave or burn it, its smoke is poisonous.',
  treatedTouched: 'It is preservative-treated: not for a part that skin or food touches.',
  coatingEngraved: 'Paint and unknown coatings are not lasered: take the finish off first.',
}

/** One sentence for the member who asked. */
export const gateSentence = (refusal: GateRefusal): string => SENTENCES[refusal]

/** Works that turn a finish into dust or smoke. */
const RAISES_DUST: ReadonlySet<BoardWork> = new Set(['plane', 'route', 'sand', 'engrave'])

const hasMetal = (board: GatedBoard): boolean =>
  board.metal === 'found' || board.defects.some((defect) => defect.kind === 'metal')

function metalRefusals(board: GatedBoard): GateRefusal[] {
  if (hasMetal(board)) return ['metalFound']
  return board.metal === 'cleared' ? [] : ['metalUnchecked']
}

function leadRefusals(board: GatedBoard, work: BoardWork): GateRefusal[] {
  if (board.lead === 'found') return ['leadFound']
  const isUntested = board.lead === 'untested' && board.finish !== 'bare'
  return isUntested && RAISES_DUST.has(work) ? ['leadUntested'] : []
}

function engravingRefusals(board: GatedBoard): GateRefusal[] {
  const isCoated = board.finish === 'paint' || board.finish === 'unknown'
  return [
    ...(board.treated ? (['treatedEngraved'] as const) : []),
    ...(isCoated ? (['coatingEngraved'] as const) : []),
  ]
}

/**
 * Every gate that is shut for this work; empty: go ahead.
 * @example gateRefusals({ ...board, metal: 'unchecked' }, 'cut') //=> ['metalUnchecked']
 */
export function gateRefusals(board: GatedBoard, work: BoardWork): GateRefusal[] {
  return [
    ...metalRefusals(board),
    ...leadRefusals(board, work),
    ...(work === 'engrave' ? engravingRefusals(board) : []),
  ]
}

/** Whether the board may be worked so; the first gate that is shut, if not. */
export function mayWork(board: GatedBoard, work: BoardWork): Result<BoardWork, GateRefusal> {
  const [refusal] = gateRefusals(board, work)
  return refusal === undefined ? ok(work) : err(refusal)
}

/**
 * Every gate that is shut for turning the board into a part: it is sawn, and flattened in a planer.
 * Wood that is treated may only become a part with every face hidden.
 */
export function partRefusals(board: GatedBoard, faces: Readonly<Record<FaceName, FaceRole>>): GateRefusal[] {
  const isTouched = Object.values(faces).some((role) => role !== 'hidden')
  const works = new Set([...gateRefusals(board, 'cut'), ...gateRefusals(board, 'plane')])
  return [...works, ...(board.treated && isTouched ? (['treatedTouched'] as const) : [])]
}

/** What to know before working a board whose gates are open. Local rules and the machine's manual come first. */
export function gateCautions(board: GatedBoard, work: BoardWork): string[] {
  const cautions: string[] = []
  if (board.treated)
    cautions.push(
      'Preservative-treated: dust mask, goggles and gloves, outdoors or under extraction; bin the dust, never burn it.',
    )
  if (board.finish !== 'bare' && board.lead === 'untested' && !RAISES_DUST.has(work))
    cautions.push('Its finish is not tested for lead: keep the dust down, wear a mask, clean up wet.')
  if (board.metal === 'cleared')
    cautions.push('Look once more for broken-off nails and staples; eye protection on.')
  return cautions
}
