/**
 * The facts that a build's stage is told from, for any number of builds at once: a fixed number of queries, however
 * many builds. Rules: lib/shop/build-stage.ts. Tests: tests/data/build-facts.test.ts
 */
import 'server-only'
import type { ParameterValues } from '#lib/core/design/model'
import type { BuildFacts } from '#lib/shop/build-stage'
import { waitState } from '#lib/shop/waits'
import { database } from '../client'
import type { Prisma } from '../generated/client'
import { fetchDesigns } from './designs'
import { designText, modelParts } from './model-parts'

const FACT_ROW = {
  id: true,
  finishedAt: true,
  abandonedAt: true,
  variants: {
    where: { chosen: true },
    select: { designId: true, parameters: true, version: true },
  },
  partsMade: { where: { setAsideAt: null }, select: { partId: true } },
  bookings: {
    where: { status: { in: ['requested', 'approved'] } },
    select: {
      status: true,
      startAt: true,
      endAt: true,
      station: { select: { name: true, keeper: { select: { name: true } } } },
    },
    orderBy: { startAt: 'asc' },
  },
  waits: { select: { label: true, readyAt: true, clearedAt: true }, orderBy: { readyAt: 'asc' } },
} satisfies Prisma.BuildSelect

type FactRow = Prisma.BuildGetPayload<{ select: typeof FACT_ROW }>

const factRows = (buildIds: readonly string[]) =>
  database().build.findMany({ where: { id: { in: [...buildIds] } }, select: FACT_ROW })

interface Answer {
  readonly buildId: string
  readonly status: string
  readonly hasResult: boolean
  readonly design: { designId: string; designVersion: number; parameters: ParameterValues }
  /** Parts asked of the plan, and parts that it places. */
  readonly wanted: number
  readonly placed: number
  readonly planned: number
  readonly cut: number
  readonly held: number
  readonly asked: number
  readonly changed: number
  readonly askedOwners: string[]
}

/** The newest plan of each build, and how its boards stand now. Each board counts once. */
const answers = (buildIds: readonly string[], now: Date) => database().$queryRaw<Answer[]>`
  with answer as (
    select distinct on ("buildId") "id", "buildId", "status", "input", "result" from "CutPlan"
    where "buildId" = any(${[...buildIds]}::uuid[]) and not "isTogether"
    order by "buildId", "createdAt" desc, "id"
  ), planned as (
    select distinct a."buildId", (p.b ->> 'id')::uuid as "boardId", (p.b ->> 'version')::int as version
    from answer a
    cross join lateral jsonb_array_elements(a."result" -> 'plan' -> 'layouts') l
    cross join lateral (select a."input" -> 'boards' -> ((l ->> 'board')::int) as b) p
  ), standing as (
    select p."buildId", case
        when c."id" is not null then 'cut'
        when b."status" <> 'inPool' or b."version" <> p.version
          or (live."id" is not null and live."buildId" <> p."buildId") then 'changed'
        when live."id" is not null then 'held'
        when asked."id" is not null then 'asked'
        else 'free' end as stands, owner."name" as owner
    from planned p
    join "Board" b on b."id" = p."boardId"
    join "Member" owner on owner."id" = b."ownerId"
    left join "BoardCut" c on c."boardId" = b."id" and c."buildId" = p."buildId"
    left join "Hold" live on live."boardId" = b."id" and live."status" = 'live' and live."expiresAt" > ${now}
    left join "Hold" asked on asked."boardId" = b."id" and asked."buildId" = p."buildId"
      and asked."status" = 'requested' and asked."expiresAt" > ${now}
  ), counted as (
    select "buildId", count(*)::int as planned,
      count(*) filter (where stands = 'cut')::int as cut,
      count(*) filter (where stands = 'held')::int as held,
      count(*) filter (where stands = 'asked')::int as asked,
      count(*) filter (where stands = 'changed')::int as changed,
      array_agg(distinct owner) filter (where stands = 'asked') as owners
    from standing group by "buildId"
  )
  select a."buildId", a."status"::text as status, a."result" is not null as "hasResult",
    a."input" -> 'design' as design,
    (select coalesce(sum(jsonb_array_length(n -> 'partIds')), 0)::int
      from jsonb_array_elements(a."input" -> 'needs') n) as wanted,
    (select count(distinct split_part(t.piece, '~', 1))::int
      from jsonb_array_elements(a."result" -> 'partIds') p
      cross join lateral jsonb_array_elements_text(p) t(piece)) as placed,
    coalesce(c.planned, 0) as planned, coalesce(c.cut, 0) as cut, coalesce(c.held, 0) as held,
    coalesce(c.asked, 0) as asked, coalesce(c.changed, 0) as changed,
    coalesce(c.owners, '{}') as "askedOwners"
  from answer a left join counted c using ("buildId")`

const NO_BOARDS = { planned: 0, cut: 0, held: 0, asked: 0, changed: 0 }

function planState(answer: Answer | undefined, text: string | undefined): BuildFacts['plan'] {
  if (!answer) return 'none'
  if (answer.status === 'queued' || answer.status === 'running') return 'working'
  if (!answer.hasResult) return 'failed'
  const { designId, designVersion, parameters } = answer.design
  return designText(designId, designVersion, parameters) === text ? 'ready' : 'stale'
}

function bookingFacts(rows: FactRow['bookings'], now: Date) {
  const live = rows.filter((b) => b.endAt > now)
  const approved = live.filter((b) => b.status === 'approved')
  const asked = live.filter((b) => b.status === 'requested')
  const [next] = approved
  return {
    bookings: {
      approved: approved.length,
      asked: asked.length,
      past: rows.filter((b) => b.status === 'approved' && b.endAt <= now).length,
      next: next
        ? { station: next.station.name, startAt: next.startAt, hasBegun: next.startAt <= now }
        : null,
    },
    askedKeepers: [...new Set(asked.map((b) => b.station.keeper.name))],
  }
}

function waitFacts(rows: FactRow['waits'], now: Date): BuildFacts['waits'] {
  const as = (state: string) => rows.filter((w) => waitState(w, now) === state)
  return {
    running: as('running').map(({ label, readyAt }) => ({ label, readyAt })),
    ready: as('ready').map((w) => w.label),
    cleared: as('cleared').length,
  }
}

async function factsOf(row: FactRow, answer: Answer | undefined, now: Date): Promise<BuildFacts> {
  const [variant] = row.variants
  const model = variant && (await modelParts(variant.designId, variant.parameters))
  const made = new Set(row.partsMade.map((p) => p.partId))
  const { planned, cut, held, asked, changed } = answer ?? NO_BOARDS
  return {
    state: row.finishedAt ? 'finished' : row.abandonedAt ? 'givenUp' : 'open',
    design: !variant ? 'none' : !model ? 'refused' : variant.version === 1 ? 'untouched' : 'saved',
    plan: planState(answer, model?.text),
    parts: {
      total: model?.partIds.length ?? 0,
      made: model?.partIds.filter((p) => made.has(p)).length ?? 0,
      short: answer?.hasResult ? answer.wanted - answer.placed : 0,
    },
    boards: { planned, cut, held, asked, changed },
    askedOwners: answer?.askedOwners ?? [],
    ...bookingFacts(row.bookings, now),
    waits: waitFacts(row.waits, now),
  }
}

/** @returns facts by build id, for those that are there */
export async function buildFacts(buildIds: readonly string[], now: Date): Promise<Map<string, BuildFacts>> {
  if (buildIds.length === 0) return new Map()
  const [rows, found] = await Promise.all([factRows(buildIds), answers(buildIds, now)])
  const answerOf = new Map(found.map((a) => [a.buildId, a]))
  await fetchDesigns(rows.flatMap((r) => r.variants.map((v) => v.designId)))
  const all = rows.map(async (r) => [r.id, await factsOf(r, answerOf.get(r.id), now)] as const)
  return new Map(await Promise.all(all))
}
