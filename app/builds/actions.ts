'use server'
import { redirect } from 'next/navigation'
import { start } from '#lib/data/builds'
import type { FormState } from '../form-state'
import { call, formState } from '../submit'

export async function startBuild(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(start, { name: form.get('name') ?? '', designId: form.get('designId') ?? '' })
  if (!result.ok) return formState(result, form)
  redirect(`/builds/${result.value.buildId}/design`)
}
