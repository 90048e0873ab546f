/** Figures and dimensions that a maker reads off, in few words. mm, rad, kg; world coordinates. */
import type { Vec3 } from '#lib/core/geometry/vec3'
import type { Dimension, Figure } from './model'

export const mmFigure = (id: string, label: string, value: number): Figure => ({
  id,
  label,
  value,
  unit: 'mm',
})
export const countFigure = (id: string, label: string, value: number): Figure => ({
  id,
  label,
  value,
  unit: 'count',
})
export const kgFigure = (id: string, label: string, value: number): Figure => ({
  id,
  label,
  value,
  unit: 'kg',
})
export const angleFigure = (id: string, label: string, value: number): Figure => ({
  id,
  label,
  value,
  unit: 'rad',
})

export type Linear = Extract<Dimension, { kind: 'linear' }>

export const linear = (
  id: string,
  view: Linear['view'],
  direction: Linear['direction'],
  side: Linear['side'],
  from: Vec3,
  to: Vec3,
): Linear => ({ kind: 'linear', id, view, direction, side, from, to })

/** Close to the parts, between them and the place. */
export const near = (dimension: Linear): Linear => ({ ...dimension, near: true })

const AXIS_OF = {
  front: { across: 0, up: 2 },
  side: { across: 1, up: 2 },
  top: { across: 0, up: 1 },
} as const

/**
 * A dimension along one axis of the world: `from` and `to` on that axis, taken at `at` otherwise.
 * @example measure('height', 'front', 'left', 0, 450, [0, 0, 0]).to //=> [0, 0, 450]
 */
export function measure(
  id: string,
  view: Linear['view'],
  side: Linear['side'],
  from: number,
  to: number,
  at: Vec3,
): Linear {
  const direction = side === 'left' || side === 'right' ? 'up' : 'across'
  const axis = AXIS_OF[view][direction]
  const point = (value: number): Vec3 => [0, 1, 2].map((i) => (i === axis ? value : at[i])) as unknown as Vec3
  return linear(id, view, direction, side, point(from), point(to))
}
