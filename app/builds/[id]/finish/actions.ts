'use server'
import { revalidatePath } from 'next/cache'
import type { FinishPlan } from '#lib/core/finish/finish-plan'
import { save } from '#lib/data/finish-plans'
import { refusalSentence } from '#lib/shop/refusal'
import { call } from '../../../submit'

export type Kept =
  | { readonly ok: true; readonly version: number }
  | { readonly ok: false; readonly sentence: string }

export async function keepFinishPlan(input: {
  readonly variantId: string
  readonly version: number
  readonly plan: FinishPlan
}): Promise<Kept> {
  const result = await call(save, input)
  if (result.ok || result.error.code === 'changedMeanwhile') revalidatePath('/builds', 'layout')
  if (result.ok) return { ok: true, version: result.value.version }
  return { ok: false, sentence: refusalSentence(result.error) }
}
