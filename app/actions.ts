'use server'
import { revalidatePath } from 'next/cache'
import { decideBooking } from '#lib/data/bookings'
import { decide } from '#lib/data/holds'
import { clear } from '#lib/data/waits'
import type { FormState } from './form-state'
import { call, formState } from './submit'

/** One tap: yes or no to who asks for a board of mine. */
export async function answerHold(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(decide, { holdId: form.get('holdId'), yes: form.get('answer') === 'yes' })
  revalidatePath('/', 'layout')
  return formState(result, form)
}

/** One tap: yes or no to who asks for a station that I keep. */
export async function answerBooking(_: FormState, form: FormData): Promise<FormState> {
  const approve = form.get('answer') === 'yes'
  const result = await call(decideBooking, { bookingId: form.get('bookingId'), approve })
  revalidatePath('/', 'layout')
  return formState(result, form)
}

export async function clearDry(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(clear, { waitId: form.get('waitId') })
  revalidatePath('/', 'layout')
  return formState(result, form)
}
