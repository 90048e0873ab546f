/**
 * Rows of joints made into joints between copies: which copy goes with which, the notches that let-in parts and
 * half-laps need, the screws. Copies go together where they stand on the same side. mm. Contact and the places of
 * screws are found by join-parts.ts, as for every design.
 */
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { JointPlan } from '../join-parts'
import type { Notch, Part } from '../model'
import { faceToward, notchFor, TO, withOperations } from '../placed-part'
import { shankOf } from '../shared-parameters'
import { type Copy, valuesFor } from './copies'
import type { Value } from './evaluate'
import { mirrorDirection, type PlacedCopy } from './place-copy'
import { type Direction, LIMITS, type RecipeJoint } from './recipe'
import { blame, countOf, holds, parameterBehind, type Run, sizeOf } from './recipe-run'

interface Pair {
  readonly joint: RecipeJoint
  /** Path of the row: `joints.2`. */
  readonly at: string
  readonly id: string
  readonly a: PlacedCopy
  readonly b: PlacedCopy
  readonly values: ReadonlyMap<string, Value>
}

const standTogether = (a: Copy, b: Copy): boolean =>
  (a.x === undefined || b.x === undefined || a.x === b.x) &&
  (a.y === undefined || b.y === undefined || a.y === b.y)

const OPPOSITE: Readonly<Record<Direction, Direction>> = {
  left: 'right',
  right: 'left',
  front: 'back',
  back: 'front',
  up: 'down',
  down: 'up',
}

function pairsOf(run: Run, placed: readonly PlacedCopy[]): Pair[] {
  const rows = new Map<string, PlacedCopy[]>()
  for (const each of placed) rows.set(each.copy.row.id, [...(rows.get(each.copy.row.id) ?? []), each])
  const pairs: Pair[] = []
  let asked = 0
  run.checked.recipe.joints.forEach((joint, k) => {
    const at = `joints.${k}`
    const before = pairs.length
    for (const a of rows.get(joint.a) ?? [])
      for (const b of rows.get(joint.b) ?? []) {
        if (a === b || !standTogether(a.copy, b.copy) || ++asked > LIMITS.pairs) continue
        const place = { x: b.copy.x ?? a.copy.x, y: b.copy.y ?? a.copy.y, i: a.copy.i }
        const values = valuesFor(run.values, place).set('j', b.copy.i)
        if (!holds(run, joint.when, values)) continue
        pairs.push({ joint, at, id: `${joint.id}-${pairs.length - before + 1}`, a, b, values })
      }
  })
  if (asked <= LIMITS.pairs && pairs.length <= LIMITS.joints) return pairs
  blame(run, 'joints', undefined, `More than ${LIMITS.joints} joints would be made.`)
  return []
}

/** The way from a to b: mirrored where the copies are. */
function facingOf({ joint, a, b }: Pair): Vec3 | undefined {
  if (joint.facing === undefined) return undefined
  return asPlaced({ a, b }, joint.facing)
}

/** A direction as it is where the two copies stand. */
const asPlaced = ({ a, b }: Pick<Pair, 'a' | 'b'>, way: Direction): Vec3 =>
  mirrorDirection({ x: a.mirror.x || b.mirror.x, y: a.mirror.y || b.mirror.y }, TO[way])

/** The notch in `host` that takes `guest`; a fault where there can be none. */
function notchIn(
  run: Run,
  pair: Pair,
  host: PlacedCopy,
  guest: Part,
  way: Direction,
  share: number,
): Notch | undefined {
  const { joint, at, id } = pair
  const words = `«${pair.a.part.name}» and «${pair.b.part.name}»`
  const face = faceToward(host.plain, asPlaced(pair, way))
  const refuse = (message: string): undefined => {
    blame(run, `${at}.kind`, joint.screws?.length, message)
    return undefined
  }
  if (face === 'endA' || face === 'endB')
    return refuse(`${words}: there is no notch in an end. Choose another way that the joint faces.`)
  let whole: Notch
  try {
    whole = notchFor(host.part, guest, { id: `notch-${guest.id}`, face, jointId: id })
  } catch (caught) {
    if (caught instanceof RangeError)
      return refuse(`${words} run the same way: a notch runs across the grain.`)
    throw caught
  }
  const { widthMm, thicknessMm } = host.part.blank
  const room = face === 'faceA' || face === 'faceB' ? thicknessMm : widthMm
  const depthMm = share * whole.depthMm
  if (depthMm <= 1e-6)
    return refuse(`${words}: neither reaches into the other, so there is nothing to let in.`)
  if (depthMm >= room)
    return refuse(
      `${words}: the notch would be ${Number(depthMm.toFixed(2))} mm deep in ${Number(room.toFixed(2))} mm of wood.`,
    )
  return { ...whole, depthMm }
}

/** Notches by part: one in b for what is let in, one in each for a half-lap. */
function notchesOf(run: Run, pairs: readonly Pair[]): Map<string, Notch[]> {
  const notches = new Map<string, Notch[]>()
  const put = (host: PlacedCopy, notch: Notch | undefined, at: string): void => {
    if (notch === undefined) return
    const all = notches.get(host.part.id) ?? []
    if (all.length >= LIMITS.notchesOfPart) {
      blame(
        run,
        `${at}.kind`,
        undefined,
        `«${host.part.name}» would get more than ${LIMITS.notchesOfPart} notches.`,
      )
      return
    }
    notches.set(host.part.id, [...all, notch])
  }
  for (const pair of pairs) {
    const { joint, at, a, b } = pair
    if (joint.kind !== 'letIn' && joint.kind !== 'halfLap') continue
    if (joint.facing === undefined) {
      blame(
        run,
        `${at}.facing`,
        undefined,
        `«${joint.id}»: say which way the joint faces, so that the notch has its place.`,
      )
      continue
    }
    const share = joint.kind === 'letIn' ? 1 : 0.5
    put(b, notchIn(run, pair, b, a.part, OPPOSITE[joint.facing], share), at)
    if (joint.kind === 'halfLap') put(a, notchIn(run, pair, a, b.part, joint.facing, share), at)
  }
  return notches
}

function planOf(run: Run, pair: Pair): JointPlan {
  const { joint, at, id, a, b, values } = pair
  const bearing = joint.blame ?? parameterBehind(run.checked, joint.screws?.length)
  const facing = facingOf(pair)
  const plan: JointPlan = {
    id,
    kind: joint.kind,
    a: a.part.id,
    b: b.part.id,
    glued: joint.glued,
    bearing,
    at,
    ...(facing === undefined ? {} : { facing }),
  }
  if (joint.screws === undefined) return plan
  const { count, length, called = 'A screw' } = joint.screws
  const what = `«${a.part.name}» on «${b.part.name}»`
  const n = countOf(
    run,
    { formula: count, at: `${at}.screws.count`, values, what: `${what}: the number of screws` },
    LIMITS.screwsOfJoint,
  )
  if (n === 0) return plan
  const lengthMm = sizeOf(run, {
    formula: length,
    at: `${at}.screws.length`,
    values,
    what: `${what}: the screws`,
  })
  const shankMm = shankOf(String(run.values.get('screwSize')))
  return {
    ...plan,
    screws: { count: n, lengthMm, shankMm, parameter: parameterBehind(run.checked, length), called },
  }
}

export interface Joined {
  readonly parts: readonly Part[]
  readonly plans: readonly JointPlan[]
}

export function joinCopies(run: Run, placed: readonly PlacedCopy[]): Joined {
  const pairs = pairsOf(run, placed)
  const notches = notchesOf(run, pairs)
  const plans = pairs.map((pair) => planOf(run, pair))
  const screws = plans.reduce((sum, plan) => sum + (plan.screws?.count ?? 0), 0)
  if (screws > LIMITS.screws)
    blame(run, 'joints', undefined, `More than ${LIMITS.screws} screws would be driven.`)
  const parts = placed.map(({ part }) => withOperations(part, notches.get(part.id) ?? []))
  return { parts, plans }
}
