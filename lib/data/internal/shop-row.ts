import 'server-only'
import { database } from '../client'
import type { Transaction } from '../transaction'

/** The shop that this installation serves. @throws Error before the first sign-up has made it */
export const shopRow = (tx: Transaction = database()) => tx.shop.findFirstOrThrow()

/** An instant as the shop's clock shows it: «Tue 3 May, 14:00». */
export function sayInstant(timeZone: string): (at: Date) => string {
  const format = new Intl.DateTimeFormat('en-GB', {
    timeZone,
    weekday: 'short',
    day: 'numeric',
    month: 'short',
    hour: '2-digit',
    minute: '2-digit',
  })
  return (at) => format.format(at)
}
