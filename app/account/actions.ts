'use server'
import { revalidatePath } from 'next/cache'
import { changeMySettings, changePassword, newCalendarLink, signOutEverywhere } from '#lib/data/account'
import type { FormState } from '../form-state'
import { call, formState } from '../submit'

export async function settingsAction(_: FormState, form: FormData): Promise<FormState> {
  const units = form.get('units') === 'shop' ? null : form.get('units')
  const result = await call(changeMySettings, { name: form.get('name'), units })
  if (result.ok) revalidatePath('/', 'layout')
  return formState(result, form)
}

export async function passwordAction(_: FormState, form: FormData): Promise<FormState> {
  return formState(await call(changePassword, Object.fromEntries(form)), form)
}

export async function calendarAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(newCalendarLink, {})
  if (result.ok) revalidatePath('/account')
  return formState(result, form)
}

export async function everywhereAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(signOutEverywhere, {})
  if (result.ok) revalidatePath('/', 'layout')
  return formState(result, form)
}
