import 'server-only'
import { z } from 'zod'
import { isZone } from '#lib/core/schedule/zoned-time'
import { MAX_PASSWORD_LENGTH, passwordFault } from '#lib/shop/members'

/** Fields that several inputs have. */
export const personName = z.string().trim().min(1, 'Type a name.').max(80, 'At most 80 characters.')
export const shopName = z
  .string()
  .trim()
  .min(1, 'Type the name of the shop.')
  .max(80, 'At most 80 characters.')
export const email = z
  .string()
  .trim()
  .toLowerCase()
  .max(254, 'At most 254 characters.')
  .pipe(z.email('Type an e-mail address, like name@example.org.'))
/** Judged with the other fields, so that all faults are said at once; that it is not one's own name comes later. */
export const newPassword = z
  .string()
  .min(1, 'Type a password.')
  .max(MAX_PASSWORD_LENGTH * 4, 'That is too long.')
  .superRefine((password, context) => {
    const fault = passwordFault(password)
    if (fault) context.addIssue({ code: 'custom', message: fault })
  })
export const timeZone = z
  .string()
  .max(64)
  .refine(isZone, 'Choose a time zone from the list, like Europe/Berlin.')
export const units = z.enum(['mm', 'in'], 'Choose millimetres or inches.')
export const role = z.enum(['admin', 'keeper', 'member'], 'Choose a role.')
export const token = z.string().min(1).max(200)
export const instant = z.iso.datetime({ offset: true, error: 'Choose a day and a time.' })
export const note = z.string().trim().max(1000, 'At most 1000 characters.').default('')
