/**
 * A piece that hangs on a wall: where it touches it, where it is taken to be screwed to it, and how each load case is
 * held there. mm, N. The wall is the plane of the place box «wall», else of the backs. Fixings: in each part that lies
 * along it with its grain level, one near every joint of it; without such a part, two in each that lies on it upright. A
 * fixing holds every way but turning. All else that touches the wall only presses on it, without friction, at the ends of
 * its patch: contacts are taken in and out until none pulls and none is pushed through (at most MOST_ROUNDS times).
 * What the wall itself bears is not judged. Tests: tests/core/statics/wall.test.ts
 */
import { worldFaces } from '#lib/core/design/contact'
import type { Model } from '#lib/core/design/model'
import { toWorld } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Result } from '#lib/core/units/result'
import { type FrameModel, prepareFrame } from './frame'
import type { CaseResult, FrameCase, FrameProblem, FrameRefusal, FrameSupport } from './frame-problem'
import type { JointPiece, WoodPart } from './joint-from-model'

/** A place at which a part meets the wall. */
export interface WallPlace {
  readonly partId: string
  readonly at: Vec3
}

export interface WallPlaces {
  readonly fixings: readonly WallPlace[]
  readonly contacts: readonly WallPlace[]
}

/** The same, with the nodes of the frame that hold there. */
export interface WallHold {
  readonly fixings: readonly (WallPlace & { readonly node: string })[]
  readonly contacts: readonly string[]
}

/** Nearer to the wall than this is on it. */
const WALL_MM = 0.6
const NEAR_MM = 20
/** Fixings of an upright part stand this share of its patch from the ends. */
const END_SHARE = 0.15

const backMm = (parts: ReadonlyMap<string, WoodPart>): number =>
  Math.max(...[...parts.values()].flatMap(({ axis }) => axis.plan.map(([, y]) => y)))

/** Corners of a part on the wall. */
function cornersOnWall({ axis: { part } }: WoodPart, wallMm: number): Vec3[] {
  return worldFaces(part)
    .filter(({ frame }) => frame.z[1] > 0.9)
    .flatMap(({ frame, pieces }) =>
      pieces.flatMap((piece) => piece.map(([u, v]) => toWorld(frame, [u, v, 0]))),
    )
    .filter((p) => Math.abs(p[1] - wallMm) < WALL_MM)
}

const middle = (points: readonly Vec3[], i: 0 | 2): number =>
  (Math.min(...points.map((p) => p[i])) + Math.max(...points.map((p) => p[i]))) / 2

/** The patch's height at a share of it from below. */
function atShare(partId: string, corners: readonly Vec3[], wallMm: number, share: number): WallPlace {
  const [low, high] = [Math.min(...corners.map((p) => p[2])), Math.max(...corners.map((p) => p[2]))]
  return { partId, at: [middle(corners, 0), wallMm, low + share * (high - low)] }
}

/** One near every joint of a part that lies along the wall; near its ends if it has fewer than two. */
function alongWall(
  partId: string,
  corners: readonly Vec3[],
  wallMm: number,
  pieces: readonly JointPiece[],
): WallPlace[] {
  const jointsAt = pieces
    .filter(({ joint }) => joint.a === partId || joint.b === partId)
    .map(({ frame }) => frame.origin[0])
    .sort((a, b) => a - b)
  const apart = jointsAt.filter((x, i) => i === 0 || x - jointsAt[i - 1] > NEAR_MM)
  const xs = corners.map((p) => p[0])
  const [low, high] = [Math.min(...xs), Math.max(...xs)]
  const inset = END_SHARE * (high - low)
  const places = apart.length > 1 ? apart : [low + inset, high - inset]
  return places.map((x) => ({ partId, at: [x, wallMm, middle(corners, 2)] }))
}

/**
 * @param loaded parts that are loaded are not screwed to the wall themselves
 * @returns no fixing where nothing else touches the wall
 */
export function wallPlaces(
  model: Model,
  loaded: ReadonlySet<string>,
  parts: ReadonlyMap<string, WoodPart>,
  pieces: readonly JointPiece[],
): WallPlaces {
  const wallMm = model.place.find(({ id }) => id === 'wall')?.min[1] ?? backMm(parts)
  const touching = [...parts]
    .filter(([partId]) => !loaded.has(partId))
    .map(([partId, part]) => ({ partId, part, corners: cornersOnWall(part, wallMm) }))
    .filter(({ corners }) => corners.length > 2)
  const rails = touching.filter(({ part }) => Math.abs(part.axis.part.frame.x[0]) > 0.7)
  const others = touching.filter((one) => !rails.includes(one))
  /** Not with its end. */
  const isFlat = ({ part }: (typeof others)[number]) => Math.abs(part.axis.part.frame.x[1]) < 0.3
  const fixings =
    rails.length > 0
      ? rails.flatMap(({ partId, corners }) => alongWall(partId, corners, wallMm, pieces))
      : others
          .filter(isFlat)
          .flatMap(({ partId, corners }) =>
            [END_SHARE, 1 - END_SHARE].map((share) => atShare(partId, corners, wallMm, share)),
          )
  const contacts = others.flatMap(({ partId, corners }) =>
    [0, 1].map((share) => atShare(partId, corners, wallMm, share)),
  )
  return { fixings, contacts }
}

const HELD = ['ux', 'uy', 'uz'] as const

/** Supports of a hold with these of its contacts pressing. */
export function wallSupports(hold: WallHold, pressing: ReadonlySet<string>): FrameSupport[] {
  const fixed = new Set(hold.fixings.map(({ node }) => node))
  return [
    ...[...fixed].map((node): FrameSupport => ({ node, fixed: HELD })),
    ...[...pressing]
      .filter((node) => !fixed.has(node))
      .map((node): FrameSupport => ({ node, fixed: ['uy'] })),
  ]
}

const MOST_ROUNDS = 20
/** A wall that pulls less than this, or is entered by less, is one that just touches. */
const TOUCH = { pullN: 1e-6, mm: 1e-9 } as const

export type CaseSolver = (one: FrameCase) => Result<CaseResult, FrameRefusal>

/** Solves load cases of a piece on a wall, each with the contacts that press under it. */
export function wallSolver(frame: Omit<FrameProblem, 'cases'>, hold: WallHold): CaseSolver {
  const ready = new Map<string, Result<FrameModel, FrameRefusal>>()
  const frameFor = (pressing: ReadonlySet<string>): Result<FrameModel, FrameRefusal> => {
    const key = [...pressing].sort().join()
    const known =
      ready.get(key) ?? prepareFrame({ ...frame, supports: wallSupports(hold, pressing), cases: [] })
    ready.set(key, known)
    return known
  }
  return (one) => {
    let pressing = new Set(hold.contacts)
    for (let round = 0; ; round++) {
      const prepared = frameFor(pressing)
      if (!prepared.ok) return prepared
      const solved = prepared.value.solve(one)
      if (!solved.ok) return solved
      const { reactions, nodes } = solved.value
      const next = new Set(
        hold.contacts.filter((node) =>
          pressing.has(node)
            ? (reactions.get(node)?.[1] ?? 0) <= TOUCH.pullN
            : (nodes.get(node)?.[1] ?? 0) > TOUCH.mm,
        ),
      )
      const isSettled = next.size === pressing.size && [...next].every((node) => pressing.has(node))
      if (isSettled) return solved
      if (round === MOST_ROUNDS) return { ok: true, value: { ...solved.value, status: 'unsettled' } }
      pressing = next
    }
  }
}
