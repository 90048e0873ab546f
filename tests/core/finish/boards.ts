/** A board that lies flat and one that stands on it on edge, to reckon by hand. mm. */
import type { FaceRole, Joint, Model, Part } from '#lib/core/design/model'

const roles = (role: FaceRole) =>
  ({ endA: role, endB: role, edgeA: role, edgeB: role, faceA: role, faceB: role }) as const

/** 400 × 100 × 20, its face A up at z = 20. */
export const flat: Part = {
  id: 'flat',
  name: 'Flat board',
  kind: 'board',
  blank: { lengthMm: 400, widthMm: 100, thicknessMm: 20 },
  operations: [],
  faces: roles('show'),
  frame: { origin: [0, 0, 0], x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] },
}

/** 300 × 50 × 30, its edge A on the flat board: it covers 300 × 30 of it. */
export const upright: Part = {
  id: 'upright',
  name: 'Upright board',
  kind: 'rail',
  blank: { lengthMm: 300, widthMm: 50, thicknessMm: 30 },
  operations: [],
  faces: roles('paint'),
  frame: { origin: [50, 70, 20], x: [1, 0, 0], y: [0, 0, 1], z: [0, -1, 0] },
}

const joint = (glued: boolean): Joint => ({
  id: 'j',
  kind: 'onFace',
  a: 'flat',
  b: 'upright',
  contact: { polygon: [], normal: [0, 0, 1], areaMm2: 9000 },
  grainAtA: 'long',
  grainAtB: 'long',
  glued,
  screws: [],
})

export const boards = (glued = false): Model => ({
  designId: 'boards',
  designVersion: 1,
  parameters: {},
  parts: [flat, upright],
  joints: [joint(glued)],
  hardware: [],
  place: [],
  figures: [],
  notices: [],
})

/** Hand sums, mm2. */
export const FLAT_MM2 = 2 * (400 * 100 + 400 * 20 + 100 * 20)
export const UPRIGHT_MM2 = 2 * (300 * 50 + 300 * 30 + 50 * 30)
