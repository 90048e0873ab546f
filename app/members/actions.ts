'use server'
import { revalidatePath } from 'next/cache'
import type { Result } from '#lib/core/units/result'
import { invite, passwordLink, revokeInvite } from '#lib/data/invites'
import { changeRole, removeMember } from '#lib/data/members'
import type { Refusal } from '#lib/shop/refusal'
import { baseUrl } from '../address'
import type { FormState } from '../form-state'
import { call, formState } from '../submit'

/** The link is in this answer and nowhere else. */
export interface LinkState extends FormState {
  readonly link?: string
}

async function withLink(result: Result<{ token: string }, Refusal>, form: FormData): Promise<LinkState> {
  if (!result.ok) return formState(result, form)
  revalidatePath('/members')
  return { ...formState(result, form), link: `${await baseUrl()}/join/${result.value.token}` }
}

export async function inviteAction(_: FormState, form: FormData): Promise<LinkState> {
  return withLink(await call(invite, Object.fromEntries(form)), form)
}

export async function passwordLinkAction(_: FormState, form: FormData): Promise<LinkState> {
  return withLink(await call(passwordLink, Object.fromEntries(form)), form)
}

export async function revokeInviteAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(revokeInvite, Object.fromEntries(form))
  revalidatePath('/members')
  return formState(result, form)
}

export async function changeRoleAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(changeRole, Object.fromEntries(form))
  if (result.ok) revalidatePath('/members')
  return formState(result, form)
}

export async function removeMemberAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(removeMember, Object.fromEntries(form))
  if (result.ok) revalidatePath('/members')
  return formState(result, form)
}
