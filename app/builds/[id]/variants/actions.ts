'use server'
import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { z } from 'zod'
import type { Action } from '#lib/data/action'
import { addToVariant } from '#lib/data/comments'
import { remove as removeStill } from '#lib/data/stills'
import { choose, make, remove, rename } from '#lib/data/variants'
import { cast, takeBack } from '#lib/data/votes'
import { hiddenNumber, noteText, readTyped } from '#lib/shop/fields'
import type { FormState } from '../../../form-state'
import { call, formState, typedIn } from '../../../submit'

const id = z.string()

/** Reads what was typed, then calls. */
async function send<T, In, Out>(action: Action<In, Out>, schema: z.ZodType<T>, form: FormData) {
  const typed = readTyped(schema, typedIn(form))
  if (!typed.ok) return formState(typed, form)
  const result = await call(action, typed.value)
  if (result.ok || result.error.code === 'changedMeanwhile') revalidatePath('/builds', 'layout')
  return formState(result, form)
}

const named = z.object({ fromId: id, name: z.string() })

/** Made, and opened, so that its numbers can be changed. */
export async function makeVariant(_: FormState, form: FormData): Promise<FormState> {
  const typed = readTyped(named, typedIn(form))
  if (!typed.ok) return formState(typed, form)
  const made = await call(make, typed.value)
  if (!made.ok) return formState(made, form)
  revalidatePath('/builds', 'layout')
  redirect(`/builds/${String(form.get('buildId'))}/design?variant=${made.value.variantId}`)
}

export const renameVariant = async (_: FormState, form: FormData) =>
  send(rename, z.object({ variantId: id, name: z.string() }), form)

/** From its own page too, which is gone then. */
export async function removeVariant(_: FormState, form: FormData): Promise<FormState> {
  const state = await send(remove, z.object({ variantId: id }), form)
  if (state.ok && form.get('leave')) redirect(`/builds/${String(form.get('buildId'))}/variants`)
  return state
}

export const chooseVariant = async (_: FormState, form: FormData) =>
  send(choose, z.object({ variantId: id, version: hiddenNumber, insteadOfId: id }), form)

export const castVote = async (_: FormState, form: FormData) =>
  send(cast, z.object({ variantId: id, version: hiddenNumber }), form)

export const takeBackVote = async (_: FormState, form: FormData) =>
  send(takeBack, z.object({ buildId: id }), form)

/** Where on which picture; all empty: nowhere in particular. */
const said = z
  .object({
    variantId: id,
    version: hiddenNumber,
    body: noteText('comment', 4000),
    partId: z.string(),
    view: z.string(),
    x: z.string(),
    y: z.string(),
  })
  .transform(({ partId, view, x, y, ...rest }) => ({
    ...rest,
    ...(partId ? { partId } : {}),
    ...(view && x && y ? { place: { view, x: Number(x), y: Number(y) } } : {}),
  }))

export const sayOfVariant = async (_: FormState, form: FormData) => send(addToVariant, said, form)

export const takeBackStill = async (_: FormState, form: FormData) =>
  send(removeStill, z.object({ stillId: id }), form)
