/** The stock ledger, read only: it is written in the transactions of the changes that it tells of. */
import 'server-only'
import { z } from 'zod'
import { ok } from '#lib/core/units/result'
import type { StockEventKind } from '#lib/shop/ledger-words'
import { id, query } from './action'
import { database } from './client'

const AT_A_TIME = 50

/** What happened to a board, the latest first. @returns `before`: ask with it for what was earlier, null at the end */
export const historyOfBoard = query({
  audience: 'member',
  shared: true,
  input: z.object({
    boardId: id,
    before: z
      .string()
      .regex(/^\d{1,18}$/)
      .optional(),
  }),
  run: async (_actor, { boardId, before }) => {
    const rows = await database().stockEvent.findMany({
      where: { boardId, ...(before ? { id: { lt: BigInt(before) } } : {}) },
      select: {
        id: true,
        at: true,
        kind: true,
        detail: true,
        buildId: true,
        member: { select: { name: true } },
        build: { select: { name: true } },
      },
      orderBy: { id: 'desc' },
      take: AT_A_TIME + 1,
    })
    const shown = rows.slice(0, AT_A_TIME)
    return ok({
      events: shown.map((e) => ({
        id: String(e.id),
        at: e.at,
        kind: e.kind as StockEventKind,
        memberName: e.member?.name ?? null,
        buildId: e.buildId,
        buildName: e.build?.name ?? null,
        detail: e.detail as unknown,
      })),
      before: rows.length > AT_A_TIME ? String(shown.at(-1)!.id) : null,
    })
  },
})
