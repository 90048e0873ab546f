'use server'
import { revalidatePath } from 'next/cache'
import { z } from 'zod'
import type { LengthUnit } from '#lib/core/units/inches'
import { err, ok } from '#lib/core/units/result'
import { changeShop } from '#lib/data/shop'
import { readMoney } from '#lib/format/money'
import {
  choiceText,
  lengthText,
  nameText,
  noteText,
  readTyped,
  unitsText,
  wholeNumberText,
} from '#lib/shop/fields'
import { refusal } from '#lib/shop/refusal'
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
    softwoodPerM3: noteText('price', 20),
    hardwoodPerM3: noteText('price', 20),
  })

/** Prices as typed, in the currency that stands in the same form; empty: none. */
function readPrices(
  typed: { readonly softwoodPerM3: string; readonly hardwoodPerM3: string },
  currency: string,
) {
  const fields: Record<string, string> = {}
  const read = (name: 'softwoodPerM3' | 'hardwoodPerM3'): number | null => {
    if (typed[name] === '') return null
    const amount = /^[A-Z]{3}$/.test(currency) ? readMoney(typed[name], currency) : null
    if (!amount) fields[name] = 'Write the price as a number, like 650 or 649.50.'
    return amount?.minor ?? null
  }
  const prices = { softwoodPerM3Minor: read('softwoodPerM3'), hardwoodPerM3Minor: read('hardwoodPerM3') }
  return Object.keys(fields).length > 0 ? err(refusal('badInput', { fields })) : ok(prices)
}

export async function shopAction(_: FormState, form: FormData): Promise<FormState> {
  const typed = typedIn(form)
  const read = readTyped(shopTyped(unitsText.catch('mm').parse(typed.shownIn)), typed)
  if (!read.ok) return formState(read, form)
  const { softwoodPerM3, hardwoodPerM3, ...rest } = read.value
  const currency = rest.currency.toUpperCase()
  const prices = readPrices({ softwoodPerM3, hardwoodPerM3 }, currency)
  if (!prices.ok) return formState(prices, form)
  const result = await call(changeShop, { ...rest, ...prices.value, currency })
  if (result.ok) revalidatePath('/', 'layout')
  return formState(result, form)
}
