/**
 * Ways to cut the blanks of a problem that need not be cut one by one: rows of parts (rows.ts) and panels of staves
 * (panels.ts). A form is one way for every blank; it is a plain cutting problem of its own, with rows and staves as
 * blanks, and a plan of it is turned back into a plan of the problem that was asked.
 * In: a checked CutProblem. Out: choices, the problem of a form, its plan told in blanks of the original.
 * Whole micrometres. Tests: tests/core/cutting/plan-forms.test.ts
 */
import { leavesOf } from './offcuts'
import { equalWays, stripsOfBoard, waysFromStrips } from './panels'
import type { BlockedZone, BoardLayout, CutBlank, CutNode, CutPlan, CutProblem, Shortage } from './problem'
import { mayCutRow, pieceAreaUm2, type Row, rowOf, rowTree, savedByRow } from './rows'

type Blank = Extract<CutNode, { kind: 'blank' }>

/** A rectangle that a form wants in place of blanks one by one. */
interface Extra {
  /** Blank whose boards and zones it has. */
  readonly source: number
  readonly lengthUm: number
  readonly widthUm: number
  readonly count: number
  readonly weight: number
  /** Absent: a stave. */
  readonly row?: Row
}

/** One way for one blank. */
export interface Choice {
  /** How many are cut one by one. */
  readonly single: number
  readonly extras: readonly Extra[]
  /** Widths of the staves of each panel that is glued up. */
  readonly panels: readonly (readonly number[])[]
}

export type Form = readonly Choice[]

const asItIs = (blank: CutBlank): Choice => ({ single: blank.demand ?? 0, extras: [], panels: [] })

/** Most rows in which one blank's parts are tried, and most ways of staves. */
const ROW_COUNTS = [2, 3, 4, 5, 6, 8, 12]

interface RowContext {
  readonly problem: CutProblem
  readonly index: number
  readonly longestUm: number
}

/** The rectangle of a row: as long as it is, but never under what the planer takes. */
function rowExtra({ problem, index }: RowContext, parts: number, count: number): Extra {
  const blank = problem.blanks[index]
  const row = rowOf(blank, parts, problem.kerfUm)
  const lengthUm = Math.max(row.lengthUm, blank.planedUm ?? 0)
  return {
    source: index,
    lengthUm,
    widthUm: blank.widthUm,
    count,
    weight: parts * blank.weight,
    row,
  }
}

const fits = (context: RowContext, extra: Extra): boolean =>
  extra.lengthUm <= context.longestUm &&
  extra.row !== undefined &&
  mayCutRow(extra.row, extra.widthUm, context.problem.limits)

/** All parts in rows of `parts`, the last row shorter; null where a row does not fit or saves nothing. */
function inRows(context: RowContext, parts: number): Choice | null {
  const { problem, index } = context
  const blank = problem.blanks[index]
  const demand = blank.demand ?? 0
  const isShort = blank.planedUm !== undefined && blank.planedUm > blank.lengthUm
  if (parts > demand || (!isShort && savedByRow(blank, parts, problem.kerfUm) <= 0)) return null
  const full = rowExtra(context, parts, Math.floor(demand / parts))
  if (!fits(context, full)) return null
  const rest = demand % parts
  if (rest === 0 || (rest === 1 && !isShort)) return { single: rest, extras: [full], panels: [] }
  const last = rowExtra(context, rest, 1)
  if (!fits(context, last)) return { single: rest, extras: [full], panels: [] }
  return { single: 0, extras: [full, last], panels: [] }
}

/** Parts in a row that make a piece long enough for the planer. */
export const partsToPlane = (blank: CutBlank, kerfUm: number): number =>
  Math.max(1, Math.ceil(((blank.planedUm ?? 0) + kerfUm) / (blank.lengthUm + kerfUm)))

function rowChoices(context: RowContext): Choice[] {
  const { problem, index } = context
  const blank = problem.blanks[index]
  const isShort = blank.planedUm !== undefined && blank.planedUm > blank.lengthUm
  // The crosscuts within a row would be a stage more.
  if (problem.limits.stages !== null) return [asItIs(blank)]
  if (blank.grain !== 'along' || !blank.demand || (blank.ends === undefined && !isShort))
    return [asItIs(blank)]
  const least = isShort ? Math.min(blank.demand, partsToPlane(blank, problem.kerfUm)) : 2
  const counts = [...new Set([least, ...ROW_COUNTS.filter((k) => k > least), blank.demand])]
  const rows = counts.flatMap((k) => inRows(context, k) ?? [])
  return isShort ? [...rows, asItIs(blank)] : [asItIs(blank), ...rows]
}

function staveExtras(problem: CutProblem, source: number, panels: readonly (readonly number[])[]): Extra[] {
  const stave = problem.blanks[source]
  const { weight } = problem.blanks[stave.stave?.of ?? 0]
  const counts = new Map<number, { count: number; weight: number }>()
  for (const widths of panels) {
    for (const w of widths) {
      const known = counts.get(w) ?? { count: 0, weight: 0 }
      counts.set(w, { count: known.count + 1, weight: Math.max(known.weight, weight / widths.length) })
    }
  }
  return [...counts].map(([widthUm, known]) => ({ source, lengthUm: stave.lengthUm, widthUm, ...known }))
}

/** Panels whole, of equal staves, or of strips as the boards give them; and some whole with the others glued up. */
function panelChoices(problem: CutProblem, index: number, staveIndex: number): Choice[] {
  const blank = problem.blanks[index]
  const stave = problem.blanks[staveIndex]
  const rule = stave.stave
  if (rule === undefined || blank.demand === null) return [asItIs(blank)]
  const { demand } = blank
  const glued = (panels: readonly (readonly number[])[]): Choice => ({
    single: demand - panels.length,
    extras: staveExtras(problem, staveIndex, panels),
    panels,
  })
  const ways = equalWays(rule)
  const allowed = stave.boards ?? problem.boards.map((_, i) => i)
  const strips = allowed.flatMap((i) =>
    stripsOfBoard(problem.boards[i], i, stave.lengthUm, rule, problem.kerfUm),
  )
  const fromBoards = waysFromStrips(rule, strips, demand)
  const some = ways.length === 0 ? [] : Array.from({ length: Math.min(3, demand - 1) }, (_, i) => i + 1)
  const all = [
    ...ways.map((way) => glued(new Array<readonly number[]>(demand).fill(way))),
    ...(fromBoards === null ? [] : [glued(fromBoards)]),
    ...some.map((n) => glued(new Array<readonly number[]>(n).fill(ways[0]))),
  ]
  const canBeWhole = blank.boards === undefined || blank.boards.length > 0
  return canBeWhole ? [asItIs(blank), ...all] : all.length > 0 ? all : [asItIs(blank)]
}

/** By blank of the problem: every way that is worth trying, the plainest first. */
export function choicesOf(problem: CutProblem): readonly (readonly Choice[])[] {
  const staveOf = new Map(problem.blanks.flatMap((b, i) => (b.stave ? [[b.stave.of, i] as const] : [])))
  return problem.blanks.map((blank, index) => {
    const stave = staveOf.get(index)
    if (stave !== undefined) return panelChoices(problem, index, stave)
    const boards = blank.boards?.map((i) => problem.boards[i]) ?? problem.boards
    const longestUm = boards.reduce((most, b) => Math.max(most, b.lengthUm), 0)
    return rowChoices({ problem, index, longestUm })
  })
}

export interface FormProblem {
  readonly problem: CutProblem
  /** By blank of the form's problem, beyond those of the original. */
  readonly extras: readonly Extra[]
}

const withCopies = (zone: BlockedZone, sources: readonly number[], from: number): BlockedZone => {
  const { blocks } = zone
  if (blocks === 'all') return zone
  const added = sources.flatMap((source, i) => (blocks.includes(source) ? [from + i] : []))
  return added.length === 0 ? zone : { ...zone, blocks: [...blocks, ...added] }
}

/** The cutting problem of a form: the blanks of the original, then its rows and staves. */
export function formProblem(problem: CutProblem, form: Form): FormProblem {
  const extras = form.flatMap((choice) => choice.extras)
  const sources = extras.map((extra) => extra.source)
  const from = problem.blanks.length
  return {
    extras,
    problem: {
      ...problem,
      blanks: [
        ...problem.blanks.map((blank, i) => ({ ...blank, demand: form[i].single })),
        ...extras.map(({ source, lengthUm, widthUm, count, weight }): CutBlank => {
          const { id, boards } = problem.blanks[source]
          return {
            id: `${id}+`,
            lengthUm,
            widthUm,
            demand: count,
            grain: 'along',
            weight,
            ...(boards === undefined ? {} : { boards }),
          }
        }),
      ],
      zones: problem.zones.map((zone) => withCopies(zone, sources, from)),
    },
  }
}

function replaced(node: CutNode, of: (leaf: Blank) => CutNode): CutNode {
  if (node.kind === 'blank') return of(node)
  if (node.kind !== 'cut') return node
  const first = replaced(node.first, of)
  return node.second === undefined
    ? { ...node, first }
    : { ...node, first, second: replaced(node.second, of) }
}

function restOf(problem: CutProblem, leaf: Blank): CutNode {
  const { xUm, yUm, lengthUm, widthUm } = leaf
  const { minLengthUm, minWidthUm } = problem.offcut
  const kind = lengthUm >= minLengthUm && widthUm >= minWidthUm ? 'offcut' : 'waste'
  return { kind, xUm, yUm, lengthUm, widthUm }
}

/** Layouts of a form's plan with its rows cut up; staves are left as they are, one copy a layout. */
function layoutsWithRows(problem: CutProblem, form: FormProblem, layouts: readonly BoardLayout[]) {
  const from = problem.blanks.length
  return layouts.flatMap((layout) => {
    let hasStaves = false
    const tree = replaced(layout.tree, (leaf) => {
      const extra = form.extras[leaf.blank - from]
      if (extra?.row !== undefined) return rowTree(extra.row, leaf, problem.kerfUm, extra.source)
      if (extra !== undefined) hasStaves = true
      return extra === undefined ? leaf : { ...leaf, blank: extra.source }
    })
    if (!hasStaves) return [{ ...layout, tree }]
    return Array.from({ length: layout.copies }, () => ({
      ...layout,
      copies: 1,
      tree: replaced(tree, (leaf) => ({ ...leaf })),
    }))
  })
}

interface PlacedStave {
  readonly layout: number
  readonly leaf: Blank
}

/** Which panel each stave goes into: panels that can be made up, each from as few boards as may be. */
function assignStaves(
  problem: CutProblem,
  form: Form,
  layouts: readonly BoardLayout[],
): ReadonlyMap<Blank, { readonly panel: number; readonly at: number }> {
  const places = new Map<Blank, { panel: number; at: number }>()
  const open = layouts.flatMap((layout, index) =>
    leavesOf(layout.tree).flatMap((leaf): PlacedStave[] =>
      leaf.kind === 'blank' && problem.blanks[leaf.blank].stave ? [{ layout: index, leaf }] : [],
    ),
  )
  form.forEach((choice, index) => {
    let panel = 0
    for (const widths of choice.panels) {
      const taken: PlacedStave[] = []
      for (const widthUm of widths) {
        const found = open.findIndex(
          ({ leaf }) => leaf.widthUm === widthUm && problem.blanks[leaf.blank].stave?.of === index,
        )
        if (found < 0) break
        taken.push(...open.splice(found, 1))
      }
      if (taken.length < widths.length) {
        open.push(...taken)
        continue
      }
      // Staves of one board lie side by side: their colour and grain match.
      taken.sort((a, b) => a.layout - b.layout || a.leaf.yUm - b.leaf.yUm || a.leaf.xUm - b.leaf.xUm)
      taken.forEach(({ leaf }, at) => {
        places.set(leaf, { panel, at })
      })
      panel++
    }
  })
  return places
}

/** How many of each blank a plan makes; a panel counts once all its staves are there. */
export function countMade(problem: CutProblem, layouts: readonly BoardLayout[]): Int32Array {
  const made = new Int32Array(problem.blanks.length)
  const panels = new Set<string>()
  for (const layout of layouts) {
    for (const leaf of leavesOf(layout.tree)) {
      if (leaf.kind !== 'blank') continue
      const rule = problem.blanks[leaf.blank].stave
      if (rule === undefined) made[leaf.blank] += layout.copies
      else panels.add(`${rule.of} ${leaf.stave?.panel}`)
    }
  }
  for (const key of panels) made[Number(key.split(' ')[0])]++
  return made
}

const HURDLES: readonly Shortage['why'][] = ['noBoard', 'length', 'width', 'defects', 'contention']

/** Why a blank is short, told by the way that got furthest. */
function shortagesOf(problem: CutProblem, form: FormProblem, plan: CutPlan, made: Int32Array): Shortage[] {
  const whys = new Map<number, number>()
  for (const { blank, why } of plan.shortages) {
    const extra = form.extras[blank - problem.blanks.length]
    const source = extra?.source ?? blank
    const of = problem.blanks[source].stave?.of ?? source
    whys.set(of, Math.max(whys.get(of) ?? 0, HURDLES.indexOf(why)))
  }
  return problem.blanks.flatMap((blank, i) => {
    const missing = (blank.demand ?? 0) - made[i]
    return missing > 0 ? [{ blank: i, missing, why: HURDLES[whys.get(i) ?? HURDLES.length - 1] }] : []
  })
}

/** What a layout set makes and costs. */
function figuresOf(problem: CutProblem, layouts: readonly BoardLayout[], made: Int32Array) {
  let [cost, boardArea, blankArea] = [0, 0, 0]
  for (const { board, copies, tree } of layouts) {
    const b = problem.boards[board]
    cost += copies * b.cost
    boardArea += copies * b.lengthUm * b.widthUm
    for (const leaf of leavesOf(tree)) if (leaf.kind === 'blank') blankArea += copies * pieceAreaUm2(leaf)
  }
  const weightMade = problem.blanks.reduce((sum, b, i) => sum + b.weight * made[i], 0)
  return { cost, weightMade, yield: boardArea > 0 ? blankArea / boardArea : 0 }
}

/**
 * A plan of a form told in the blanks that were asked for: rows cut up, staves given to their panels; staves of a
 * panel that cannot be made up stay uncut. Bounds are left to the caller.
 */
export function planOfForm(
  problem: CutProblem,
  form: Form,
  formed: FormProblem,
  plan: CutPlan,
): Omit<CutPlan, 'weightBound' | 'costBound' | 'status'> {
  const cut = layoutsWithRows(problem, formed, plan.layouts)
  const places = assignStaves(problem, form, cut)
  const layouts = cut
    .map((layout) => ({
      ...layout,
      tree: replaced(layout.tree, (leaf) => {
        if (problem.blanks[leaf.blank].stave === undefined) return leaf
        const stave = places.get(leaf)
        return stave === undefined ? restOf(problem, leaf) : { ...leaf, stave }
      }),
    }))
    .filter(({ tree }) => leavesOf(tree).some((leaf) => leaf.kind === 'blank'))
  const made = countMade(problem, layouts)
  return {
    layouts,
    ...figuresOf(problem, layouts, made),
    shortages: shortagesOf(problem, formed, plan, made),
    steps: plan.steps,
  }
}
