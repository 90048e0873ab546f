'use server'
import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { LengthUnit } from '#lib/core/units/inches'
import { changeShop } from '#lib/data/shop'
import { choiceText, lengthText, nameText, readTyped, unitsText, wholeNumberText } from '#lib/shop/fields'
import type { FormState } from '../form-state'
import { call, formState, typedIn } from '../submit'

const shopTyped = (units: LengthUnit) =>
  z.object({
    name: nameText('name of the shop', 80),
    timeZone: nameText('time zone', 64),
    units: choiceText(['mm', 'in'], 'Choose millimetres or inches.'),
    currency: nameText('currency', 3),
    holdHours: wholeNumberText({ what: 'hours that a hold lasts', min: 1, max: 2160 }),
    lengthAllowanceUm: lengthText({ units, what: 'allowance in length', maxUm: 100_000 }),
    widthAllowanceUm: lengthText({ units, what: 'allowance in width', maxUm: 100_000 }),
    skimUm: lengthText({ units, what: 'skim of a face', maxUm: 10_000 }),
    endTrimUm: lengthText({ units, what: 'trim of an end', maxUm: 200_000 }),
  })

export async function shopAction(_: FormState, form: FormData): Promise<FormState> {
  const typed = typedIn(form)
  const read = readTyped(shopTyped(unitsText.catch('mm').parse(typed.shownIn)), typed)
  if (!read.ok) return formState(read, form)
  const result = await call(changeShop, { ...read.value, currency: read.value.currency.toUpperCase() })
  if (result.ok) revalidatePath('/', 'layout')
  return formState(result, form)
}
