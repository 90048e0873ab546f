'use server'
import { startShop } from '#lib/data/shop'
import type { FormState } from '../form-state'
import { call, formState } from '../submit'

export async function startAction(_: FormState, form: FormData): Promise<FormState> {
  return formState(await call(startShop, Object.fromEntries(form)), form)
}
