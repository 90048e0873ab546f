/**
 * A recipe: a design written as plain data, so that a member can make one in the browser and the shop can store it.
 * Every dimension is a formula over names: parameters, derived values, and the names of a copy (n, i, atRight…).
 * Formulas: lengths in mm, angles in degrees, what they may hold is in syntax.ts, which units go together in unit.ts.
 * A recipe is checked by check-recipe.ts and made into a Design by recipe-design.ts. Format: docs/formats.md.
 */
import type { CureWay, Joint, ParameterSpec, PlaceBox } from '../model'
import type { AxisName, TO } from '../placed-part'

/** A number or an expression, as it was typed. */
export type Formula = string
/** Words with formulas in braces: «The slats would be {slat} wide.» */
export type Template = string
export type Direction = keyof typeof TO

/** `id` is its name in formulas. */
export interface RecipeParameter extends ParameterSpec {
  /** Which way it may be changed to cure a failing check; absent: it is the user's. */
  readonly cure?: CureWay
}

export const DERIVED_UNITS = ['mm', 'deg', 'number', 'yesNo'] as const

export interface DerivedValue {
  readonly id: string
  readonly unit: (typeof DERIVED_UNITS)[number]
  readonly formula: Formula
  /** What it is, in a few words. */
  readonly note?: string
}

export interface RecipeRule {
  /** Must hold, or the parameters make no piece. */
  readonly holds: Formula
  /** The parameter at fault. */
  readonly parameter: string
  readonly message: Template
}

/** Turned about a world axis through the part's corner, right-hand. */
export interface Turn {
  readonly about: AxisName
  readonly by: Formula
}

/** `plane`: along a plane of the world. `angle`: turned and tilted from square, its long point at the end of the blank. */
export type RecipeCut =
  | {
      readonly kind: 'plane'
      readonly end: Direction
      readonly x: Formula
      readonly y: Formula
      readonly z: Formula
      /** To the waste, before its turns. */
      readonly facing: Direction
      readonly turns?: readonly Turn[]
    }
  | { readonly kind: 'angle'; readonly end: Direction; readonly mitre: Formula; readonly bevel: Formula }

/** A channel across a face; places from the part's start, in its own frame. */
export interface RecipeNotch {
  readonly face: Direction
  readonly along: Formula
  readonly width: Formula
  readonly depth: Formula
  readonly skew?: Formula
}

export interface RecipeHole {
  readonly face: Direction
  /** From end A along the grain, and from the face's own lower or left edge across it. */
  readonly along: Formula
  readonly across: Formula
  readonly diameter: Formula
  readonly depth: Formula
}

export interface RecipeEdgeBevel {
  readonly edge: Direction
  readonly by: Formula
}

/** A face cut away in a slope towards an end; a depth of nothing is none. */
export interface RecipeTaper {
  readonly face: Direction
  readonly end: Direction
  readonly length: Formula
  readonly depth: Formula
}

/** Edges of face A rounded along these sides, but not where two such boards lie edge to edge. */
export interface RecipeEase {
  readonly sides: readonly Direction[]
  readonly radius: Formula
}

export interface RecipeRoundOver {
  readonly between: readonly [Direction, Direction]
  readonly radius: Formula
}

/** An edge taken off flat; a width of nothing is none. */
export interface RecipeChamfer {
  readonly between: readonly [Direction, Direction]
  readonly width: Formula
}

/** A shallow field, burnt in; its middle is placed as a hole is. A length of nothing is none. */
export interface RecipeEngraving {
  readonly face: Direction
  readonly along: Formula
  readonly across: Formula
  readonly length: Formula
  readonly width: Formula
  readonly depth: Formula
}

export const SIDES = ['one', 'leftRight', 'frontBack', 'corners'] as const
export type Sides = (typeof SIDES)[number]

/** One row: a part and its copies. Its numbers are those of the left or front copy; the others are mirror images. */
export interface RecipePart {
  readonly id: string
  /** `{n}` is the number of the copy; sides are said after it. */
  readonly name: string
  readonly kind: string
  readonly sides: Sides
  /** How many in a row; absent: one. */
  readonly repeat?: Formula
  /** Made only if this holds. */
  readonly when?: Formula
  readonly length: Formula
  readonly width: Formula
  readonly thickness: Formula
  /** World axis along which its grain runs, and where its face A looks, before any turn. */
  readonly grain: AxisName
  readonly face: Direction
  /** Its corner at the left, the front and below, before any turn. */
  readonly x: Formula
  readonly y: Formula
  readonly z: Formula
  readonly turns?: readonly Turn[]
  /** Sides out of sight, before any turn. */
  readonly hidden?: readonly Direction[]
  readonly species?: string
  readonly cuts?: readonly RecipeCut[]
  readonly notches?: readonly RecipeNotch[]
  readonly holes?: readonly RecipeHole[]
  readonly edgeBevels?: readonly RecipeEdgeBevel[]
  readonly roundOvers?: readonly RecipeRoundOver[]
  readonly chamfers?: readonly RecipeChamfer[]
  readonly engravings?: readonly RecipeEngraving[]
  readonly tapers?: readonly RecipeTaper[]
  readonly eased?: RecipeEase
}

export const JOINT_KINDS = [
  'onFace',
  'onTop',
  'letIn',
  'halfLap',
  'butt',
  'edge',
] as const satisfies readonly Joint['kind'][]

export interface RecipeScrews {
  readonly count: Formula
  readonly length: Formula
  /** «A slat screw». */
  readonly called?: string
}

/** Copies of one part joined to copies of another, on the same side where both have sides. */
export interface RecipeJoint {
  readonly id: string
  /** Rows of parts: under the screws' heads, and what the threads grip. `letIn`: a lies in a notch of b. */
  readonly a: string
  readonly b: string
  readonly kind: (typeof JOINT_KINDS)[number]
  readonly glued: boolean
  /** From a to b, at the left or front copy. Absent: where they touch most. */
  readonly facing?: Direction
  /** Which pairs: i and n count a's copies, j b's; absent: all. */
  readonly when?: Formula
  readonly screws?: RecipeScrews
  /** Parameter to name where they hardly touch; absent: the first of the recipe. */
  readonly blame?: string
}

export interface RecipeFigure {
  readonly label: string
  readonly unit: 'mm' | 'deg' | 'number'
  readonly value: Formula
  readonly when?: Formula
}

export type RecipeDimension =
  | {
      readonly kind: 'linear'
      readonly view: 'front' | 'side' | 'top'
      readonly side: 'left' | 'right' | 'above' | 'below'
      readonly from: Formula
      readonly to: Formula
      /** Where else it is measured: the coordinates that it does not run along. */
      readonly x: Formula
      readonly y: Formula
      readonly z: Formula
      readonly near?: boolean
      readonly when?: Formula
    }
  | {
      readonly kind: 'angle'
      readonly view: 'front' | 'side' | 'top'
      readonly apex: FormulaPoint
      readonly from: FormulaPoint
      readonly to: FormulaPoint
      readonly when?: Formula
    }

export type FormulaPoint = readonly [Formula, Formula, Formula]

export interface RecipeNotice {
  readonly level: 'note' | 'caution' | 'stop'
  readonly when?: Formula
  readonly message: Template
  readonly parameter?: string
  readonly source?: string
}

export interface RecipePlace {
  readonly id: string
  readonly name: string
  /** Stands there only if this holds. */
  readonly when?: Formula
  readonly min: FormulaPoint
  readonly max: FormulaPoint
  /** The parameter to change if the piece stands into it. */
  readonly parameter?: string
  /** Absent: drawn in every view. */
  readonly views?: PlaceBox['views']
}

/** What of the piece is judged by the sizes of people; absent: nothing is said of it. Heights are from the floor. */
export interface RecipeFit {
  readonly seat?: FitRow<'height' | 'depth' | 'width'>
  /** A table, desk or counter over a seat: the top of the seat, the table's top and its underside. */
  readonly table?: FitRow<'seat' | 'top' | 'underside'>
  /** People side by side. */
  readonly abreast?: FitRow<'length'>
  /** The highest surface that something is put on. */
  readonly reach?: FitRow<'height'>
  /** In a niche: its width between skirting boards or walls, and the piece's. */
  readonly play?: FitRow<'opening' | 'width'>
}
export type FitRow<K extends string> = Readonly<Record<K, Formula>> & { readonly when?: Formula }

export interface Recipe {
  readonly format: 1
  readonly name: string
  /** One sentence: what it is good for. */
  readonly goodFor: string
  readonly parameters: readonly RecipeParameter[]
  readonly derived: readonly DerivedValue[]
  readonly rules: readonly RecipeRule[]
  /** What copies are mirrored about: the middle from left to right, and from front to back. */
  readonly middle: { readonly x: Formula; readonly y: Formula }
  readonly parts: readonly RecipePart[]
  readonly joints: readonly RecipeJoint[]
  readonly figures: readonly RecipeFigure[]
  readonly dimensions: readonly RecipeDimension[]
  readonly notices: readonly RecipeNotice[]
  /** What is sat on, stood on or laid things on; rows of parts. */
  readonly use: {
    readonly kind: 'seat' | 'table' | 'shelf'
    readonly surfaces: readonly string[]
    readonly footRests?: readonly string[]
  }
  readonly place?: readonly RecipePlace[]
  readonly fit?: RecipeFit
  readonly hangs?: 'wall'
}

export interface RecipeFault {
  /** Keys and indexes with points: `parts.3.length`. */
  readonly path: string
  readonly message: string
}

/** Nothing bigger is taken, so that no recipe can hold up whoever opens it. */
export const LIMITS = {
  parameters: 60,
  derived: 120,
  rules: 60,
  partRows: 80,
  jointRows: 120,
  rows: 60,
  placeRows: 10,
  /** Parts of a piece, copies counted. */
  parts: 200,
  joints: 250,
  /** Pairs of parts that joints ask about. */
  pairs: 20_000,
  screwsOfJoint: 40,
  screws: 500,
  notchesOfPart: 24,
  formulaChars: 300,
  formulaNodes: 120,
  formulaDepth: 24,
  textChars: 600,
  /** No part is longer, and nothing stands farther out, mm. */
  farMm: 20_000,
} as const
