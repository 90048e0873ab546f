/**
 * The Model: what a design and its parameters become, and what everything else reads.
 *
 * World axes: x to the right along the counter, y away from the person who sits (towards the counter), z up;
 * the floor is z = 0. Lengths in mm, angles in rad, areas in mm2. A part has a frame of its own: x along the
 * grain from 0 to the blank's length, y over its width, z over its thickness; origin at the blank's corner.
 */
import type { Frame } from '#lib/core/geometry/frame'
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Result } from '#lib/core/units/result'

export type { Frame, Vec3 }

/** endA x=0, endB x=length; edgeA y=0, edgeB y=width; faceB z=0, faceA z=thickness. */
export type FaceName = 'endA' | 'endB' | 'edgeA' | 'edgeB' | 'faceA' | 'faceB'

/** What a face must be. A filled hole is fine under paint, not where the wood shows. */
export type FaceRole = 'show' | 'paint' | 'hidden'

/** The rectangle that a part starts as, at its finished size before end cuts. */
export interface Blank {
  readonly lengthMm: number
  readonly widthMm: number
  readonly thicknessMm: number
}

/** A plane that takes an end off. The wood on the side that `normal` points to is waste. */
export interface EndCut {
  readonly kind: 'endCut'
  readonly id: string
  readonly end: 'endA' | 'endB'
  /** A point of the plane and its outward normal, in the part's own frame. */
  readonly point: Vec3
  readonly normal: Vec3
  /**
   * Turn of the cut from square, right-hand about face A's outward normal, so end B's normal is
   * (cos, sin, 0) and end A's (-cos, -sin, 0): like signs at both ends make a parallelogram, unlike a trapezium.
   */
  readonly mitreRad: number
  /** Tilt of the blade from upright. 0: upright. */
  readonly bevelRad: number
}

/** An edge ripped with the blade tilted, from end to end. The wood on the side that `normal` points to is waste. */
export interface EdgeBevel {
  readonly kind: 'edgeBevel'
  readonly id: string
  readonly edge: 'edgeA' | 'edgeB'
  /** A point of the plane and its outward normal, square to the grain, in the part's own frame. */
  readonly point: Vec3
  readonly normal: Vec3
  /** Tilt of the blade from upright, positive where face A keeps less width than face B. */
  readonly bevelRad: number
}

/** A flat-bottomed channel across a face: housing, half-lap, let-in seat for another part. */
export interface Notch {
  readonly kind: 'notch'
  readonly id: string
  readonly face: 'faceA' | 'faceB' | 'edgeA' | 'edgeB'
  /** Where the channel's centre line crosses the centre line of the face, from end A along the grain. */
  readonly alongMm: number
  /** Width of the channel square to its own axis. */
  readonly widthMm: number
  readonly depthMm: number
  /** Turn of the channel's axis from square across the grain, right-hand about the face's outward normal. */
  readonly skewRad: number
  /** The joint that the notch serves. */
  readonly jointId?: string
}

export interface Hole {
  readonly kind: 'hole'
  readonly id: string
  readonly face: FaceName
  /** Centre on the face and direction into the wood, in the part's own frame. */
  readonly point: Vec3
  readonly direction: Vec3
  readonly diameterMm: number
  readonly depthMm: number
  readonly countersinkDiameterMm?: number
  readonly purpose: 'clearance' | 'lead' | 'other'
}

export interface RoundOver {
  readonly kind: 'roundOver'
  readonly id: string
  /** The two faces whose shared edge is eased. */
  readonly between: readonly [FaceName, FaceName]
  readonly radiusMm: number
}

/** An edge taken off flat, as much from one face as from the other. */
export interface Chamfer {
  readonly kind: 'chamfer'
  readonly id: string
  readonly between: readonly [FaceName, FaceName]
  /** What it takes from either face, square to the edge. */
  readonly widthMm: number
}

/** A long face cut away in a slope towards one end: a leg that grows slimmer to its foot. */
export interface Taper {
  readonly kind: 'taper'
  readonly id: string
  readonly face: 'faceA' | 'faceB' | 'edgeA' | 'edgeB'
  /** The slim end. */
  readonly end: 'endA' | 'endB'
  /** From that end of the blank to where the slope begins, along the grain. */
  readonly lengthMm: number
  /** Taken off at that end of the blank. */
  readonly depthMm: number
}

/** A shallow field that is cleared or burnt into a face; what it shows is another matter. */
export interface EngravedField {
  readonly kind: 'engravedField'
  readonly id: string
  readonly face: 'faceA' | 'faceB' | 'edgeA' | 'edgeB'
  /** Its middle: from end A along the grain, and off the middle line of the face towards edge B, or face A on an edge. */
  readonly alongMm: number
  readonly acrossMm: number
  /** Size along the grain, across it, and depth. */
  readonly lengthMm: number
  readonly widthMm: number
  readonly depthMm: number
}

export type EasedEdge = RoundOver | Chamfer
export type Operation = EndCut | EdgeBevel | Notch | Hole | EasedEdge | Taper | EngravedField

export interface Part {
  readonly id: string
  /** What the maker calls it: «Leg, left frame, front». */
  readonly name: string
  /** Parts of one kind are cut alike: «leg». */
  readonly kind: string
  readonly blank: Blank
  /** In the order in which they are made. */
  readonly operations: readonly Operation[]
  readonly faces: Readonly<Record<FaceName, FaceRole>>
  /** Species asked for; undefined: any sound wood. */
  readonly species?: string
  /** Wide enough that a glued-up panel does as well as one board. Absent: only where the maker says so. */
  readonly mayBeGluedUp?: boolean
  readonly frame: Frame
  /** Which of several pieces alike it belongs to, from 1: seat 1, seat 2. Drawings show the first alone. */
  readonly unit?: number
}

export type GrainAtFace = 'long' | 'end'

export interface ScrewAxis {
  readonly id: string
  /** Under the head and at the tip, in world coordinates. */
  readonly head: Vec3
  readonly tip: Vec3
  readonly shankMm: number
  readonly lengthMm: number
  /** The part that the head bears on, and the part that the thread grips. */
  readonly through: string
  readonly into: string
}

export interface Joint {
  readonly id: string
  /** `halfLap`: each gives half of its height to the other. `edge`: edge to edge, a panel of staves. `butt`: end to face. */
  readonly kind: 'letIn' | 'onFace' | 'onTop' | 'halfLap' | 'edge' | 'butt'
  readonly a: string
  readonly b: string
  /** Where the two parts touch: a plane polygon in world coordinates, its normal from a to b. */
  readonly contact: { readonly polygon: readonly Vec3[]; readonly normal: Vec3; readonly areaMm2: number }
  readonly grainAtA: GrainAtFace
  readonly grainAtB: GrainAtFace
  readonly glued: boolean
  readonly screws: readonly ScrewAxis[]
}

export interface HardwareNeed {
  readonly kind: 'screw'
  readonly size: string
  readonly count: number
}

/** A number that a maker wants to read off, with its unit. */
export interface Figure {
  readonly id: string
  readonly label: string
  readonly value: number
  readonly unit: 'mm' | 'rad' | 'mm2' | 'kg' | 'count'
}

/** Something to know about a model that can be built. `stop` means: do not build it as it is. */
export interface Notice {
  readonly level: 'note' | 'caution' | 'stop'
  readonly message: string
  readonly parameter?: string
  readonly source?: string
  /** Row of a recipe that it is about: `parts.3`. */
  readonly at?: string
}

/** A box of the place that the piece is fitted to (counter top, wall), drawn for scale and for clashes. */
export interface PlaceBox {
  readonly id: string
  readonly name: string
  readonly min: Vec3
  readonly max: Vec3
  /** The parameter to change if the piece stands into it. */
  readonly parameter?: string
  /** Views besides the one from the side in which it tells anything. */
  readonly views?: readonly ViewName[]
}

/** Where a part of the piece and the place would have to be at once. World coordinates. */
export interface Clash {
  readonly placeId: string
  readonly partId: string
  /** Around the wood that is in the way. */
  readonly min: Vec3
  readonly max: Vec3
  readonly volumeMm3: number
}

/** How one size of the piece suits its place or the people who use it. */
export interface FitLine {
  readonly id: string
  readonly label: string
  /** What it is, in mm, or in words where it is no length. */
  readonly valueMm?: number
  readonly words?: string
  /** What suits, in mm; absent: no bound on that side. */
  readonly lowMm?: number
  readonly highMm?: number
  /** Of adults whom it suits, from 0 to 1. */
  readonly share?: number
  /** From which surface to which it is measured. */
  readonly measured: string
  readonly source: string
  readonly level: 'good' | 'note' | 'caution'
  /** What to change. */
  readonly parameter?: string
}

export type ViewName = 'front' | 'side' | 'top'

/** A dimension that a maker needs, before it is given its place on a drawing. Points in world coordinates. */
export type Dimension =
  | {
      readonly kind: 'linear'
      readonly id: string
      readonly view: ViewName
      /** Measured across or up the view. */
      readonly direction: 'across' | 'up'
      /** Where its line stands. */
      readonly side: 'left' | 'right' | 'above' | 'below'
      readonly from: Vec3
      readonly to: Vec3
      /** Stands close to the parts, between them and the place, where there is room for it. */
      readonly near?: boolean
    }
  | {
      readonly kind: 'angle'
      readonly id: string
      readonly view: ViewName
      readonly apex: Vec3
      /** A point on each arm; the arc runs from one to the other the short way. */
      readonly from: Vec3
      readonly to: Vec3
    }

/** What people do with the finished thing: which published loads apply, and where. Parts by id. */
export interface UseOfModel {
  readonly kind: 'seat' | 'table' | 'shelf'
  /** Sat on, leant on or stood on. */
  readonly surfaces: readonly string[]
  readonly footRests?: readonly string[]
}

export type ParameterValues = Readonly<Record<string, number | string>>

export interface Model {
  readonly designId: string
  readonly designVersion: number
  readonly parameters: ParameterValues
  readonly parts: readonly Part[]
  readonly joints: readonly Joint[]
  readonly hardware: readonly HardwareNeed[]
  readonly place: readonly PlaceBox[]
  /** What stands in the way of what; absent: nothing does. */
  readonly clashes?: readonly Clash[]
  /** How it suits its place and its people. */
  readonly fit?: readonly FitLine[]
  readonly figures: readonly Figure[]
  readonly notices: readonly Notice[]
  readonly dimensions?: readonly Dimension[]
  /** Absent: what it is for is told from its shape. */
  readonly use?: UseOfModel
  /** Held by a wall instead of standing on the floor; see the place box «wall». */
  readonly hangs?: 'wall'
}

export interface ParameterSpec {
  readonly id: string
  readonly label: string
  /** Heading under which it is shown. */
  readonly group: string
  readonly unit: 'mm' | 'deg' | 'count' | 'choice'
  readonly default: number | string
  readonly min?: number
  readonly max?: number
  readonly step?: number
  readonly options?: readonly { readonly value: string; readonly label: string }[]
  /** One sentence; for a clearance, which surface it is measured from. */
  readonly help: string
  /** Why it may not lie outside its range, if that needs saying: «Below 0° the legs would cross.» */
  readonly rangeReason?: string
}

/** Why a set of parameters makes no piece of furniture: the parameter at fault and a sentence for the maker. */
export interface DesignRefusal {
  readonly parameter: string
  readonly message: string
  /** Field of a recipe that it comes from: `parts.3.length`. */
  readonly at?: string
}

/** Which way a number may go, or that another choice may be taken. */
export type CureWay = 'more' | 'less' | 'either'

export interface Design {
  readonly id: string
  readonly version: number
  readonly name: string
  /** One sentence: what it is good for. */
  readonly goodFor: string
  readonly parameters: readonly ParameterSpec[]
  /**
   * Parameters whose change may be offered as a cure for a failing check: sizes of what bears, joints, fasteners, lean,
   * gaps. Never what the user needs of the piece: heights, lengths, seats. Absent: told from what a parameter is (cure.ts).
   */
  readonly cures?: Readonly<Record<string, CureWay>>
  /** Never throws for values of the right type; unknown ids and wrong types are refusals too. */
  build(values: ParameterValues): Result<Model, readonly DesignRefusal[]>
}
