import 'server-only'
import { announce, type Transaction } from '../transaction'
import { releaseHoldsOfBuild } from './hold-life'

/** Bookings for the build that have not begun are given up; one that is running stays. */
async function cancelBookings(
  tx: Transaction,
  buildId: string,
  decidedById: string,
  now: Date,
): Promise<number> {
  const ended = await tx.booking.updateManyAndReturn({
    where: { buildId, status: { in: ['requested', 'approved'] }, startAt: { gt: now } },
    data: { status: 'cancelled', decidedById, decidedAt: now, decisionNote: 'The build has ended.' },
    select: { stationId: true, memberId: true, station: { select: { keeperId: true } } },
  })
  const topics = ended.flatMap((b) => [
    `station:${b.stationId}`,
    `member:${b.station.keeperId}`,
    `member:${b.memberId}`,
  ])
  for (const topic of new Set(topics)) await announce(tx, topic)
  return ended.length
}

/**
 * A plan that waits is taken back; one that is being worked out is asked to stop.
 * @param but plans of this variant go on
 * @returns how many
 */
export async function stopPlans(
  tx: Transaction,
  buildId: string,
  now: Date,
  but?: { readonly variantId: string },
): Promise<number> {
  const others = but ? { variantId: { not: but.variantId } } : {}
  const ids = { id: true } as const
  const waiting = await tx.cutPlan.updateManyAndReturn({
    where: { buildId, status: 'queued', ...others },
    data: { status: 'cancelled', cancelAskedAt: now, finishedAt: now },
    select: ids,
  })
  const running = await tx.cutPlan.updateManyAndReturn({
    where: { buildId, status: 'running', cancelAskedAt: null, ...others },
    data: { cancelAskedAt: now },
    select: ids,
  })
  for (const { id } of [...waiting, ...running]) await announce(tx, `plan:${id}`)
  return waiting.length + running.length
}

/** What a build leaves to others when it ends: its boards, its bookings, the computer. The build is locked. */
export async function settleBuild(
  tx: Transaction,
  buildId: string,
  actorId: string,
  now: Date,
): Promise<{ released: number; cancelled: number }> {
  const released = await releaseHoldsOfBuild(tx, buildId, actorId)
  const cancelled = await cancelBookings(tx, buildId, actorId, now)
  await stopPlans(tx, buildId, now)
  return { released, cancelled }
}
