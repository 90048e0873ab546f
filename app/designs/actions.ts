'use server'
import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import { copy, remove, save, share } from '#lib/data/own-designs'
import { takeVersion } from '#lib/data/variants'
import { refusalSentence } from '#lib/shop/refusal'
import type { FormState } from '../form-state'
import { call, formState } from '../submit'

export async function copyDesign(_: FormState, form: FormData): Promise<FormState> {
  const made = await call(copy, { from: form.get('from') ?? '', name: form.get('name') ?? '' })
  if (!made.ok) return formState(made, form)
  revalidatePath('/designs')
  redirect(`/designs/${made.value.designId}`)
}

export type SavedRecipe =
  | { readonly ok: true; readonly version: number }
  | {
      readonly ok: false
      readonly isClash: boolean
      readonly sentence: string
      /** By path in the recipe. */
      readonly fields: Readonly<Record<string, string>>
    }

export async function saveRecipe(input: {
  readonly designId: string
  readonly version: number
  readonly recipe: Recipe
  readonly note: string
}): Promise<SavedRecipe> {
  const saved = await call(save, input)
  if (saved.ok) {
    revalidatePath('/designs', 'layout')
    return { ok: true, version: saved.value.version }
  }
  const { code, fields = {} } = saved.error
  const inRecipe = Object.entries(fields).map(([key, words]) => [key.replace(/^recipe\./, ''), words])
  return {
    ok: false,
    isClash: code === 'changedMeanwhile',
    sentence: refusalSentence(saved.error),
    fields: Object.fromEntries(inRecipe),
  }
}

export async function shareDesign(_: FormState, form: FormData): Promise<FormState> {
  const done = await call(share, { designId: form.get('designId'), sharing: form.get('sharing') })
  if (done.ok) revalidatePath('/designs', 'layout')
  return formState(done, form)
}

export async function removeDesign(_: FormState, form: FormData): Promise<FormState> {
  const done = await call(remove, { designId: form.get('designId') })
  if (!done.ok) return formState(done, form)
  revalidatePath('/designs')
  redirect('/designs')
}

export async function takeNewerVersion(_: FormState, form: FormData): Promise<FormState> {
  const done = await call(takeVersion, {
    variantId: form.get('variantId'),
    version: Number(form.get('version')),
    designId: form.get('designId'),
  })
  if (done.ok) revalidatePath('/builds', 'layout')
  return formState(done, form)
}
