/**
 * What a part's drawing says in words: how its ends are cut, its notches and holes. Angles in degrees; bores in mm, as
 * bits are sold, other lengths as `say` writes them. Tests: tests/core/design/drawing/draw-part.test.ts
 */
import { capital, FACE_WORDS } from '../face-words'
import type { EdgeBevel, EndCut, EngravedField, FaceName, Hole, Notch, Operation, Part } from '../model'
import { angleText } from './angle-dimension'
import { holesOf, leanOf } from './part-view'

export type Say = (valueMm: number) => string

/** Flatter than this, in rad, is square: a two-hundredth of a degree. */
const SQUARE_RAD = 1e-4
const isTurned = (rad: number): boolean => Math.abs(rad) > SQUARE_RAD

function endNotes({ operations }: Part): string[] {
  const cuts = operations.filter((op): op is EndCut => op.kind === 'endCut')
  const told = (['endA', 'endB'] as const).map((end) => {
    const cut = cuts.find((one) => one.end === end)
    const turn =
      cut !== undefined && isTurned(cut.mitreRad) ? `turned ${angleText(cut.mitreRad)} from square` : ''
    const tilt = cut !== undefined && isTurned(cut.bevelRad) ? `blade tilted ${angleText(cut.bevelRad)}` : ''
    const words = [turn, tilt].filter((word) => word !== '').join(', ')
    return { end, words }
  })
  if (told.every(({ words }) => words === '')) return ['Both ends square.']
  return told.map(
    ({ end, words }) => `${capital(FACE_WORDS[end])}: ${words === '' ? 'square' : `cut ${words}`}.`,
  )
}

const bevelNote = ({ edge, bevelRad }: EdgeBevel): string =>
  `${capital(FACE_WORDS[edge])}: ripped with the blade tilted ${angleText(bevelRad)}, ${bevelRad > 0 ? 'face A' : 'face B'} the narrower.`

const notchWords = ({ face, widthMm, depthMm, skewRad }: Notch, say: Say): string =>
  `in ${FACE_WORDS[face]}: ${say(widthMm)} wide square to its sides, ${say(depthMm)} deep${
    isTurned(skewRad) ? `, turned ${angleText(skewRad)} from square` : ''
  }.`

const bit = (valueMm: number): string => `${Number(valueMm.toFixed(1))} mm`

/** Through, or how deep. */
function boreWords(hole: Hole, part: Part, say: Say): string {
  const { widthMm, thicknessMm, lengthMm } = part.blank
  const across = hole.face.startsWith('face')
    ? thicknessMm
    : hole.face.startsWith('edge')
      ? widthMm
      : lengthMm
  const deep = hole.depthMm >= across - 0.01 ? 'through' : `${say(hole.depthMm)} deep`
  const sink =
    hole.countersinkDiameterMm === undefined ? '' : `, countersunk to ${bit(hole.countersinkDiameterMm)}`
  const lean = leanOf(hole) > 0.001 ? `, leaning ${angleText(leanOf(hole))} from square to it` : ''
  return `${hole.purpose === 'lead' ? 'lead hole' : 'hole'} ${bit(hole.diameterMm)} ${deep}${sink}${lean}`
}

function holeNotes(part: Part, say: Say): string[] {
  const counts = new Map<string, { face: FaceName; words: string; count: number }>()
  for (const hole of holesOf(part)) {
    const words = boreWords(hole, part, say)
    const key = `${hole.face} ${words}`
    counts.set(key, { face: hole.face, words, count: (counts.get(key)?.count ?? 0) + 1 })
  }
  return [...counts.values()].map(
    ({ face, words, count }) => `${capital(FACE_WORDS[face])}: ${count} × ${words}.`,
  )
}

/** Notches with the names that the drawing gives them: N1, N2 … in the order of the model. */
export const namedNotches = ({ operations }: Part): { notch: Notch; label: string }[] =>
  operations
    .filter((op): op is Notch => op.kind === 'notch')
    .map((notch, i) => ({ notch, label: `N${i + 1}` }))

/** «end A and face B», «edge A, edge B and face A». */
const faceList = (faces: readonly FaceName[]): string => {
  const names = faces.map((face) => FACE_WORDS[face])
  return names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`
}

/** Edges of one face that are eased alike share a line. */
function easedNotes({ operations }: Part, say: Say): string[] {
  const groups = new Map<string, { words: string; face: FaceName; others: FaceName[] }>()
  for (const op of operations) {
    if (op.kind !== 'roundOver' && op.kind !== 'chamfer') continue
    const words = op.kind === 'roundOver' ? `Round over ${say(op.radiusMm)}` : `Chamfer ${say(op.widthMm)}`
    const [face, other] = op.between
    const group = groups.get(`${words} ${face}`) ?? { words, face, others: [] }
    group.others.push(other)
    groups.set(`${words} ${face}`, group)
  }
  return [...groups.values()].map(
    ({ words, face, others }) => `${words} where ${FACE_WORDS[face]} meets ${faceList(others)}.`,
  )
}

/** Which way from the middle line of its face a field lies. */
function offMiddle({ face, acrossMm }: EngravedField, say: Say): string {
  if (Math.abs(acrossMm) < 0.05) return 'on the middle line of the face'
  const [positive, negative] =
    face === 'faceA' || face === 'faceB' ? (['edgeB', 'edgeA'] as const) : (['faceA', 'faceB'] as const)
  return `${say(Math.abs(acrossMm))} off the middle line towards ${FACE_WORDS[acrossMm > 0 ? positive : negative]}`
}

/** Operations that are told in words alone. */
function otherNote(op: Operation, say: Say): string[] {
  switch (op.kind) {
    case 'taper':
      return [
        `${capital(FACE_WORDS[op.face])}: tapered from ${say(op.lengthMm)} off ${FACE_WORDS[op.end]} of the blank, where ${say(op.depthMm)} is taken off.`,
      ]
    case 'engravedField':
      return [
        `${capital(FACE_WORDS[op.face])}: engraved field ${say(op.lengthMm)} × ${say(op.widthMm)}, ${say(op.depthMm)} deep, its middle ${say(op.alongMm)} from end A of the blank, ${offMiddle(op, say)}.`,
      ]
    default:
      return []
  }
}

/** Notches that are cut alike share a line. */
function notchNotes(part: Part, say: Say): string[] {
  const labels = new Map<string, string[]>()
  for (const { notch, label } of namedNotches(part)) {
    const words = notchWords(notch, say)
    labels.set(words, [...(labels.get(words) ?? []), label])
  }
  return [...labels].map(([words, names]) => `${names.join(', ')} ${words}`)
}

/** @example partNotes(leg, String) //=> ['End A: cut turned 8° from square.', …, 'N1 in face A: 50 wide …'] */
export function partNotes(part: Part, say: Say): string[] {
  const bevels = part.operations.filter((op): op is EdgeBevel => op.kind === 'edgeBevel')
  return [
    ...endNotes(part),
    ...bevels.map(bevelNote),
    ...notchNotes(part, say),
    ...holeNotes(part, say),
    ...easedNotes(part, say),
    ...part.operations.flatMap((op) => otherNote(op, say)),
  ]
}
