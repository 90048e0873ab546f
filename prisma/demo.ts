/**
 * The demo shop: an invented workshop with five members, six stations, four teardowns and the boards out of them,
 * and two builds. It is put into an empty database only; a second start finds it there and does nothing.
 * Every person, place and piece here is made up.
 */
import { randomBytes } from 'node:crypto'
import { hashPassword } from '#lib/auth/password'
import type { DefectKind } from '#lib/core/board/board'
import { umFromMm } from '#lib/core/units/length'
import { type Rng, seededRng } from '#lib/core/units/rng'
import { database } from '#lib/data/client'
import type { Transaction } from '#lib/data/transaction'

const SHOP = 'Gantry Street Workshop'
const PASSWORD = 'shellac-and-shavings'
const HOUR_MS = 3_600_000

const MEMBERS = {
  signe: { name: 'Signe Aldahl', role: 'admin', what: 'admin' },
  bram: { name: 'Bram Ottoway', role: 'keeper', what: 'keeper of the saw and the planer' },
  yusra: { name: 'Yusra Bekele', role: 'keeper', what: 'keeper of the router table and the engraver' },
  noor: { name: 'Noor Halvari', role: 'member', what: 'maker with a build under way' },
  piet: { name: 'Piet Osei', role: 'member', what: 'owner of boards that are ask first' },
} as const
type Who = keyof typeof MEMBERS
const emailOf = (who: Who) => `${who}@gantry.example`

const STATIONS = [
  {
    name: 'Planer',
    kind: 'planer',
    keeper: 'bram',
    needsInduction: true,
    needsApproval: true,
    place: 'Machine room',
    maxPass: 1.5,
    minLength: 300,
    notes: 'Metal cleared first: bring the wand. Ear defenders.',
  },
  {
    name: 'Table saw',
    kind: 'tableSaw',
    keeper: 'bram',
    needsInduction: true,
    needsApproval: true,
    place: 'Machine room',
    kerf: 3.2,
    maxRip: 600,
    maxCross: 700,
    minLength: 150,
    minWidth: 20,
    notes: 'Two crosscut sleds hang behind it. Nobody saws alone.',
  },
  {
    name: 'Router table',
    kind: 'routerTable',
    keeper: 'yusra',
    needsInduction: true,
    needsApproval: false,
    place: 'Bench room',
    minLength: 300,
    notes: 'Round-over bits 3, 6 and 10 mm in the drawer.',
  },
  {
    name: 'Pillar drill',
    kind: 'drillPress',
    keeper: 'yusra',
    needsInduction: false,
    needsApproval: false,
    place: 'Bench room',
    notes: '',
  },
  {
    name: 'Laser engraver',
    kind: 'laserEngraver',
    keeper: 'yusra',
    needsInduction: true,
    needsApproval: true,
    place: 'Clean room',
    notes: 'Bed 600 by 400 mm. Stay beside it while it runs.',
  },
  {
    name: 'Assembly bench',
    kind: 'assemblyBench',
    keeper: 'signe',
    needsInduction: false,
    needsApproval: false,
    place: 'Bench room',
    notes: 'Twelve clamps; sweep up the glue.',
  },
] as const

interface Lot {
  readonly owner: Who
  readonly name: string
  readonly foundAt: string
  readonly notes: string
  readonly terms: 'free' | 'ask' | 'mine'
  readonly species: string
  readonly finish: 'bare' | 'clear' | 'paint' | 'unknown'
  readonly lead: 'notNeeded' | 'untested' | 'free' | 'found'
  readonly metal: 'unchecked' | 'cleared' | 'found'
  /** Count and size in mm: length, width, thickness. */
  readonly boards: readonly (readonly [count: number, length: number, width: number, thickness: number])[]
  readonly place: string
  /** What is kept of its metal parts. */
  readonly hardware?: readonly (readonly [kind: 'screw' | 'hinge' | 'bracket', size: string, count: number])[]
}

const LOTS: readonly Lot[] = [
  {
    owner: 'noor',
    name: 'Chapel pew, one end rotten',
    foundAt: 'Kerb outside the old chapel',
    terms: 'free',
    notes: 'Seat and back planks are sound. The screws were brass.',
    species: 'redOak',
    finish: 'clear',
    lead: 'free',
    metal: 'cleared',
    boards: [
      [3, 1780, 215, 26],
      [2, 1640, 150, 25],
      [2, 880, 310, 47],
    ],
    place: 'Rack 1, left',
    hardware: [
      ['screw', 'No. 8 × 32 mm', 34],
      ['hinge', 'Brass butt, 64 mm', 6],
    ],
  },
  {
    owner: 'piet',
    name: 'Two school workbenches',
    foundAt: 'Cleared classroom',
    terms: 'ask',
    notes: 'Legs and stretchers in heavy beech. Ask me first, I want the tops.',
    species: 'beech',
    finish: 'bare',
    lead: 'notNeeded',
    metal: 'cleared',
    boards: [
      [4, 820, 95, 62],
      [2, 1450, 110, 48],
      [1, 1500, 380, 44],
    ],
    place: 'Under the stairs',
  },
  {
    owner: 'bram',
    name: 'Bunk beds from a scout hut',
    foundAt: 'Scout hut sale',
    terms: 'free',
    notes: 'Slats and rails; dozens of nail holes.',
    species: 'ponderosaPine',
    finish: 'bare',
    lead: 'notNeeded',
    metal: 'cleared',
    boards: [
      [10, 890, 92, 22],
      [4, 1930, 140, 27],
      [3, 1900, 68, 45],
    ],
    place: 'Rack 2',
  },
  {
    owner: 'signe',
    name: 'Painted wardrobe',
    foundAt: 'House clearance',
    terms: 'free',
    notes: 'Paint of unknown age: not tested yet.',
    species: 'yellowPoplar',
    finish: 'paint',
    lead: 'untested',
    metal: 'unchecked',
    boards: [
      [2, 1820, 410, 21],
      [3, 1020, 285, 19],
    ],
    place: 'Quarantine shelf',
  },
]

const DAMAGE: readonly { kind: DefectKind; length: number; width: number; face: 'A' | 'B' | 'through' }[] = [
  { kind: 'nailHole', length: 6, width: 6, face: 'A' },
  { kind: 'nailHole', length: 6, width: 6, face: 'through' },
  { kind: 'hole', length: 10, width: 10, face: 'through' },
  { kind: 'knot', length: 30, width: 22, face: 'A' },
  { kind: 'crack', length: 110, width: 4, face: 'through' },
  { kind: 'stain', length: 90, width: 45, face: 'B' },
]

/** Damage as salvage has it: nail holes near the ends, a crack at an end, knots and stains anywhere. */
function defectsOf(rng: Rng, lengthMm: number, widthMm: number) {
  return Array.from({ length: rng.below(4) }, () => {
    const damage = DAMAGE[rng.below(DAMAGE.length)]
    const length = Math.min(damage.length, lengthMm / 4)
    const width = Math.min(damage.width, widthMm / 3)
    const isAtEnd = damage.kind === 'crack' || damage.kind === 'nailHole'
    const along =
      damage.kind === 'crack' ? 0 : isAtEnd ? 15 + rng.below(60) : rng.below(Math.floor(lengthMm - length))
    const x = isAtEnd && rng.below(2) ? lengthMm - length - along : along
    return {
      kind: damage.kind,
      face: damage.face,
      xUm: umFromMm(x),
      yUm: umFromMm(rng.below(Math.floor(widthMm - width))),
      widthUm: umFromMm(length),
      heightUm: umFromMm(width),
    }
  })
}

async function seedMembers(db: Transaction): Promise<Record<Who, string>> {
  const ids = {} as Record<Who, string>
  const passwordHash = await hashPassword(PASSWORD)
  for (const who of Object.keys(MEMBERS) as Who[]) {
    const { name, role } = MEMBERS[who]
    const calendarToken = randomBytes(24).toString('base64url')
    const row = await db.member.create({
      data: { email: emailOf(who), name, role, passwordHash, calendarToken },
    })
    ids[who] = row.id
  }
  return ids
}

const optionalUm = (lengthMm: number | undefined) => (lengthMm === undefined ? undefined : umFromMm(lengthMm))

async function seedStations(db: Transaction, ids: Record<Who, string>): Promise<Map<string, string>> {
  const stations = new Map<string, string>()
  for (const s of STATIONS) {
    const size = s as {
      kerf?: number
      maxRip?: number
      maxCross?: number
      minLength?: number
      minWidth?: number
      maxPass?: number
    }
    const row = await db.station.create({
      data: {
        name: s.name,
        kind: s.kind,
        keeperId: ids[s.keeper],
        place: s.place,
        notes: s.notes,
        needsInduction: s.needsInduction,
        needsApproval: s.needsApproval,
        kerfUm: optionalUm(size.kerf),
        maxRipWidthUm: optionalUm(size.maxRip),
        maxCrosscutWidthUm: optionalUm(size.maxCross),
        minPieceLengthUm: optionalUm(size.minLength),
        minPieceWidthUm: optionalUm(size.minWidth),
        maxPassUm: optionalUm(size.maxPass),
      },
    })
    stations.set(s.name, row.id)
    if (!s.needsInduction) continue
    const inducted: readonly Who[] = s.kind === 'laserEngraver' ? ['piet'] : ['noor', 'piet']
    for (const who of inducted)
      await db.induction.create({
        data: { stationId: row.id, memberId: ids[who], givenById: ids[s.keeper] },
      })
  }
  return stations
}

async function seedLot(db: Transaction, lot: Lot, ids: Record<Who, string>, rng: Rng): Promise<void> {
  const memberId = ids[lot.owner]
  const teardown = await db.teardown.create({
    data: { memberId, name: lot.name, foundAt: lot.foundAt, notes: lot.notes },
  })
  for (const [count, length, width, thickness] of lot.boards)
    for (let i = 0; i < count; i++) {
      const [lengthMm, widthMm] = [length - rng.below(24), width - rng.below(4)]
      await db.board.create({
        data: {
          ownerId: memberId,
          teardownId: teardown.id,
          species: lot.species,
          terms: lot.terms,
          finish: lot.finish,
          lead: lot.lead,
          metal: lot.metal,
          place: lot.place,
          lengthUm: umFromMm(lengthMm),
          widthUm: umFromMm(widthMm),
          thicknessUm: umFromMm(thickness),
          cupUm: umFromMm(rng.below(3) * 0.5),
          bowUm: umFromMm(rng.below(4)),
          twistUm: umFromMm(rng.below(3) * 0.5),
          defects: { create: defectsOf(rng, lengthMm, widthMm) },
          events: {
            create: { kind: 'takenIn', memberId, detail: { teardownId: teardown.id, teardown: lot.name } },
          },
        },
      })
    }
  for (const [kind, size, count] of lot.hardware ?? [])
    await db.hardwareLot.create({
      data: {
        ...{ ownerId: memberId, teardownId: teardown.id, kind, size, count: 0, place: 'Tins by the drill' },
        events: { create: { kind: 'takenIn', memberId, change: count } },
      },
    })
}

async function seedBuilds(
  db: Transaction,
  ids: Record<Who, string>,
  stations: Map<string, string>,
): Promise<void> {
  const seats = await db.build.create({
    data: {
      name: 'Seats for the kitchen counter',
      memberId: ids.noor,
      notes: 'Two side by side at a 1,220 mm counter. Painted legs, clear seats.',
      variants: { create: { designId: 'counterSeat', parameters: { finish: 'paint' } } },
      comments: {
        create: {
          memberId: ids.bram,
          body: 'The pew planks would make fine seats. Check the ends for nails before they go near my planer.',
        },
      },
    },
  })
  await db.build.create({
    data: {
      name: 'One tall seat for the tea kitchen',
      memberId: ids.piet,
      notes: 'A single one, for the counter by the door.',
      variants: { create: { designId: 'counterSeat', parameters: { abreast: 1 } } },
    },
  })
  const now = Date.now()
  await db.wait.create({
    data: {
      buildId: seats.id,
      memberId: ids.noor,
      kind: 'filler',
      label: 'Filler in the trial joint',
      startedAt: new Date(now - 2 * HOUR_MS),
      readyAt: new Date(now + 6 * HOUR_MS),
    },
  })
  // Tomorrow at nine by UTC: inside the opening hours of a Copenhagen shop all year.
  const nine = Math.floor(now / (24 * HOUR_MS) + 1) * 24 * HOUR_MS + 9 * HOUR_MS
  await db.booking.create({
    data: {
      stationId: stations.get('Planer')!,
      memberId: ids.piet,
      status: 'requested',
      note: 'Flattening the bench stretchers',
      startAt: new Date(nine),
      endAt: new Date(nine + HOUR_MS),
    },
  })
}

export interface Demo {
  readonly shop: string
  readonly members: readonly { readonly email: string; readonly password: string; readonly what: string }[]
}

/** @returns undefined where the database holds a shop of somebody's own */
export async function seedDemo(): Promise<Demo | undefined> {
  const demo: Demo = {
    shop: SHOP,
    members: (Object.keys(MEMBERS) as Who[]).map((who) => ({
      email: emailOf(who),
      password: PASSWORD,
      what: `${MEMBERS[who].name}, ${MEMBERS[who].what}`,
    })),
  }
  try {
    const shop = await database().shop.findUnique({ where: { id: 1 } })
    if (shop) return shop.name === SHOP ? demo : undefined
    await database().$transaction(seedAll, { timeout: 60_000 })
    return demo
  } finally {
    await database().$disconnect()
  }
}

async function seedAll(db: Transaction): Promise<void> {
  await db.shop.create({ data: { name: SHOP, timeZone: 'Europe/Copenhagen', currency: 'EUR' } })
  const ids = await seedMembers(db)
  const stations = await seedStations(db, ids)
  const rng = seededRng(41)
  for (const lot of LOTS) await seedLot(db, lot, ids, rng)
  await seedBuilds(db, ids, stations)
}
