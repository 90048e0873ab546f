'use server'
import { revalidatePath } from 'next/cache'
import { ask } from '#lib/data/plans-together'
import type { FormState } from '../../../../form-state'
import { call, formState } from '../../../../submit'

export async function askTogether(_: FormState, form: FormData): Promise<FormState> {
  const text = (name: string) => String(form.get(name) ?? '')
  const others = form.getAll('others').map((at) => ({
    buildId: String(at),
    priority: text(`priority.${String(at)}`) || 'even',
  }))
  const input = {
    buildId: text('buildId'),
    priority: text('priority') || 'even',
    others,
    seconds: Number(text('seconds')),
  }
  const result = await call(ask, input)
  revalidatePath(`/builds/${text('buildId')}`, 'layout')
  return formState(result, form)
}
