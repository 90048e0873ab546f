/**
 * Ways to join the same parts, side by side: let in with a notch against fixed to the face, inner face against outer,
 * whatever choices a design offers. In: a design and its values. Out: for every way the worst of the joints that the
 * choice changes, what carries in it, glue sound and glue gone, and one sentence. Method: the model is built again with
 * each choice and studied with the same loads. Tests: tests/core/statics/compare-joints.test.ts
 */
import type { Design, ParameterValues } from '#lib/core/design/model'
import { readParameters } from '#lib/core/design/parameters'
import { say3 } from './checks'
import type { Carrier } from './joint-capacity'
import type { JointDemand } from './judge-case'
import { plainName } from './part-axis'
import { type StrengthOptions, type StrengthStudy, studyStrength } from './strength'

/** One way to join, judged. */
export interface JointWay {
  /** The choices that make it. */
  readonly choices: Readonly<Record<string, string>>
  readonly label: string
  readonly outcome:
    | { readonly ok: false; readonly sentence: string }
    | {
        readonly ok: true
        readonly jointId: string
        readonly between: readonly [string, string]
        readonly loadCase: string
        /** Capacity over demand of the worst joint, as it is and once the glue has let go. */
        readonly margin: number
        readonly marginWithoutGlue: number
        readonly carriers: readonly Carrier[]
        readonly swayMm: number
        readonly verdict: 'passes' | 'fails'
        readonly sentence: string
      }
}

export interface JointComparison {
  readonly ways: readonly JointWay[]
  /** One sentence: which is better, by how much, and why. */
  readonly sentence: string
}

/** Choices about joints, by the names that designs give them. */
const JOINT_CHOICE = /^(joint|supportFace|face)/

function waysOf(design: Design): { readonly choices: Record<string, string>; readonly label: string }[] {
  const specs = design.parameters.filter(({ id, unit }) => unit === 'choice' && JOINT_CHOICE.test(id))
  return specs.reduce<{ choices: Record<string, string>; label: string }[]>(
    (ways, spec) =>
      ways.flatMap(({ choices, label }) =>
        (spec.options ?? []).map((option) => ({
          choices: { ...choices, [spec.id]: option.value },
          label: label === '' ? option.label : `${label}, ${option.label}`,
        })),
      ),
    [{ choices: {}, label: '' }],
  )
}

interface Studied {
  readonly choices: Record<string, string>
  readonly label: string
  readonly study: StrengthStudy | undefined
  readonly sentence: string
}

function study(
  design: Design,
  values: ParameterValues,
  way: { choices: Record<string, string>; label: string },
  options: StrengthOptions,
): Studied {
  const built = design.build({ ...values, ...way.choices })
  if (!built.ok)
    return { ...way, study: undefined, sentence: built.error.map(({ message }) => message).join(' ') }
  const studied = studyStrength(built.value, options)
  return studied.ok
    ? { ...way, study: studied.value, sentence: '' }
    : { ...way, study: undefined, sentence: studied.error }
}

/** Joints whose kind differs between the ways; all of them if none does. */
function changedJoints(studied: readonly Studied[]): ReadonlySet<string> {
  const kinds = new Map<string, Set<string>>()
  for (const { study: one } of studied)
    for (const { joint } of one?.model.joints ?? [])
      kinds.set(joint.id, (kinds.get(joint.id) ?? new Set()).add(joint.kind))
  const changed = [...kinds].filter(([, set]) => set.size > 1).map(([id]) => id)
  return new Set(changed.length > 0 ? changed : kinds.keys())
}

const worstShare = (carriers: readonly Carrier[]): number =>
  carriers.reduce((most, { share }) => Math.max(most, share), 0)

const inverse = (share: number): number =>
  share === 0 ? 999 : Number.isFinite(share) ? Math.min(999, 1 / share) : 0

function judge({ choices, label, study: one, sentence }: Studied, joints: ReadonlySet<string>): JointWay {
  if (one === undefined) return { choices, label, outcome: { ok: false, sentence } }
  let worst: { readonly demand: JointDemand; readonly loadCase: string } | undefined
  let bare = 0
  let swayMm = 0
  for (const { demands, loadCase } of one.results) {
    if (loadCase.shows === 'sway') swayMm = Math.max(swayMm, demands.swayMm)
    for (const demand of demands.joints) {
      if (!joints.has(demand.piece.joint.id)) continue
      bare = Math.max(bare, worstShare(demand.use.mechanical))
      if (worst === undefined || demand.use.share > worst.demand.use.share)
        worst = { demand, loadCase: loadCase.name }
    }
  }
  if (worst === undefined)
    return { choices, label, outcome: { ok: false, sentence: 'It has no such joint.' } }
  const { use, piece } = worst.demand
  const name = (id: string): string => plainName(one.model.parts.get(id)!.axis.part)
  const carriers = [...use.glue, ...use.mechanical].sort((a, b) => a.share - b.share)
  const margin = inverse(use.share)
  return {
    choices,
    label,
    outcome: {
      ok: true,
      jointId: piece.joint.id,
      between: [name(piece.joint.a), name(piece.joint.b)],
      loadCase: worst.loadCase,
      margin,
      marginWithoutGlue: inverse(bare),
      carriers,
      swayMm,
      verdict: one.report.verdict,
      sentence: `${use.governing?.how ?? 'only pressed together'}: ${say3(margin)} times what is asked; without glue ${say3(inverse(bare))}.`,
    },
  }
}

type Judged = Extract<JointWay['outcome'], { ok: true }>

/** What is closest to failing in the worst joint of a way. */
const governing = ({ carriers, margin }: Judged): Carrier | undefined =>
  carriers.find(({ share }) => inverse(share) === margin)

/** Why one way is better: what governs in each, or nothing where that says nothing. */
function reason(better: Judged, worse: Judged): string {
  const [one, other] = [governing(better), governing(worse)]
  if (!one || !other || !Number.isFinite(other.share)) return ''
  const [asked, askedThere] = [say3(one.demand), say3(other.demand)]
  if (one.how === other.how && one.capacity === other.capacity)
    return `: its ${one.how} has ${asked} ${one.unit} to bear, the other's ${askedThere} ${one.unit}, of ${say3(one.capacity)} ${one.unit} allowed`
  return `: closest to failing in it is ${one.how}, ${asked} of ${say3(one.capacity)} ${one.unit}; in the other ${other.how}, ${askedThere} of ${say3(other.capacity)} ${other.unit}`
}

const hasShoulders = ({ carriers }: Judged): boolean => carriers.some(({ kind }) => kind === 'shoulders')

/** The same once the glue has let go. */
function bareReason(better: Judged, worse: Judged): string {
  const bare = better.marginWithoutGlue / Math.max(1e-9, worse.marginWithoutGlue)
  const shoulders =
    bare > 1 && hasShoulders(better) && !hasShoulders(worse)
      ? ', since the shoulders of the notch carry what the screws would have to carry across their axes'
      : ''
  return `Once the glue has let go it is ${say3(bare)} times${shoulders}.`
}

/** Compares every way to join that a design offers, the strongest first. */
export function compareJoints(
  design: Design,
  values: ParameterValues,
  options: StrengthOptions = {},
): JointComparison {
  const read = readParameters(design.parameters, values)
  if (!read.ok) return { ways: [], sentence: read.error.map(({ message }) => message).join(' ') }
  const studied = waysOf(design).map((way) => study(design, read.value, way, options))
  const joints = changedJoints(studied)
  const strength = ({ outcome }: JointWay): number => (outcome.ok ? Math.min(outcome.margin, 999) : -1)
  const ways = studied.map((one) => judge(one, joints)).sort((a, b) => strength(b) - strength(a))
  const able = ways.filter(({ outcome }) => outcome.ok)
  if (able.length < 2) return { ways, sentence: 'There is no second way to compare.' }
  const [best, worst] = [able[0], able[able.length - 1]]
  if (!best.outcome.ok || !worst.outcome.ok) return { ways, sentence: '' }
  const times = strength(best) / Math.max(1e-9, strength(worst))
  return {
    ways,
    sentence: `«${best.label}» holds ${say3(times)} times as much as «${worst.label}»${reason(best.outcome, worst.outcome)}. ${bareReason(best.outcome, worst.outcome)}`,
  }
}
