import 'server-only'
import type { Prisma } from '../generated/client'

/** A board as lists show it: what it measures, its marks, whose it is, who holds it now. */
export const BOARD_BRIEF = {
  id: true,
  number: true,
  ownerId: true,
  parentId: true,
  lengthUm: true,
  widthUm: true,
  thicknessUm: true,
  species: true,
  terms: true,
  status: true,
  finish: true,
  metal: true,
  lead: true,
  treated: true,
  place: true,
  version: true,
  owner: { select: { name: true } },
  defects: {
    select: { id: true, kind: true, face: true, xUm: true, yUm: true, widthUm: true, heightUm: true },
    orderBy: [{ xUm: 'asc' }, { yUm: 'asc' }, { id: 'asc' }],
  },
  holds: {
    where: { status: 'live' },
    select: {
      buildId: true,
      memberId: true,
      expiresAt: true,
      member: { select: { name: true } },
      build: { select: { name: true } },
    },
  },
} satisfies Prisma.BoardSelect

type Row = Prisma.BoardGetPayload<{ select: typeof BOARD_BRIEF }>

/** @param now a hold that has run out by then holds nothing */
export function boardBrief(row: Row, now: Date) {
  const { owner, parentId, holds, ...board } = row
  const live = holds.find((h) => h.expiresAt > now)
  return {
    ...board,
    ownerName: owner.name,
    isOffcut: parentId !== null,
    hold: live
      ? {
          buildId: live.buildId,
          buildName: live.build.name,
          memberId: live.memberId,
          memberName: live.member.name,
          expiresAt: live.expiresAt,
        }
      : null,
  }
}
export type BoardBrief = ReturnType<typeof boardBrief>
