/**
 * What a solver thread and its owner say to each other. Plain data, structured clone; the stop flag is shared
 * memory, so that it is heard in the middle of a search. Tests: tests/engine/thread-pool.test.ts
 */
import type { Groups } from '#lib/core/cutting/plan-together'
import type { CutPlan, CutProblem } from '#lib/core/cutting/problem'

export interface StartMessage {
  readonly kind: 'start'
  readonly runId: string
  readonly problem: CutProblem
  /** Builds that are planned together; see plan-together.ts. Absent: one. */
  readonly groups?: Groups
  readonly seed: number
  /** Most search steps; absent: as many as the time allows. */
  readonly maxSteps?: number
  /** Most time, wall clock. */
  readonly milliseconds: number
  /** Int32Array of 1: 0 go on, 1 stop. */
  readonly stop: SharedArrayBuffer
}

/** A thread works on one run at a time; a cancel goes through the stop flag, since a busy thread reads no message. */
export type ToThread = StartMessage

export type FromThread =
  | { readonly kind: 'ready' }
  | { readonly kind: 'progress'; readonly runId: string; readonly elapsedMs: number }
  /** Passed by verifyCutPlan. */
  | { readonly kind: 'better'; readonly runId: string; readonly elapsedMs: number; readonly plan: CutPlan }
  | {
      readonly kind: 'done'
      readonly runId: string
      readonly elapsedMs: number
      readonly plan: CutPlan
      /** By build, planned one after another; with groups only. */
      readonly alone?: readonly CutPlan[]
      readonly isCancelled: boolean
    }
  /** A bug or a bad problem. The thread is not used again. */
  | { readonly kind: 'failed'; readonly runId: string; readonly message: string }

export const GO_ON = 0
export const STOP = 1
