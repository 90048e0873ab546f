/** Sentences with formulas in braces: «The slats would be {slat} wide.» What a brace holds is said by its unit. */
import { err, ok, type Result } from '#lib/core/units/result'
import { sayValue } from '../parameters'
import type { Value } from './evaluate'
import type { Formula, Template } from './recipe'
import type { Unit } from './unit'

export type Piece = { readonly text: string } | { readonly formula: Formula }

/** @example piecesOf('{n} of {slats}') //=> { ok: true, value: [{ formula: 'n' }, { text: ' of ' }, { formula: 'slats' }] } */
export function piecesOf(template: Template): Result<readonly Piece[], string> {
  const pieces: Piece[] = []
  let rest = template
  while (rest !== '') {
    const open = rest.indexOf('{')
    const text = open < 0 ? rest : rest.slice(0, open)
    if (text.includes('}')) return err('There is a closing brace } without its opening one.')
    if (text !== '') pieces.push({ text })
    if (open < 0) break
    const close = rest.indexOf('}', open)
    if (close < 0) return err('There is an opening brace { without its closing one.')
    pieces.push({ formula: rest.slice(open + 1, close) })
    rest = rest.slice(close + 1)
  }
  return ok(pieces)
}

/** A value as a person reads it. @example sayWorth(12.504, MM) //=> '12.5 mm' */
export function sayWorth(value: Value, unit: Unit): string {
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (typeof value === 'string') return value
  if (unit.kind !== 'number') return String(value)
  if (unit.mm === 1 && unit.deg === 0) return sayValue(value, 'mm')
  return unit.deg === 1 && unit.mm === 0 ? sayValue(value, 'deg') : sayValue(value, 'count')
}
