import 'server-only'
import { z } from 'zod'
import { hashPassword } from '#lib/auth/password'
import { err, ok } from '#lib/core/units/result'
import { passwordFault } from '#lib/shop/members'
import { refusal } from '#lib/shop/refusal'
import { action, nothing, query } from './action'
import { database } from './client'
import { email, newPassword, personName, shopName, timeZone, units } from './internal/fields'
import { randomToken } from './internal/tokens'
import { announce, transact } from './transaction'

/** Whether the shop has its first member. Before that, whoever comes first makes it. */
export const isStarted = query({
  audience: 'anyone',
  input: nothing,
  run: async () => ok((await database().member.count()) > 0),
})

const currency = z.string().regex(/^[A-Z]{3}$/, 'Three letters, like EUR (ISO 4217).')

/** The first sign-up: the shop and its first admin, together or not at all. */
export const startShop = action({
  audience: 'anyone',
  input: z.object({
    shopName,
    timeZone,
    units,
    currency: currency.default('EUR'),
    name: personName,
    email,
    password: newPassword,
  }),
  run: async (_, input) => {
    const started = refusal('alreadyStarted')
    const fault = passwordFault(input.password, input)
    if (fault) return err(refusal('badInput', { fields: { password: fault } }))
    if ((await database().member.count()) > 0) return err(started)
    const passwordHash = await hashPassword(input.password)
    return transact(
      async (tx) => {
        const { shopName: name, timeZone, units, currency } = input
        // Two at once: the second waits here for the first, and clashes when it commits.
        await tx.shop.create({ data: { id: 1, name, timeZone, units, currency } })
        const { id } = await tx.member.create({
          data: {
            name: input.name,
            email: input.email,
            passwordHash,
            role: 'admin',
            calendarToken: randomToken(),
          },
        })
        return ok({ memberId: id })
      },
      { Shop_pkey: started, Member_email_key: started },
    )
  },
})

/** What everyone may know of the shop: name, clock, units, currency, allowances, how long holds last. */
export const shopSettings = query({
  audience: 'member',
  shared: true,
  input: nothing,
  run: async () => {
    const { id: _, createdAt: __, ...settings } = await database().shop.findFirstOrThrow()
    return ok(settings)
  },
})

const um = (most: number, sentence: string) => z.int(sentence).min(0, sentence).max(most, sentence)

/** Of sawn wood, in minor units; null: not said, so nothing is reckoned with it. Absent: as it is. */
const pricePerM3 = z
  .int('Enter an amount.')
  .min(0, 'Not below nothing.')
  .max(1_000_000_000, 'No wood costs so much.')
  .nullable()
  .optional()

export const changeShop = action({
  audience: 'admin',
  shared: true,
  input: z.object({
    name: shopName,
    timeZone,
    units,
    currency,
    holdHours: z.int('Whole hours.').min(1, 'At least an hour.').max(2160, 'At most 90 days: 2160 hours.'),
    lengthAllowanceUm: um(100_000, 'Between 0 and 100 mm.'),
    widthAllowanceUm: um(100_000, 'Between 0 and 100 mm.'),
    skimUm: um(10_000, 'Between 0 and 10 mm.'),
    endTrimUm: um(200_000, 'Between 0 and 200 mm.'),
    softwoodPerM3Minor: pricePerM3,
    hardwoodPerM3Minor: pricePerM3,
  }),
  run: (_, data) =>
    transact(async (tx) => {
      await tx.shop.update({ where: { id: 1 }, data })
      await announce(tx, 'shop')
      return ok(null)
    }),
})
