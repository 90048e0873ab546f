/**
 * Tapers on a jig that runs along the rip fence: a carriage whose edge is the line of the cut, its fence laid out by the
 * two sizes that stay, where the slope begins and at the slim end. mm, rad. Alike tapers on neighbouring faces share a
 * setting; the face opposite to one that is cut already bears on its slope, so it needs another. The part is clamped; the
 * last faces lie on the slip that came off before. Tests: tests/core/setups/eased-edges.test.ts
 */

import { capital, FACE_WORDS } from '#lib/core/design/face-words'
import type { Part, Taper } from '#lib/core/design/model'
import { taperTakenMm } from '#lib/core/design/part-body'
import { type Draft, type PartContext, warn } from './part-context'
import { settingMm, settingRad } from './step'
import { ripSettings } from './tree-steps'
import { degText, mmText } from './wording'

const isTaper = (op: Part['operations'][number]): op is Taper => op.kind === 'taper'
const OPPOSITE = { faceA: 'faceB', faceB: 'faceA', edgeA: 'edgeB', edgeB: 'edgeA' } as const
const isOnFace = ({ face }: Taper): boolean => face === 'faceA' || face === 'faceB'

/** Size across that is left where a taper begins and at its end, counting what is cut already. */
function jigSizes(part: Part, taper: Taper, before: readonly Taper[]): readonly [number, number] {
  const { lengthMm, widthMm, thicknessMm } = part.blank
  const wholeMm = isOnFace(taper) ? thicknessMm : widthMm
  const facing = before.filter((other) => other.face === OPPOSITE[taper.face])
  const leftAt = (x: number): number =>
    [taper, ...facing].reduce((left, each) => left - taperTakenMm(each, lengthMm, x), wholeMm)
  const isAtA = taper.end === 'endA'
  return [leftAt(isAtA ? taper.lengthMm : lengthMm - taper.lengthMm), leftAt(isAtA ? 0 : lengthMm)]
}

/** One step a tapered face, in the order of the operations. */
export function taperSteps(part: Part, context: PartContext): readonly Draft[] {
  const tapers = part.operations.filter(isTaper)
  return tapers.map((taper, i) => taperDraft(part, taper, tapers.slice(0, i), context))
}

function taperDraft(part: Part, taper: Taper, before: readonly Taper[], context: PartContext): Draft {
  const { times } = context.input.shop
  const [wideMm, slimMm] = jigSizes(part, taper, before)
  const jigRad = Math.atan2(wideMm - slimMm, taper.lengthMm)
  const cutMm = isOnFace(taper) ? part.blank.widthMm : part.blank.thicknessMm
  const key = `op:${part.id}:${taper.id}`
  const { needs, settings } = ripSettings(context.input, 0)
  const { blade, bladeHeight, bladeTilt } = needs
  const { fenceMm, ...saw } = settings
  warnOfTaper(part, cutMm, key, context)
  return {
    key,
    kind: 'taper',
    station: 'tableSaw',
    needs: {
      blade,
      bladeHeight,
      bladeTilt,
      guide: 'taperJig',
      jig: `${settingMm(wideMm)} ${settingMm(slimMm)} ${settingRad(jigRad)}`,
    },
    settings: { ...saw, guide: 'taperJig', jigWideMm: wideMm, jigSlimMm: slimMm, jigRad },
    passes: 1,
    note: `${capital(FACE_WORDS[OPPOSITE[taper.face]])} to the jig's fence, ${FACE_WORDS[taper.end]} at its stop: tapers ${FACE_WORDS[taper.face]} by ${degText(Math.atan2(taper.depthMm, taper.lengthMm))} from ${mmText(taper.lengthMm)} before ${FACE_WORDS[taper.end]}, where ${mmText(taper.depthMm)} comes off. Plane the saw marks away.`,
    seconds: times.handle + taper.lengthMm / times.ripFeed,
    thicknessMm: cutMm,
    operationIds: [taper.id],
  }
}

function warnOfTaper(part: Part, cutMm: number, key: string, context: PartContext): void {
  const saw = context.input.shop.tableSaw
  if (cutMm > saw.maxBladeHeightMm)
    warn(
      context,
      key,
      'bladeTooLow',
      `${part.name}: the blade does not reach through ${mmText(cutMm)}; saw the taper on the band saw and plane it to the line.`,
    )
  if (part.blank.lengthMm < saw.minHoldMm)
    warn(
      context,
      key,
      'tooShortToHold',
      `${part.name}: ${mmText(part.blank.lengthMm)} long is too short to clamp on a jig; plane the taper by hand.`,
    )
}
