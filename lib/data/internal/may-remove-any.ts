import 'server-only'
import type { Actor } from '#lib/shop/actor'

/** Takes back what others said or show: keepers and admins. */
export const mayRemoveAny = ({ role }: Pick<Actor, 'role'>): boolean => role !== 'member'
