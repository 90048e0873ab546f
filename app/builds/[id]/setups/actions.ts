'use server'
import { revalidatePath } from 'next/cache'
import { tick } from '#lib/data/setups'
import type { FormState } from '../../../form-state'
import { call, formState } from '../../../submit'

/** Ticks cuts off, or takes the ticks back. */
export async function tickCuts(_: FormState, form: FormData): Promise<FormState> {
  const keys = form.getAll('key').map(String)
  const result = await call(tick, { planId: form.get('planId'), keys, done: form.get('done') === 'true' })
  if (result.ok) revalidatePath('/builds', 'layout')
  return formState(result, form)
}
