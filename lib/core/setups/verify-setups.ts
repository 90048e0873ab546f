/**
 * Checks a plan of set-ups against the trees, the parts and the shop that it was made for, sharing no code with the
 * planner: every cut of every tree and every operation of every part is there exactly once, with settings that make
 * it; nothing is cut before it exists; limits that are broken are reported; the sums are right.
 * In: the input and the plan. Out: faults, none for a good plan. Lengths mm, angles rad.
 * Not checked: that the settings are the fewest. Tests: tests/core/setups/verify-setups.test.ts (seeded mutations).
 */
import type { SetupInput } from './setup-input'
import type { SetupPlan } from './setup-plan'
import { Check, type SetupFault } from './verify/check'
import { checkPart } from './verify/part'
import { checkOrder, checkSums } from './verify/sums'
import { blanksOfParts, checkPieces, checkTrees, walkTrees } from './verify/trees'

/**
 * @returns what is wrong, nothing for a good plan
 * @example verifySetups(input, planSetups(input)) //=> []
 */
export function verifySetups(input: SetupInput, plan: SetupPlan): readonly SetupFault[] {
  const check = new Check(input, plan)
  const walked = walkTrees(input)
  const tree = checkTrees(check, walked)
  checkPieces(check, walked, tree)
  const blanks = blanksOfParts(input, walked.leaves)
  for (const part of input.model.parts) {
    const own = blanks.get(part.id)
    if (own !== undefined) checkPart(check, walked, part, own, tree)
    const isTold = plan.partsWithoutPiece.includes(part.id)
    check.expect(isTold === (own === undefined), 'unknown', part.id, 'parts without a piece')
    if (own === undefined && check.all.some((f) => f.cut.pieceId === part.id)) {
      check.fault('unknown', part.id, 'is worked on but has no piece')
    }
  }
  checkOrder(check)
  checkSums(check)
  return check.faults
}
