/**
 * The input for set-ups from what the cutting side already has: the needs of a model, the pool's cutting problem and
 * the layouts of its plan. In: micrometres. Out: SetupInput. Tests: tests/core/setups/from-cut-plan.test.ts.
 */
import type { PoolBoard, PoolCutProblem } from '#lib/core/cutting/from-pool'
import type { BoardLayout } from '#lib/core/cutting/problem'
import type { Part } from '#lib/core/design/model'
import type { RoughAllowances } from '../board/allowances'
import type { BlankNeed } from '../board/demand'
import type { SetupBoard, SetupInput } from './setup-input'
import type { SetupShop } from './setup-shop'

export interface CutPlanForSetups {
  readonly model: { readonly parts: readonly Part[] }
  /** As they were given to `cutProblemFrom`. */
  readonly needs: readonly BlankNeed[]
  readonly boards: readonly PoolBoard[]
  readonly pool: Pick<PoolCutProblem, 'problem' | 'boardIds'>
  readonly layouts: readonly BoardLayout[]
  readonly allowances: RoughAllowances
  readonly shop: SetupShop
}

function setupBoard(
  board: PoolBoard,
  usable: { lengthUm: number; widthUm: number },
  endTrimUm: number,
): SetupBoard {
  return {
    id: board.id,
    name: board.label ?? board.id,
    lengthUm: usable.lengthUm,
    widthUm: usable.widthUm,
    thicknessUm: board.thicknessUm,
    warp: board.warp,
    ...(board.origin === 'offcut' ? {} : { endTrimUm }),
  }
}

/**
 * @throws RangeError if the pool names a board that is not given
 * @example planSetups(setupInputFrom({ model, needs, boards, pool, layouts: plan.layouts, allowances, shop }))
 */
export function setupInputFrom(from: CutPlanForSetups): SetupInput {
  const byId = new Map(from.boards.map((board) => [board.id, board]))
  const boards = from.pool.problem.boards.map((usable) => {
    const board = byId.get(usable.id)
    if (board === undefined) throw new RangeError(`no board ${usable.id}`)
    return setupBoard(board, usable, from.allowances.endTrimUm)
  })
  return {
    model: from.model,
    layouts: from.layouts,
    boards,
    blanks: from.needs.map(({ id, name }) => ({ id, name })),
    needs: from.needs.map(({ partIds }, blank) => ({ blank, partIds })),
    shop: from.shop,
    sandingMm: (2 * from.allowances.sandPerFaceUm) / 1000,
  }
}
