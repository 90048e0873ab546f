/**
 * The pool: every board that the shop has, found by species, size, terms, owner and whether it is free now, in pages,
 * with sums by owner and by species. One condition is written once, in SQL, for the page, the count and the sums.
 * Cost at 2,000 boards: three statements, a few ms each. Tests: tests/data/pool.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { ok } from '#lib/core/units/result'
import { isSpeciesId, SPECIES } from '#lib/core/wood/species'
import { TERMS } from '#lib/shop/sharing'
import { id, query } from './action'
import { database } from './client'
import { Prisma } from './generated/client'
import { BOARD_BRIEF, boardBrief } from './internal/board-brief'

const PAGE_SIZE = 50
const MAX_UM = 100_000_000
const least = z.int().min(0).max(MAX_UM).optional()

const wanted = z.object({
  state: z.enum(['inPool', 'cut', 'removed']).default('inPool'),
  ownerId: id.optional(),
  /** A species, or `hardwood` or `softwood` for all of the class. */
  species: z
    .string()
    .max(40)
    .refine((s) => s === 'hardwood' || s === 'softwood' || isSpeciesId(s), 'Choose a species from the list.')
    .optional(),
  minLengthUm: least,
  minWidthUm: least,
  minThicknessUm: least,
  terms: z.enum(TERMS, 'Choose terms from the list.').optional(),
  freeNow: z.boolean().default(false),
  /** The number chalked on it. */
  number: z.int().min(1).max(2_147_483_647).optional(),
  page: z.int().min(1).max(100_000).default(1),
})
type Wanted = z.infer<typeof wanted>

const speciesOf = (wish: string): string[] =>
  wish === 'hardwood' || wish === 'softwood'
    ? SPECIES.filter((s) => s.kind === wish).map((s) => s.id)
    : [wish]

function condition(w: Wanted, now: Date): Prisma.Sql {
  const parts = [Prisma.sql`b."status" = ${w.state}::"BoardStatus"`]
  if (w.ownerId) parts.push(Prisma.sql`b."ownerId" = ${w.ownerId}::uuid`)
  if (w.species) parts.push(Prisma.sql`b."species" = any(${speciesOf(w.species)})`)
  if (w.minLengthUm) parts.push(Prisma.sql`b."lengthUm" >= ${w.minLengthUm}`)
  if (w.minWidthUm) parts.push(Prisma.sql`b."widthUm" >= ${w.minWidthUm}`)
  if (w.minThicknessUm) parts.push(Prisma.sql`b."thicknessUm" >= ${w.minThicknessUm}`)
  if (w.terms) parts.push(Prisma.sql`b."terms" = ${w.terms}::"SharingTerms"`)
  if (w.number) parts.push(Prisma.sql`b."number" = ${w.number}`)
  if (w.freeNow)
    parts.push(Prisma.sql`not exists (
      select 1 from "Hold" h where h."boardId" = b."id" and h."status" = 'live' and h."expiresAt" > ${now})`)
  return Prisma.join(parts, ' and ')
}

interface SumRow {
  readonly ownerId: string | null
  readonly ownerName: string | null
  readonly species: string | null
  readonly boards: number
  readonly areaM2: number
  readonly volumeM3: number
}

/** By owner, by species and over all, in one pass: the column that a row does not sum by is null. */
const sums = (where: Prisma.Sql) => database().$queryRaw<SumRow[]>`
  select b."ownerId", m."name" as "ownerName", b."species",
    count(*)::int as "boards",
    coalesce(sum(b."lengthUm"::float8 * b."widthUm") / 1e12, 0)::float8 as "areaM2",
    coalesce(sum(b."lengthUm"::float8 * b."widthUm" * b."thicknessUm") / 1e18, 0)::float8 as "volumeM3"
  from "Board" b join "Member" m on m."id" = b."ownerId"
  where ${where}
  group by grouping sets ((b."ownerId", m."name"), (b."species"), ())
  order by "areaM2" desc, "ownerName", b."species"`

/** Boards together, owner by owner, the widest and longest of a species first. */
const pageIds = (where: Prisma.Sql, page: number) => database().$queryRaw<{ id: string }[]>`
  select b."id" from "Board" b join "Member" m on m."id" = b."ownerId"
  where ${where}
  order by m."name", b."ownerId", b."species", b."thicknessUm" desc, b."widthUm" desc, b."lengthUm" desc, b."number"
  limit ${PAGE_SIZE} offset ${(page - 1) * PAGE_SIZE}`

const figures = ({ boards, areaM2, volumeM3 }: SumRow) => ({ boards, areaM2, volumeM3 })

export const pool = query({
  audience: 'member',
  shared: true,
  input: wanted,
  run: async (_actor, w) => {
    const now = new Date()
    const where = condition(w, now)
    const [ids, rows] = await Promise.all([pageIds(where, w.page), sums(where)])
    const found = await database().board.findMany({
      where: { id: { in: ids.map((row) => row.id) } },
      select: BOARD_BRIEF,
    })
    const byId = new Map(found.map((b) => [b.id, boardBrief(b, now)]))
    const all = rows.find((r) => r.ownerId === null && r.species === null)
    const total = all?.boards ?? 0
    return ok({
      boards: ids.flatMap((row) => byId.get(row.id) ?? []),
      total,
      page: w.page,
      pages: Math.max(1, Math.ceil(total / PAGE_SIZE)),
      all: all ? figures(all) : { boards: 0, areaM2: 0, volumeM3: 0 },
      byOwner: rows.flatMap((r) =>
        r.ownerId && r.ownerName ? [{ ownerId: r.ownerId, ownerName: r.ownerName, ...figures(r) }] : [],
      ),
      bySpecies: rows.flatMap((r) => (r.species ? [{ species: r.species, ...figures(r) }] : [])),
    })
  },
})

/** Whose boards and which species there are at all, for the choices of a form. */
export const poolChoices = query({
  audience: 'member',
  shared: true,
  input: z.object({}).optional(),
  run: async () => {
    const [owners, species] = await Promise.all([
      database().member.findMany({
        where: { boards: { some: {} } },
        select: { id: true, name: true },
        orderBy: { name: 'asc' },
      }),
      database().board.findMany({ distinct: ['species'], select: { species: true } }),
    ])
    return ok({ owners, species: species.map((s) => s.species) })
  },
})
