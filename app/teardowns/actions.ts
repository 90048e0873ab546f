'use server'
import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { changeTeardown, logBoards, startTeardown } from '#lib/data/teardowns'
import { chalkSentence } from '#lib/shop/boards'
import { wholeNumberText } from '#lib/shop/fields'
import { readBoard } from '../boards/typed-board'
import type { FormState } from '../form-state'
import { call, formState, typedIn } from '../submit'

export async function beginTeardown(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(startTeardown, typedIn(form))
  if (!result.ok) return formState(result, form)
  redirect(`/teardowns/${result.value.id}`)
}

export async function describeTeardown(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(changeTeardown, typedIn(form))
  if (result.ok) revalidatePath('/teardowns', 'layout')
  return formState(result, form)
}

const alike = wholeNumberText({ what: 'number of alike boards', min: 1, max: 20 })

export async function logBoard(_: FormState, form: FormData): Promise<FormState> {
  const typed = typedIn(form)
  const { teardownId, metal } = typed
  const board = readBoard(typed, { alike })
  if (!board.ok) return formState(board, form)
  const result = await call(logBoards, { ...board.value, teardownId, metal })
  if (!result.ok) return formState(result, form)
  revalidatePath(`/teardowns/${teardownId}`)
  return { ...formState(result, form), said: chalkSentence(result.value.boards.map((b) => b.number)) }
}
