import { z } from 'zod'
import type { LengthUnit } from '#lib/core/units/inches'
import { isSpeciesId } from '#lib/core/wood/species'
import { optionalLengthText, optionalWholeNumberText, readTyped } from '#lib/shop/fields'

/** What the address of the pool asks for, as typed. */
export type WantedText = Readonly<Record<string, string>>

const FIELDS = [
  'state',
  'owner',
  'species',
  'length',
  'width',
  'thickness',
  'terms',
  'free',
  'number',
  'page',
] as const

/** The first of each field that the form has; anything else in the address is left out. */
export function wantedText(search: Readonly<Record<string, string | string[] | undefined>>): WantedText {
  const texts = FIELDS.flatMap((name) => {
    const value = search[name]
    const first = Array.isArray(value) ? value[0] : value
    return first ? [[name, first.slice(0, 100)] as const] : []
  })
  return Object.fromEntries(texts)
}

/** A species of the table, or all of a class. */
const isSpeciesWish = (wish: string): boolean =>
  wish === 'hardwood' || wish === 'softwood' || isSpeciesId(wish)

const oneOf = <const V extends readonly [string, ...string[]]>(values: V) =>
  z.enum(values).optional().catch(undefined)

const wanted = (units: LengthUnit) => {
  const least = (what: string) => optionalLengthText({ units, what }).transform((um) => um ?? undefined)
  return z.object({
    state: oneOf(['inPool', 'cut', 'removed']),
    owner: z.uuid().optional().catch(undefined),
    species: z
      .string()
      .optional()
      .refine((s) => s === undefined || isSpeciesWish(s), 'Choose a species from the list.'),
    length: least('length'),
    width: least('width'),
    thickness: least('thickness'),
    terms: oneOf(['free', 'ask', 'mine']),
    free: z.string().optional(),
    number: optionalWholeNumberText({ what: 'number', min: 1, max: 2_147_483_647 }).transform(
      (n) => n ?? undefined,
    ),
    page: z.coerce.number().int().min(1).max(10_000).catch(1),
  })
}

/** As `pool` takes it. A field that cannot be read asks for nothing and has its sentence. */
export function readWanted(typed: WantedText, units: LengthUnit) {
  const first = readTyped(wanted(units), typed)
  const fields = first.ok ? {} : (first.error.fields ?? {})
  const readable = Object.fromEntries(Object.entries(typed).filter(([name]) => !(name in fields)))
  const { state, owner, species, length, width, thickness, terms, free, number, page } =
    wanted(units).parse(readable)
  return {
    fields,
    input: {
      state: state ?? ('inPool' as const),
      ownerId: owner,
      species,
      minLengthUm: length,
      minWidthUm: width,
      minThicknessUm: thickness,
      terms,
      freeNow: free !== undefined,
      number,
      page,
    },
  }
}

/** The address of the same wish, changed a little. */
export function wantedHref(typed: WantedText, over: Readonly<Record<string, string | undefined>>): string {
  const all: Readonly<Record<string, string | undefined>> = { ...typed, page: undefined, ...over }
  const search = new URLSearchParams(
    Object.entries(all).flatMap(([name, value]) => (value ? [[name, value]] : [])),
  )
  const text = search.toString()
  return text === '' ? '/pool' : `/pool?${text}`
}
