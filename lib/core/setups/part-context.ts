/** What the steps of one part have in common: where they are noted. */
import type { Piece } from './pieces'
import type { SetupInput } from './setup-input'
import type { SetupWarning } from './setup-plan'
import type { Step, StepList } from './step'

/** A blank that is cut, and the steps that it waits for. */
export interface FreeBlank {
  readonly piece: Piece
  readonly after: readonly string[]
}

export interface PartContext {
  readonly input: SetupInput
  readonly out: StepList
  /** True: notches are cut with a stack of blades; false: by repeated passes of the saw blade. */
  readonly isStackUsed: boolean
}

export type Draft = Omit<Step, 'pieceId' | 'pieceName' | 'after'>

export function warn(context: PartContext, key: string, code: SetupWarning['code'], message: string): void {
  context.out.warnings.push({ level: 'caution', code, message, key })
}
