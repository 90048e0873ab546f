'use server'
import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { Action } from '#lib/data/action'
import { abandon, describe, finish, reopen } from '#lib/data/builds'
import { add, remove } from '#lib/data/comments'
import { clear, lengthen, start } from '#lib/data/waits'
import { choiceText, decimalText, noteText, readTyped, wholeNumberText } from '#lib/shop/fields'
import { MAX_LABEL_LENGTH, MAX_WAIT_HOURS, MIN_WAIT_HOURS, WAIT_KINDS } from '#lib/shop/waits'
import type { FormState } from '../../form-state'
import { call, formState, typedIn } from '../../submit'

/** As it was sent: every field is text, the action asks no more of it. */
async function send<In, Out>(action: Action<In, Out>, form: FormData): Promise<FormState> {
  const result = await call(action, typedIn(form))
  if (result.ok) revalidatePath('/builds', 'layout')
  return formState(result, form)
}

export const describeBuild = async (_: FormState, form: FormData) => send(describe, form)
export const finishBuild = async (_: FormState, form: FormData) => send(finish, form)
export const abandonBuild = async (_: FormState, form: FormData) => send(abandon, form)
export const reopenBuild = async (_: FormState, form: FormData) => send(reopen, form)
export const addComment = async (_: FormState, form: FormData) => send(add, form)
export const removeComment = async (_: FormState, form: FormData) => send(remove, form)
export const clearWait = async (_: FormState, form: FormData) => send(clear, form)

const hours = decimalText({ what: 'number of hours', min: MIN_WAIT_HOURS, max: MAX_WAIT_HOURS })
const typedWait = z.object({
  buildId: z.string(),
  kind: choiceText(WAIT_KINDS, 'Say what it is.'),
  label: noteText('name', MAX_LABEL_LENGTH),
  hours,
  agoMinutes: wholeNumberText({ what: 'time in minutes', min: 0, max: 7 * 24 * 60 }),
})

/** Reads typed numbers first, then sends. */
async function sendTyped<T, In, Out>(action: Action<In, Out>, schema: z.ZodType<T>, form: FormData) {
  const typed = readTyped(schema, typedIn(form))
  if (!typed.ok) return formState(typed, form)
  const result = await call(action, typed.value)
  if (result.ok) revalidatePath('/builds', 'layout')
  return formState(result, form)
}

export const startWait = async (_: FormState, form: FormData) => sendTyped(start, typedWait, form)
export const lengthenWait = async (_: FormState, form: FormData) =>
  sendTyped(lengthen, z.object({ waitId: z.string(), hours }), form)
