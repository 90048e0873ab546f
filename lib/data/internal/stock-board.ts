import 'server-only'
import type { StockBoard } from '#lib/shop/plan-input'
import type { Prisma } from '../generated/client'

export const STOCK_BOARD = {
  id: true,
  number: true,
  ownerId: true,
  parentId: true,
  lengthUm: true,
  widthUm: true,
  thicknessUm: true,
  species: true,
  terms: true,
  finish: true,
  metal: true,
  lead: true,
  treated: true,
  cupUm: true,
  bowUm: true,
  crookUm: true,
  twistUm: true,
  place: true,
  version: true,
  owner: { select: { name: true } },
  defects: {
    select: { id: true, kind: true, face: true, xUm: true, yUm: true, widthUm: true, heightUm: true },
    orderBy: [{ xUm: 'asc' }, { yUm: 'asc' }, { id: 'asc' }],
  },
  holds: { where: { status: 'live' }, select: { buildId: true, expiresAt: true } },
} satisfies Prisma.BoardSelect

type Row = Prisma.BoardGetPayload<{ select: typeof STOCK_BOARD }>

/** @param now a hold that has run out by then holds nothing */
export function stockBoard(row: Row, now: Date): StockBoard {
  const { owner, parentId, holds, cupUm, bowUm, crookUm, twistUm, ...board } = row
  return {
    ...board,
    ownerName: owner.name,
    isOffcut: parentId !== null,
    warp: { cupUm, bowUm, crookUm, twistUm },
    heldByBuildId: holds.find((h) => h.expiresAt > now)?.buildId ?? null,
  }
}
