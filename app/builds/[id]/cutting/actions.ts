'use server'
import { revalidatePath } from 'next/cache'
import { redirect } from 'next/navigation'
import { err, type Result } from '#lib/core/units/result'
import { ask, cancel } from '#lib/data/cut-plans'
import { recordCut } from '#lib/data/cutting'
import { extend, hold, release } from '#lib/data/holds'
import type { OrderOfCuts } from '#lib/shop/plan-input'
import type { Refusal } from '#lib/shop/refusal'
import type { FormState } from '../../../form-state'
import { call, formState, typedIn } from '../../../submit'
import { boardAtField, readRecord } from './record-fields'

const text = (form: FormData, name: string) => String(form.get(name) ?? '')

/** As the field of the form says it; anything else: any order. */
const ORDERS: Record<string, OrderOfCuts | undefined> = {
  crosscut2: { firstCut: 'crosscut', stages: 2 },
  crosscut3: { firstCut: 'crosscut', stages: 3 },
  rip2: { firstCut: 'rip', stages: 2 },
  rip3: { firstCut: 'rip', stages: 3 },
}

function answer<T>(result: Result<T, Refusal>, form: FormData): FormState {
  revalidatePath(`/builds/${text(form, 'buildId')}`, 'layout')
  return formState(result, form)
}

export async function askForPlan(_: FormState, form: FormData): Promise<FormState> {
  const input = {
    buildId: text(form, 'buildId'),
    seconds: Number(text(form, 'seconds')),
    gluedUp: form.getAll('gluedUp').map(String),
    order: ORDERS[text(form, 'order')],
  }
  return answer(await call(ask, input), form)
}

export const stopPlan = async (_: FormState, form: FormData) =>
  answer(await call(cancel, { planId: text(form, 'planId') }), form)

/** `boards`: ids with the versions that were shown. */
export async function holdBoards(_: FormState, form: FormData): Promise<FormState> {
  const boards = text(form, 'boards')
    .split(',')
    .map((at) => ({ boardId: at.split('@')[0], version: Number(at.split('@')[1]) }))
  const result = await call(hold, { buildId: text(form, 'buildId'), boards })
  // The sentence tells of every board already.
  return answer(result.ok ? result : err({ ...result.error, fields: undefined }), form)
}

export const letGo = async (_: FormState, form: FormData) =>
  answer(await call(release, { holdId: text(form, 'holdId') }), form)

export const holdLonger = async (_: FormState, form: FormData) =>
  answer(await call(extend, { holdId: text(form, 'holdId') }), form)

export async function recordCutting(_: FormState, form: FormData): Promise<FormState> {
  const read = readRecord(typedIn(form))
  if (!read.ok) return formState(read, form)
  const result = await call(recordCut, read.value.input)
  if (!result.ok) return formState(err(boardAtField(result.error, read.value.rows)), form)
  revalidatePath('/', 'layout')
  redirect(`/builds/${text(form, 'buildId')}/cutting`)
}
