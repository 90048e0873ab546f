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

/** A plan that waits is taken back; one that is being worked out is asked to stop. */
async function stopPlans(tx: Transaction, buildId: string, now: Date): Promise<void> {
  await tx.cutPlan.updateMany({
    where: { buildId, status: 'queued' },
    data: { status: 'cancelled', cancelAskedAt: now, finishedAt: now },
  })
  await tx.cutPlan.updateMany({
    where: { buildId, status: 'running', cancelAskedAt: null },
    data: { cancelAskedAt: now },
  })
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
