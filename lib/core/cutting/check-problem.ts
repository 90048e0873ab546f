/**
 * Refuses a cutting problem that cannot be meant: not-a-number, negative or absurd sizes, indexes out of range.
 * In: a CutProblem. Out: nothing, or a RangeError that names the value. Tests: tests/core/cutting/hostile.test.ts
 */
import type { CutProblem } from './problem'

/** 1 km: longer than any board. Sums and areas stay exact in a double. */
export const MAX_SIZE_UM = 1_000_000_000
const MAX_COUNT = 1_000_000

function check(ok: boolean, name: string, value: unknown): void {
  if (!ok) throw new RangeError(`${name}: ${String(value)}`)
}
const isSize = (v: number): boolean => Number.isSafeInteger(v) && v > 0 && v <= MAX_SIZE_UM
const isOffset = (v: number): boolean => Number.isSafeInteger(v) && v >= 0 && v <= MAX_SIZE_UM
const isAmount = (v: number): boolean => Number.isFinite(v) && v >= 0
const isCount = (v: number): boolean => Number.isSafeInteger(v) && v >= 0 && v <= MAX_COUNT

function checkBoards(problem: CutProblem): void {
  problem.boards.forEach((b, i) => {
    check(isSize(b.lengthUm), `boards[${i}].lengthUm`, b.lengthUm)
    check(isSize(b.widthUm), `boards[${i}].widthUm`, b.widthUm)
    check(isAmount(b.cost), `boards[${i}].cost`, b.cost)
    if (b.count != null) check(isCount(b.count), `boards[${i}].count`, b.count)
  })
}

function checkBlanks(problem: CutProblem): void {
  const isUnlimited = problem.boards.some((b) => b.count === null)
  problem.blanks.forEach((b, i) => {
    check(isSize(b.lengthUm), `blanks[${i}].lengthUm`, b.lengthUm)
    check(isSize(b.widthUm), `blanks[${i}].widthUm`, b.widthUm)
    check(isAmount(b.weight), `blanks[${i}].weight`, b.weight)
    if (b.demand !== null) check(isCount(b.demand), `blanks[${i}].demand`, b.demand)
    else check(!isUnlimited, `blanks[${i}].demand without end, on boards without end`, b.demand)
    check(b.grain === 'along' || b.grain === 'free', `blanks[${i}].grain`, b.grain)
    for (const k of b.boards ?? []) {
      check(Number.isInteger(k) && k >= 0 && k < problem.boards.length, `blanks[${i}].boards`, k)
    }
  })
}

/** Ends that lean must lie within the blank; a panel's staves must be able to make it. */
function checkWays(problem: CutProblem): void {
  problem.blanks.forEach(({ lengthUm, ends, planedUm, stave }, i) => {
    const at = `blanks[${i}]`
    if (planedUm !== undefined) check(isSize(planedUm), `${at}.planedUm`, planedUm)
    if (ends !== undefined) {
      const { nearUm, leanAUm, leanBUm } = ends
      check(isSize(nearUm), `${at}.ends.nearUm`, nearUm)
      check(isOffset(Math.abs(leanAUm)), `${at}.ends.leanAUm`, leanAUm)
      check(isOffset(Math.abs(leanBUm)), `${at}.ends.leanBUm`, leanBUm)
      check(isSize(nearUm + leanBUm - leanAUm), `${at}.ends, along the far edge`, nearUm + leanBUm - leanAUm)
      const aroundUm = Math.max(nearUm, nearUm + leanBUm) - Math.min(0, leanAUm)
      check(aroundUm <= lengthUm, `${at}.ends, longer than the blank`, aroundUm)
    }
    if (stave === undefined) return
    const of = problem.blanks[stave.of]
    check(of !== undefined && of.stave === undefined && of !== problem.blanks[i], `${at}.stave.of`, stave.of)
    check(isSize(stave.minWidthUm), `${at}.stave.minWidthUm`, stave.minWidthUm)
    check(
      isSize(stave.maxWidthUm) && stave.maxWidthUm >= stave.minWidthUm,
      `${at}.stave.maxWidthUm`,
      stave.maxWidthUm,
    )
    check(isSize(stave.panelUm), `${at}.stave.panelUm`, stave.panelUm)
    check(
      isOffset(stave.jointUm) && 2 * stave.jointUm < stave.minWidthUm,
      `${at}.stave.jointUm`,
      stave.jointUm,
    )
    check(isCount(stave.maxStaves) && stave.maxStaves <= 100, `${at}.stave.maxStaves`, stave.maxStaves)
    check(problem.blanks[i].demand === 0, `${at}.demand of a stave`, problem.blanks[i].demand)
  })
}

function checkZones(problem: CutProblem): void {
  problem.zones.forEach((z, i) => {
    check(
      Number.isInteger(z.board) && z.board >= 0 && z.board < problem.boards.length,
      `zones[${i}].board`,
      z.board,
    )
    check(isOffset(z.xUm), `zones[${i}].xUm`, z.xUm)
    check(isOffset(z.yUm), `zones[${i}].yUm`, z.yUm)
    check(isOffset(z.lengthUm), `zones[${i}].lengthUm`, z.lengthUm)
    check(isOffset(z.widthUm), `zones[${i}].widthUm`, z.widthUm)
    if (z.blocks === 'all') return
    for (const k of z.blocks) {
      check(Number.isInteger(k) && k >= 0 && k < problem.blanks.length, `zones[${i}].blocks`, k)
    }
  })
}

/** @throws RangeError that names the first bad value */
export function checkProblem(problem: CutProblem): void {
  check(isOffset(problem.kerfUm), 'kerfUm', problem.kerfUm)
  checkBoards(problem)
  checkBlanks(problem)
  checkWays(problem)
  checkZones(problem)
  const { limits, offcut } = problem
  check(isOffset(limits.minPieceLengthUm), 'limits.minPieceLengthUm', limits.minPieceLengthUm)
  check(isOffset(limits.minPieceWidthUm), 'limits.minPieceWidthUm', limits.minPieceWidthUm)
  if (limits.maxRipWidthUm !== undefined) {
    check(isSize(limits.maxRipWidthUm), 'limits.maxRipWidthUm', limits.maxRipWidthUm)
  }
  if (limits.maxCrosscutWidthUm !== undefined) {
    check(isSize(limits.maxCrosscutWidthUm), 'limits.maxCrosscutWidthUm', limits.maxCrosscutWidthUm)
  }
  if (limits.stages !== null) check(isCount(limits.stages), 'limits.stages', limits.stages)
  const { firstCut } = limits
  const isFirst = firstCut === undefined || firstCut === 'crosscut' || firstCut === 'rip'
  check(isFirst, 'limits.firstCut', firstCut)
  check(isOffset(offcut.minLengthUm), 'offcut.minLengthUm', offcut.minLengthUm)
  check(isOffset(offcut.minWidthUm), 'offcut.minWidthUm', offcut.minWidthUm)
}
