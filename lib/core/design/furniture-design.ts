/**
 * The way that every design goes from parameters to a Model: read, lay out, refuse by rule, make parts, join them,
 * refuse screws that are at fault, bore their holes, weigh, count. A design gives only what is its own. mm, rad, kg.
 * Tests: tests/core/design/every-design.test.ts
 */
import { err, ok, type Result } from '#lib/core/units/result'
import { chamferFeet } from './chamfer-feet'
import { type EasedKinds, easeBoards, refuseRadius } from './ease-boards'
import { fitOfPiece, type PieceFit } from './fit/fit-piece'
import { wayInParameters } from './fit/place-parameters'
import { type JointPlan, joinParts } from './join-parts'
import type {
  Design,
  DesignRefusal,
  Dimension,
  Figure,
  FitLine,
  HardwareNeed,
  Hole,
  Joint,
  Model,
  Notice,
  ParameterSpec,
  ParameterValues,
  Part,
  PlaceBox,
  UseOfModel,
} from './model'
import { readParameters, sayValue } from './parameters'
import { facesOfParts, type Walls, wallsOf } from './part-shape'
import { countFigure, kgFigure } from './read-off'
import { type ScrewFault, screwFaults, screwHoles } from './screws'
import { screwNumberOf, shankOf } from './shared-parameters'
import { weightKg } from './weight'

export const FAULT_SENTENCE: Readonly<Record<ScrewFault['kind'], string>> = {
  comesOut: 'would come out of the wood',
  noGrip: 'would hardly reach into the second piece',
  meets: 'would meet another screw',
  strays: 'would run into a third piece',
}

/** The parts with the holes that their screws need. */
export function withHoles(parts: readonly Part[], joints: readonly Joint[]): Part[] {
  const byId = new Map(parts.map((part) => [part.id, part]))
  const holes = new Map<string, Hole[]>(parts.map((part) => [part.id, []]))
  const walls = new Map<string, Walls>()
  for (const screw of joints.flatMap((joint) => joint.screws)) {
    const through = byId.get(screw.through)!
    const own = walls.get(screw.through) ?? wallsOf(through)
    walls.set(screw.through, own)
    const { clearance, lead } = screwHoles(screw, through, byId.get(screw.into)!, own)
    holes.get(screw.through)?.push(clearance)
    holes.get(screw.into)?.push(lead)
  }
  return parts.map((part) => ({ ...part, operations: [...part.operations, ...(holes.get(part.id) ?? [])] }))
}

/** Screws to have ready, by length, for `pieces` pieces alike. */
export function screwsNeeded(joints: readonly Joint[], screwNumber: number, pieces = 1): HardwareNeed[] {
  const counts = new Map<number, number>()
  for (const { lengthMm } of joints.flatMap((joint) => joint.screws))
    counts.set(lengthMm, (counts.get(lengthMm) ?? 0) + pieces)
  return [...counts].map(([lengthMm, count]) => ({
    kind: 'screw' as const,
    size: `No. ${screwNumber} × ${lengthMm} mm`,
    count,
  }))
}

/** One sentence a parameter, for the first screw that is at fault. */
function refuseScrews(
  parts: readonly Part[],
  joints: readonly Joint[],
  plans: readonly JointPlan[],
): DesignRefusal[] {
  const planOf = new Map(plans.map((plan) => [plan.id, plan]))
  const owner = new Map(joints.flatMap((joint) => joint.screws.map((screw) => [screw.id, joint.id] as const)))
  const refusals = new Map<string, DesignRefusal>()
  const faults = screwFaults(
    parts,
    joints.flatMap((joint) => joint.screws),
  )
  for (const fault of faults) {
    const { at, ...plan } = planOf.get(owner.get(fault.screwId)!)!
    const pattern = plan.screws!
    if (refusals.has(pattern.parameter)) continue
    const message = `${pattern.called} ${sayValue(pattern.lengthMm, 'mm')} long ${FAULT_SENTENCE[fault.kind]}.`
    refusals.set(pattern.parameter, {
      parameter: pattern.parameter,
      message,
      ...(at === undefined ? {} : { at: `${at}.screws.length` }),
    })
  }
  return [...refusals.values()]
}

/** A rule that some sets of parameters break, or several that are asked together. */
export type Rule<L> = (layout: L) => DesignRefusal | readonly DesignRefusal[] | undefined

/** `undefined` where `isBroken` is false. */
export const refuseIf = (isBroken: boolean, parameter: string, message: string): DesignRefusal | undefined =>
  isBroken ? { parameter, message } : undefined

export const sayMm = (valueMm: number): string => sayValue(valueMm, 'mm')

/** Refuses screws that would split the wood that they go into, edge on. @param shanks that the wood must be thick */
export function refuseSplit(
  screwSize: string,
  woodMm: number,
  what: string,
  shanks = 3,
): DesignRefusal | undefined {
  const shankMm = shankOf(screwSize)
  const message = `A ${shankMm.toFixed(1)} mm shank would split ${what}, ${sayMm(woodMm)} of wood; it must be ${sayMm(shanks * shankMm)} thick.`
  return refuseIf(woodMm < shanks * shankMm, 'screwSize', message)
}

/** What a finished piece is, before it is a Model. */
export interface Made<L> {
  readonly l: L
  readonly parts: readonly Part[]
  readonly joints: readonly Joint[]
  readonly weightKg: number
}

export interface DesignSource<L> {
  readonly id: string
  readonly version: number
  readonly name: string
  readonly goodFor: string
  /** Among them `screwSizeParameter` and `woodParameters`. */
  readonly parameters: readonly ParameterSpec[]
  readonly cures?: Design['cures']
  /** From values that lie in their ranges to everything derived. */
  readonly layOut: (read: ParameterValues) => L
  readonly rules: readonly Rule<L>[]
  readonly parts: (layout: L) => readonly Part[]
  /** Kinds of parts whose edges `edgeRadius` rounds, which is then among the parameters. */
  readonly eased?: EasedKinds
  /** Kinds of parts whose feet `footChamfer` takes the edges off; its parameter and rule are in chamfer-feet.ts. */
  readonly feet?: readonly string[]
  readonly joints: (layout: L, parts: readonly Part[]) => readonly JointPlan[]
  readonly figures: (made: Made<L>) => readonly Figure[]
  readonly dimensions: (layout: L) => readonly Dimension[]
  readonly notices: (made: Made<L>) => readonly Notice[]
  /** How it suits people and place, besides its way in. */
  readonly fit?: (layout: L) => readonly FitLine[]
  readonly use: (layout: L) => UseOfModel
  readonly place?: (layout: L) => readonly PlaceBox[]
  readonly hangs?: Model['hangs']
}

const RANK = { stop: 0, caution: 1, note: 2 } as const

function modelFrom<L>(
  source: DesignSource<L>,
  read: ParameterValues,
  made: Made<L>,
  place: readonly PlaceBox[],
  suits: PieceFit,
): Model {
  const { l, parts, joints } = made
  const screws = joints.reduce((sum, joint) => sum + joint.screws.length, 0)
  return {
    designId: source.id,
    designVersion: source.version,
    parameters: read,
    parts: withHoles(parts, joints),
    joints,
    hardware: screwsNeeded(joints, screwNumberOf(String(read.screwSize))),
    place,
    ...(suits.clashes.length === 0 ? {} : { clashes: suits.clashes }),
    fit: suits.fit,
    figures: [
      ...source.figures(made),
      kgFigure('weight', 'Weight, wood alone', made.weightKg),
      countFigure('parts', 'Parts', parts.length),
      countFigure('screws', 'Screws', screws),
    ],
    notices: [...source.notices(made), ...suits.notices].sort((a, b) => RANK[a.level] - RANK[b.level]),
    dimensions: source.dimensions(l),
    use: source.use(l),
    ...(source.hangs === undefined ? {} : { hangs: source.hangs }),
  }
}

/** The parts with their edges rounded and their feet chamfered, as far as the design has such parameters. */
export function easedParts(
  { eased = {}, feet = [] }: Pick<DesignSource<never>, 'eased' | 'feet'>,
  sharp: readonly Part[],
  { edgeRadius = 0, footChamfer = 0 }: ParameterValues,
): Result<readonly Part[], readonly DesignRefusal[]> {
  const radiusMm = Number(edgeRadius)
  const tooRound = refuseRadius(sharp, eased, radiusMm)
  if (tooRound !== undefined) return err([tooRound])
  return ok(chamferFeet(easeBoards(sharp, eased, radiusMm), feet, Number(footChamfer)))
}

function buildFrom<L>(
  source: DesignSource<L>,
  values: ParameterValues,
): Result<Model, readonly DesignRefusal[]> {
  const read = readParameters([...source.parameters, ...wayInParameters], values)
  if (!read.ok) return read
  const l = source.layOut(read.value)
  const broken = source.rules.flatMap((rule) => rule(l) ?? [])
  if (broken.length > 0) return err(broken)
  const eased = easedParts(source, source.parts(l), read.value)
  if (!eased.ok) return eased
  const parts = eased.value
  const plans = source.joints(l, parts)
  const faces = facesOfParts(parts)
  const joints = joinParts(parts, plans, { faces })
  if (!joints.ok) return joints
  const loose = refuseScrews(parts, joints.value, plans)
  if (loose.length > 0) return err(loose)
  const kg = weightKg(parts, String(read.value.species), faces)
  const place = source.place?.(l) ?? []
  const suits = fitOfPiece({ parts, faces }, place, source.fit?.(l) ?? [], read.value)
  return ok(modelFrom(source, read.value, { l, parts, joints: joints.value, weightKg: kg }, place, suits))
}

/** A design from what is its own. */
export const furnitureDesign = <L>(source: DesignSource<L>): Design => ({
  id: source.id,
  version: source.version,
  name: source.name,
  goodFor: source.goodFor,
  parameters: [...source.parameters, ...wayInParameters],
  ...(source.cures === undefined ? {} : { cures: source.cures }),
  build: (values) => buildFrom(source, values),
})
