'use server'
import { revalidatePath } from 'next/cache'
import { cancelBooking, decideBooking } from '#lib/data/bookings'
import type { FormState } from '../form-state'
import { call, formState } from '../submit'

export async function decideAction(_: FormState, form: FormData): Promise<FormState> {
  const approve = form.get('approve') === 'yes'
  const result = await call(decideBooking, { ...Object.fromEntries(form), approve })
  revalidatePath('/', 'layout')
  return formState(result, form)
}

export async function cancelBookingAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(cancelBooking, Object.fromEntries(form))
  if (result.ok) revalidatePath('/', 'layout')
  return formState(result, form)
}
