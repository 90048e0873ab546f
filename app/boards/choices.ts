import { SPECIES } from '#lib/core/wood/species'
import { FINISH_CHOICES } from '#lib/shop/boards'
import { TERMS, TERMS_WORDS } from '#lib/shop/sharing'

const GROUP = { hardwood: 'Hardwoods', softwood: 'Softwoods', unknown: 'Not known' } as const

/** For choosing what wood it is. */
export const SPECIES_OPTIONS = [
  ...SPECIES.filter((s) => s.kind === 'unknown'),
  ...SPECIES.filter((s) => s.kind !== 'unknown'),
].map((s) => ({ value: s.id, label: s.name, group: GROUP[s.kind] }))

export const FINISH_OPTIONS = FINISH_CHOICES.map(({ value, label }) => ({ value, label }))
export const TERMS_OPTIONS = TERMS.map((value) => ({ value, ...TERMS_WORDS[value] }))
