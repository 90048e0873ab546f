'use server'
import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { askForBooking } from '#lib/data/bookings'
import { shopSettings } from '#lib/data/shop'
import {
  createStation,
  editStation,
  giveInduction,
  retireStation,
  revokeInduction,
  tuneStation,
} from '#lib/data/stations'
import { readTyped } from '#lib/shop/fields'
import type { FormState } from '../form-state'
import { call, formState, typedIn } from '../submit'
import { asBookingFields, bookingTyped, stationTyped, tuningTyped } from './typed'

export async function bookAction(_: FormState, form: FormData): Promise<FormState> {
  const shop = await call(shopSettings, {})
  if (!shop.ok) return formState(shop, form)
  const read = readTyped(bookingTyped(shop.value.timeZone), typedIn(form))
  if (!read.ok) return formState(read, form)
  const result = await call(askForBooking, read.value)
  if (!result.ok) return formState(asBookingFields(result), form)
  revalidatePath('/stations', 'layout')
  redirect(`/bookings?new=${result.value.bookingId}`)
}

export async function createStationAction(_: FormState, form: FormData): Promise<FormState> {
  const read = readTyped(stationTyped(form), typedIn(form))
  if (!read.ok) return formState(read, form)
  const result = await call(createStation, read.value)
  if (!result.ok) return formState(result, form)
  revalidatePath('/stations', 'layout')
  redirect(`/stations/${result.value.stationId}`)
}

export async function editStationAction(_: FormState, form: FormData): Promise<FormState> {
  const read = readTyped(stationTyped(form), typedIn(form))
  if (!read.ok) return formState(read, form)
  const stationId = form.get('stationId')
  const result = await call(editStation, { ...read.value, stationId })
  if (!result.ok) return formState(result, form)
  revalidatePath('/stations', 'layout')
  redirect(`/stations/${stationId}`)
}

export async function tuneStationAction(_: FormState, form: FormData): Promise<FormState> {
  const read = readTyped(tuningTyped(form), typedIn(form))
  if (!read.ok) return formState(read, form)
  const stationId = form.get('stationId')
  const result = await call(tuneStation, { ...read.value, stationId })
  if (!result.ok) return formState(result, form)
  revalidatePath('/stations', 'layout')
  redirect(`/stations/${stationId}`)
}

export async function retireStationAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(retireStation, Object.fromEntries(form))
  if (!result.ok) return formState(result, form)
  revalidatePath('/stations', 'layout')
  redirect('/stations')
}

export async function giveInductionAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(giveInduction, Object.fromEntries(form))
  if (result.ok) revalidatePath('/stations', 'layout')
  return formState(result, form)
}

export async function revokeInductionAction(_: FormState, form: FormData): Promise<FormState> {
  const result = await call(revokeInduction, Object.fromEntries(form))
  if (result.ok) revalidatePath('/stations', 'layout')
  return formState(result, form)
}
