import type { Role } from '#lib/shop/actor'

export const ROLE_WORDS: Record<Role, { readonly word: string; readonly means: string }> = {
  member: { word: 'Member', means: 'logs teardowns, builds, holds boards, books stations' },
  keeper: { word: 'Keeper', means: 'also answers for stations: inductions, bookings, limits' },
  admin: { word: 'Admin', means: 'also invites members, sets roles, stations and the shop' },
}

export const ROLE_OPTIONS = (['member', 'keeper', 'admin'] as const).map((value) => ({
  value,
  label: `${ROLE_WORDS[value].word}: ${ROLE_WORDS[value].means}`,
}))
