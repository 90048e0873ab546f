import type { LengthUnit } from '#lib/core/units/inches'
import { typedLength } from '#lib/format/length'
import { finishChoice } from '#lib/shop/boards'
import type { BoardView } from './[id]/board-view'

/** A board as the fields of its form show it. */
export function shownBoard(board: BoardView, units: LengthUnit) {
  const say = (um: number) => typedLength(um, units)
  return {
    length: say(board.lengthUm),
    width: say(board.widthUm),
    thickness: say(board.thicknessUm),
    cup: say(board.warp.cupUm),
    bow: say(board.warp.bowUm),
    crook: say(board.warp.crookUm),
    twist: say(board.warp.twistUm),
    species: board.species,
    finish: finishChoice(board) as string,
    terms: board.terms as string,
    place: board.place,
    notes: board.notes,
    treated: board.treated ? 'on' : '',
  }
}
export type Shown = ReturnType<typeof shownBoard>
