/** What is wrong with the rows of a recipe that are no formulas: too many, two of one name, faces that are no faces. */
import { nearestName } from './nearest-name'
import { type Direction, LIMITS, type Recipe, type RecipeFault, type RecipePart } from './recipe'

export const AXIS_OF: Readonly<Record<Direction, 'x' | 'y' | 'z'>> = {
  left: 'x',
  right: 'x',
  front: 'y',
  back: 'y',
  up: 'z',
  down: 'z',
}

const MOST = {
  parameters: LIMITS.parameters,
  derived: LIMITS.derived,
  rules: LIMITS.rules,
  parts: LIMITS.partRows,
  joints: LIMITS.jointRows,
  figures: LIMITS.rows,
  dimensions: LIMITS.rows,
  notices: LIMITS.rows,
} as const

const ROW_ID = /^[a-zA-Z][a-zA-Z0-9-]{0,39}$/

function idFaults(rows: readonly { readonly id: string }[], at: string): RecipeFault[] {
  const seen = new Set<string>()
  return rows.flatMap(({ id }, i) => {
    const isTwice = seen.has(id)
    seen.add(id)
    if (!ROW_ID.test(id))
      return [{ path: `${at}.${i}.id`, message: 'A row’s short name is letters, digits and «-», up to 40.' }]
    return isTwice ? [{ path: `${at}.${i}.id`, message: `There are two rows «${id}».` }] : []
  })
}

/** Faces of a part must be what they are used as: ends along the grain, edges across it. */
function faceFaults(part: RecipePart, at: string): RecipeFault[] {
  const along = (face: Direction): boolean => AXIS_OF[face] === part.grain
  const faults: RecipeFault[] = []
  const fault = (isWrong: boolean, key: string, message: string): void => {
    if (isWrong) faults.push({ path: `${at}.${key}`, message })
  }
  fault(along(part.face), 'face', 'The wide face cannot look along the grain.')
  part.cuts?.forEach(({ end }, i) => {
    fault(!along(end), `cuts.${i}.end`, 'An end lies at an end of the grain.')
  })
  part.notches?.forEach(({ face }, i) => {
    fault(along(face), `notches.${i}.face`, 'A notch is cut into a face or an edge, not into an end.')
  })
  part.holes?.forEach(({ face }, i) => {
    fault(along(face), `holes.${i}.face`, 'A hole is bored into a face or an edge here, not into an end.')
  })
  part.tapers?.forEach(({ face, end }, i) => {
    fault(along(face), `tapers.${i}.face`, 'A taper is cut into a face or an edge.')
    fault(!along(end), `tapers.${i}.end`, 'The slim end lies at an end of the grain.')
  })
  part.eased?.sides.forEach((side, i) => {
    fault(AXIS_OF[side] === AXIS_OF[part.face], `eased.sides.${i}`, 'This is no side of face A.')
  })
  part.edgeBevels?.forEach(({ edge }, i) => {
    const isEdge = !along(edge) && AXIS_OF[edge] !== AXIS_OF[part.face]
    fault(!isEdge, `edgeBevels.${i}.edge`, 'An edge lies beside the wide faces, along the grain.')
  })
  for (const key of ['roundOvers', 'chamfers'] as const)
    part[key]?.forEach(({ between: [a, b] }, i) => {
      fault(AXIS_OF[a] === AXIS_OF[b], `${key}.${i}.between`, 'Two faces that meet have an edge in common.')
    })
  part.engravings?.forEach(({ face }, i) => {
    fault(along(face), `engravings.${i}.face`, 'A field is engraved in a face or an edge, not in an end.')
  })
  const cut = part.cuts?.map(({ end }) => end) ?? []
  fault(new Set(cut).size < cut.length, 'cuts', 'Each end is cut once.')
  return faults
}

function rowFaults(name: string, rows: readonly string[], path: string): RecipeFault[] {
  if (rows.includes(name)) return []
  const near = nearestName(name, rows)
  return [
    { path, message: `There is no part «${name}».${near === undefined ? '' : ` Do you mean «${near}»?`}` },
  ]
}

export function checkRows(recipe: Recipe): RecipeFault[] {
  const tooMany = (Object.keys(MOST) as (keyof typeof MOST)[]).flatMap((key) =>
    recipe[key].length > MOST[key] ? [{ path: key, message: `At most ${MOST[key]} rows.` }] : [],
  )
  const rows = recipe.parts.map(({ id }) => id)
  return [
    ...tooMany,
    ...(rows.length === 0 ? [{ path: 'parts', message: 'A piece has one part at least.' }] : []),
    ...idFaults(recipe.parts, 'parts'),
    ...idFaults(recipe.joints, 'joints'),
    ...recipe.parts.flatMap((part, i) => faceFaults(part, `parts.${i}`)),
    ...recipe.joints.flatMap(({ a, b }, i) => [
      ...rowFaults(a, rows, `joints.${i}.a`),
      ...rowFaults(b, rows, `joints.${i}.b`),
    ]),
    ...recipe.use.surfaces.flatMap((name, i) => rowFaults(name, rows, `use.surfaces.${i}`)),
    ...(recipe.use.footRests ?? []).flatMap((name, i) => rowFaults(name, rows, `use.footRests.${i}`)),
  ]
}
