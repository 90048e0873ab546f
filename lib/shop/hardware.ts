/**
 * Hardware: screws and other metal parts that came out of a teardown, kept in lots of one kind and size. Their count
 * goes down when someone takes some, and up again with what is put back. What a build wants is matched with what lies
 * there by kind and by how the size is written. Pure. Tests: tests/shop/hardware.test.ts
 */
import type { HardwareNeed } from '#lib/core/design/model'
import type { Terms } from './holds'

export const HARDWARE_KINDS = ['screw', 'bolt', 'hinge', 'handle', 'bracket', 'castor', 'other'] as const
export type HardwareKind = (typeof HARDWARE_KINDS)[number]

export const HARDWARE_WORDS: Readonly<Record<HardwareKind, { readonly one: string; readonly many: string }>> =
  {
    screw: { one: 'screw', many: 'screws' },
    bolt: { one: 'bolt', many: 'bolts' },
    hinge: { one: 'hinge', many: 'hinges' },
    handle: { one: 'handle', many: 'handles' },
    bracket: { one: 'bracket', many: 'brackets' },
    castor: { one: 'castor', many: 'castors' },
    other: { one: 'piece', many: 'pieces' },
  }

/** A handful of screws is not asked for: a lot is free to all, or its owner's. */
export const HARDWARE_TERMS = ['free', 'mine'] as const satisfies readonly Terms[]
export type HardwareTerms = (typeof HARDWARE_TERMS)[number]

export const MOST_IN_A_LOT = 10_000

/** @example countedWords('screw', 16) //=> '16 screws' */
export function countedWords(kind: HardwareKind, count: number): string {
  const { one, many } = HARDWARE_WORDS[kind]
  return `${count} ${count === 1 ? one : many}`
}

/**
 * A size without what people write differently: spaces, capitals, dots, the sign of «by» and the millimetres.
 * @example sizeKey('No. 8 × 32 mm') //=> 'no8x32'
 */
export const sizeKey = (size: string): string =>
  size
    .toLowerCase()
    .replaceAll('×', 'x')
    .replace(/[\s.,]/g, '')
    .replace(/mm$/, '')

export interface LotOnShelf {
  readonly id: string
  readonly kind: HardwareKind
  readonly size: string
  readonly count: number
}

export interface WantedHardware<Lot extends LotOnShelf> {
  readonly kind: HardwareKind
  readonly size: string
  readonly wanted: number
  /** Taken for this build and not put back. */
  readonly taken: number
  /** Where it was taken from, with how many of each. */
  readonly takenFrom: readonly LotOnShelf[]
  /** Lots of it that this maker may take from, the fullest first. */
  readonly lots: readonly Lot[]
}

const keyOf = ({ kind, size }: { readonly kind: string; readonly size: string }): string =>
  `${kind} ${sizeKey(size)}`

/**
 * What a model wants beside what lies there and what was taken for it.
 * @param moved what was taken from which lot, and below 0 what was put back
 * @example wantedHardware([{ kind: 'screw', size: 'No. 8 × 32 mm', count: 16 }], [], [])
 * //=> [{ kind: 'screw', size: 'No. 8 × 32 mm', wanted: 16, taken: 0, takenFrom: [], lots: [] }]
 */
export function wantedHardware<Lot extends LotOnShelf>(
  needs: readonly HardwareNeed[],
  lots: readonly Lot[],
  moved: readonly LotOnShelf[],
): readonly WantedHardware<Lot>[] {
  const net = new Map<string, LotOnShelf>()
  for (const lot of moved) net.set(lot.id, { ...lot, count: lot.count + (net.get(lot.id)?.count ?? 0) })
  const fullestFirst = (a: LotOnShelf, b: LotOnShelf) => b.count - a.count || a.id.localeCompare(b.id)
  return needs.map(({ kind, size, count }) => {
    const isAlike = (lot: LotOnShelf) => lot.count > 0 && keyOf(lot) === keyOf({ kind, size })
    const takenFrom = [...net.values()].filter(isAlike).sort(fullestFirst)
    const taken = takenFrom.reduce((sum, lot) => sum + lot.count, 0)
    return { kind, size, wanted: count, taken, takenFrom, lots: lots.filter(isAlike).sort(fullestFirst) }
  })
}
