/**
 * How a recipe's piece suits people: the lines that its `fit` asks for, by the same rules as a design in code
 * (fit/fit-lines.ts). mm. Whom a seat is made for is read from the parameters of place-parameters.ts where the recipe
 * has them; else any adult in shoes. Tests: tests/core/design/recipe/twins.test.ts, recipe-fit.test.ts
 */
import { abreastLine, reachLine, seatLines, tableLines } from '../fit/fit-lines'
import { playLine } from '../fit/niche'
import { type Sitter, sitterOf, sitterParameters } from '../fit/place-parameters'
import type { FitLine } from '../model'
import type { FitRow, Formula } from './recipe'
import { holds, parameterBehind, type Run, worth } from './recipe-run'

const USUAL_SHOES_MM = 25

function sitterIn({ checked, values }: Run): Sitter {
  const own = new Map(checked.recipe.parameters.map(({ id, unit }) => [id, unit]))
  if (!sitterParameters.every(({ id, unit }) => own.get(id) === unit)) return { shoesMm: USUAL_SHOES_MM }
  const [popliteal, shoes] = [Number(values.get('popliteal')), Number(values.get('shoes'))]
  return sitterOf({ sitter: String(values.get('sitter')), popliteal, shoes })
}

export function recipeFit(run: Run): FitLine[] {
  const { fit = {} } = run.checked.recipe
  const asked = <K extends string>(row: FitRow<K> | undefined): row is FitRow<K> =>
    row !== undefined && holds(run, row.when, run.values)
  const mm = (formula: Formula): number => Number(worth(run, formula, run.values))
  const behind = (formula: Formula): string => parameterBehind(run.checked, formula)
  const { seat, table, abreast, reach, play } = fit
  const lines: FitLine[] = []
  if (asked(seat)) {
    const { height, depth, width } = seat
    const sizes = { seatMm: mm(height), depthMm: mm(depth), widthMm: mm(width), feetOn: 'the floor' }
    const parameters = { height: behind(height), depth: behind(depth), width: behind(width) }
    lines.push(...seatLines({ ...sizes, parameters }, sitterIn(run)))
  }
  if (asked(abreast)) lines.push(abreastLine(mm(abreast.length), behind(abreast.length)))
  if (asked(table)) {
    const sizes = { seatMm: mm(table.seat), topMm: mm(table.top), undersideMm: mm(table.underside) }
    const parameters = { room: behind(table.underside), height: behind(table.top) }
    lines.push(...tableLines({ ...sizes, parameters }))
  }
  if (asked(reach)) lines.push(reachLine('Within reach', mm(reach.height), 0, behind(reach.height)))
  if (asked(play)) lines.push(playLine(mm(play.opening), mm(play.width), behind(play.opening)))
  return lines.filter(({ valueMm }) => valueMm === undefined || Number.isFinite(valueMm))
}
