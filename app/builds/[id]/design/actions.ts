'use server'
import { revalidatePath } from 'next/cache'
import type { ParameterValues } from '#lib/core/design/model'
import { save } from '#lib/data/variants'
import { type RefusalCode, refusalSentence } from '#lib/shop/refusal'
import { call } from '../../../submit'

export type Saved =
  | { readonly ok: true; readonly version: number }
  | {
      readonly ok: false
      readonly code: RefusalCode
      readonly sentence: string
      readonly fields: Readonly<Record<string, string>>
    }

export async function saveDesign(input: {
  readonly variantId: string
  readonly version: number
  readonly parameters: ParameterValues
}): Promise<Saved> {
  const result = await call(save, input)
  if (result.ok || result.error.code === 'changedMeanwhile') revalidatePath('/builds', 'layout')
  if (result.ok) return { ok: true, version: result.value.version }
  const { code, fields = {} } = result.error
  return { ok: false, code, sentence: refusalSentence(result.error), fields }
}
