/**
 * The order at the saw: every cut of a layout numbered so that a piece is cut only after the cut that made it,
 * with the machine that makes it and what its stop or fence is set to.
 *
 * A crosscut is made on the sled: the stop stands at the length of the piece kept against it. A rip runs along the
 * fence: the fence stands at the width of the piece between it and the blade. Where both sides are real pieces, the
 * one against the fence must suit the fence's reach; otherwise the first child is measured.
 * In: a board's cut tree and the machine limits. Out: numbered cuts in micrometres. Tests: cut-order.test.ts
 */
import type { CutNode, MachineLimits } from './problem'
import { stopLengthUm } from './rows'

type Cut = Extract<CutNode, { kind: 'cut' }>

export interface SawCut {
  /** From 1, in the order of cutting. */
  readonly number: number
  /** Number of the cut that made the piece; 0: the board itself. */
  readonly after: number
  readonly kind: 'crosscut' | 'rip'
  readonly machine: 'sled' | 'ripFence'
  /** Distance of the stop (crosscut) or of the fence (rip) from the blade: the measured piece's size. */
  readonly settingUm: number
  /** Which child is measured. */
  readonly measured: 'first' | 'second'
  /** The piece before the cut, absolute on the board. */
  readonly piece: {
    readonly xUm: number
    readonly yUm: number
    readonly lengthUm: number
    readonly widthUm: number
  }
  /** Where the blade enters: edge of the first child, absolute on the board. The kerf lies beyond it. */
  readonly lineUm: number
  /** A crosscut that leans: how much further along the blade leaves the far edge. The sled stands at this angle. */
  readonly slantUm?: number
}

export interface CutOrder {
  readonly cuts: readonly SawCut[]
  /** How often a stop or fence has to be set anew when equal settings are cut together. */
  readonly distinctSettings: number
}

const sizeOf = (node: CutNode, kind: 'crosscut' | 'rip'): number =>
  kind === 'crosscut' ? node.lengthUm : node.widthUm

function measuredSide(cut: Cut, limits?: MachineLimits): 'first' | 'second' {
  const most = limits?.maxRipWidthUm
  if (cut.cut === 'crosscut' || most === undefined || cut.atUm <= most) return 'first'
  return cut.second !== undefined && cut.second.widthUm <= most ? 'second' : 'first'
}

/** Equal for cuts that one setting of stop or fence, and of the sled, serves. */
const settingKey = (cut: Cut, settingUm: number): string => `${cut.cut} ${settingUm} ${cut.slantUm ?? 0}`

/**
 * @param limits absent: the first child is always measured
 * @example cutOrder(tree).cuts[0] //=> { number: 1, after: 0, kind: 'crosscut', machine: 'sled', settingUm: 350000, ... }
 */
export function cutOrder(tree: CutNode, limits?: MachineLimits): CutOrder {
  const cuts: SawCut[] = []
  const settings = new Set<string>()
  const stack: { node: CutNode; after: number }[] = [{ node: tree, after: 0 }]
  for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
    const { node, after } = top
    if (node.kind !== 'cut') continue
    const number = cuts.length + 1
    const measured = measuredSide(node, limits)
    const side = measured === 'first' ? node.first : (node.second as CutNode)
    const settingUm = node.slantUm === undefined ? sizeOf(side, node.cut) : stopLengthUm(side)
    settings.add(settingKey(node, settingUm))
    cuts.push({
      number,
      after,
      kind: node.cut,
      machine: node.cut === 'crosscut' ? 'sled' : 'ripFence',
      settingUm,
      measured,
      piece: { xUm: node.xUm, yUm: node.yUm, lengthUm: node.lengthUm, widthUm: node.widthUm },
      lineUm: (node.cut === 'crosscut' ? node.xUm : node.yUm) + node.atUm,
      ...(node.slantUm === undefined ? {} : { slantUm: node.slantUm }),
    })
    if (node.second !== undefined) stack.push({ node: node.second, after: number })
    stack.push({ node: node.first, after: number })
  }
  return { cuts, distinctSettings: settings.size }
}

/** Distinct stop and fence settings over several layouts. */
export function countSettings(trees: readonly CutNode[], limits?: MachineLimits): number {
  const settings = new Set<string>()
  for (const tree of trees) {
    for (const c of cutOrder(tree, limits).cuts) settings.add(`${c.kind} ${c.settingUm} ${c.slantUm ?? 0}`)
  }
  return settings.size
}
