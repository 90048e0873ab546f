'use server'
import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { Action } from '#lib/data/action'
import {
  changeBoard,
  putBoardBack,
  recordLead,
  recordMetal,
  removeBoard,
  reopenGate,
  setDefects,
} from '#lib/data/boards'
import { hiddenNumber } from '#lib/shop/fields'
import type { FormState } from '../form-state'
import { call, formState, typedIn } from '../submit'
import { readBoard } from './typed-board'

/** Sends what was typed, with the version that was seen as a number. Also after a clash: the page shows the new state. */
async function send<In, Out>(action: Action<In, Out>, form: FormData, more: object = {}): Promise<FormState> {
  const typed = typedIn(form)
  const version = hiddenNumber.safeParse(typed.version).data
  const result = await call(action, { ...typed, version, ...more })
  if (result.ok || result.error.code === 'changedMeanwhile') revalidatePath(`/boards/${typed.boardId}`)
  return formState(result, form)
}

export const metalChecked = async (_: FormState, form: FormData) => send(recordMetal, form)
export const leadTested = async (_: FormState, form: FormData) => send(recordLead, form)
export const checkTakenBack = async (_: FormState, form: FormData) => send(reopenGate, form)
export const outOfPool = async (_: FormState, form: FormData) => send(removeBoard, form)
export const backInPool = async (_: FormState, form: FormData) => send(putBoardBack, form)

export async function boardChanged(_: FormState, form: FormData): Promise<FormState> {
  const board = readBoard(typedIn(form))
  if (!board.ok) return formState(board, form)
  return send(changeBoard, form, board.value)
}

const marksText = z.string().transform((text, context) => {
  try {
    return JSON.parse(text) as unknown
  } catch {
    context.addIssue({ code: 'custom', message: 'These marks cannot be read.' })
    return z.NEVER
  }
})

export async function marksSaved(_: FormState, form: FormData): Promise<FormState> {
  const defects = marksText.safeParse(form.get('defects')).data
  return send(setDefects, form, { defects })
}
