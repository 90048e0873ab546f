'use server'
import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { Action } from '#lib/data/action'
import { changeLot, logHardware, putBack, take } from '#lib/data/hardware'
import { readTyped, wholeNumberText } from '#lib/shop/fields'
import { MOST_IN_A_LOT } from '#lib/shop/hardware'
import type { FormState } from '../form-state'
import { call, formState, typedIn } from '../submit'

const howMany = (min: number) =>
  z.object({ count: wholeNumberText({ what: 'number', min, max: MOST_IN_A_LOT }) })

/** Sends what was typed, with the count as a number. */
async function send<In, Out>(action: Action<In, Out>, form: FormData, min = 1): Promise<FormState> {
  const typed = typedIn(form)
  const counted = readTyped(howMany(min), typed)
  if (!counted.ok) return formState(counted, form)
  const result = await call(action, { ...typed, ...counted.value })
  if (result.ok)
    for (const page of ['/hardware', '/teardowns/[id]', '/builds/[id]']) revalidatePath(page, 'page')
  return formState(result, form)
}

export const hardwareLogged = async (_: FormState, form: FormData) => send(logHardware, form)
export const hardwareTaken = async (_: FormState, form: FormData) => send(take, form)
export const hardwarePutBack = async (_: FormState, form: FormData) => send(putBack, form)
export const lotChanged = async (_: FormState, form: FormData) => send(changeLot, form, 0)
