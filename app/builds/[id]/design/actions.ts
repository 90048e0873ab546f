'use server'
import { revalidatePath } from 'next/cache'
import type { ParameterValues } from '#lib/core/design/model'
import { make, save } from '#lib/data/variants'
import { type RefusalCode, refusalSentence } from '#lib/shop/refusal'
import type { FormState } from '../../../form-state'
import { call, formState } from '../../../submit'

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

/** `parameters`: JSON, read and judged by what keeps it. */
export async function keepAsVariant(_: FormState, form: FormData): Promise<FormState> {
  const text = String(form.get('parameters') ?? '')
  const parameters = readJson(text)
  const result = await call(make, { fromId: form.get('fromId'), name: form.get('name'), parameters })
  if (result.ok) revalidatePath('/builds', 'layout')
  return formState(result, form)
}

/** Null, which nothing takes for parameters, where it is no JSON. */
function readJson(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return null
  }
}
