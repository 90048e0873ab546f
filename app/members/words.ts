import type { Role } from '#lib/shop/actor'

export const ROLE_WORDS: Record<Role, { readonly word: string }> = {
  member: { word: 'Member' },
  keeper: { word: 'Keeper' },
  admin: { word: 'Admin' },
}

export const ROLE_OPTIONS = (['member', 'keeper', 'admin'] as const).map((value) => ({
  value,
  label: ROLE_WORDS[value].word,
}))

export const ROLE_HELP =
  'A keeper also answers for stations: inductions, bookings, limits. An admin also invites members and sets roles, stations and the shop.'
