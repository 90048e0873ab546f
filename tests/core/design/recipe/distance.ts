import { length, sub, type Vec3 } from '#lib/core/geometry/vec3'

export const distance = (a: Vec3, b: Vec3): number => length(sub(a, b))
