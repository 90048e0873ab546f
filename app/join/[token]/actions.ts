'use server'
import { acceptInvite } from '#lib/data/invites'
import type { FormState } from '../../form-state'
import { call, formState } from '../../submit'

export async function joinAction(_: FormState, form: FormData): Promise<FormState> {
  return formState(await call(acceptInvite, Object.fromEntries(form)), form)
}
