/**
 * Whether a formula makes sense before any number is known: all names are there and the units go together.
 * In: a tree and the unit of each name. Out: its unit, or one sentence. Nothing is computed.
 * Tests: tests/core/design/recipe/formula.test.ts
 */
import { err, ok, type Result } from '#lib/core/units/result'
import { nearestName } from './nearest-name'
import { CONSTANTS, FUNCTIONS, type FunctionName, type Syntax } from './syntax'
import {
  BARE,
  DEG,
  MM,
  type NumberUnit,
  PLAIN,
  power,
  product,
  sayUnit,
  together,
  type Unit,
  YES_NO,
} from './unit'

export type UnitsByName = ReadonlyMap<string, Unit>
type Judged = Result<Unit, string>

const WORD = {
  '+': 'adds',
  '-': 'subtracts',
  mod: 'divides',
  '<': 'compares',
  '<=': 'compares',
  '>': 'compares',
  '>=': 'compares',
  '==': 'compares',
  '!=': 'compares',
} as const

/** What a formula is worth, by unit; the first thing wrong with it otherwise. */
export function judgeFormula(tree: Syntax, names: UnitsByName): Judged {
  switch (tree.kind) {
    case 'number':
      return Number.isFinite(tree.value) ? ok(BARE) : err('That number is too large.')
    case 'text':
      return ok({ kind: 'text', value: tree.value })
    case 'name':
      return judgeName(tree.name, names)
    case 'unary':
      return judgeUnary(tree, names)
    case 'binary':
      return judgeBinary(tree, names)
    case 'call':
      return judgeCall(tree, names)
    case 'choose':
      return judgeChoose(tree, names)
  }
}

function judgeName(name: string, names: UnitsByName): Judged {
  if (name === 'mm') return ok(MM)
  if (name === 'pi') return ok(PLAIN)
  const unit = names.get(name)
  if (unit !== undefined) return ok(unit)
  const near = nearestName(name, [...names.keys(), ...Object.keys(CONSTANTS)])
  return err(`There is no name «${name}» here.${near === undefined ? '' : ` Do you mean «${near}»?`}`)
}

/** @param where «sin» wants an angle */
function numberOf(tree: Syntax, names: UnitsByName, where: string): Result<NumberUnit, string> {
  const unit = judgeFormula(tree, names)
  if (!unit.ok) return unit
  return unit.value.kind === 'number'
    ? ok(unit.value)
    : err(`«${where}» wants a number and gets ${sayUnit(unit.value)}.`)
}

function judgeUnary(tree: Extract<Syntax, { kind: 'unary' }>, names: UnitsByName): Judged {
  if (tree.op === '-') return numberOf(tree.of, names, '-')
  return yesNo(tree.of, names, 'not')
}

function yesNo(tree: Syntax, names: UnitsByName, where: string): Judged {
  const unit = judgeFormula(tree, names)
  if (!unit.ok || unit.value.kind === 'yesNo') return unit
  return err(`«${where}» wants yes or no, like «width > 300», and gets ${sayUnit(unit.value)}.`)
}

function judgeBinary(tree: Extract<Syntax, { kind: 'binary' }>, names: UnitsByName): Judged {
  const { op, left, right } = tree
  if (op === 'and' || op === 'or') {
    const first = yesNo(left, names, op)
    return first.ok ? yesNo(right, names, op) : first
  }
  if (op === '==' || op === '!=') {
    const asked = judgeEqual(tree, names)
    if (asked !== undefined) return asked
  }
  const a = numberOf(left, names, op)
  if (!a.ok) return a
  const b = numberOf(right, names, op)
  if (!b.ok) return b
  if (op === '*') return ok(product(a.value, b.value, 1))
  if (op === '/') return ok(product(a.value, b.value, -1))
  if (op === '^') return judgePower(a.value, b.value, right)
  const unit = together(a.value, b.value)
  if (unit === undefined)
    return err(`«${op}» ${WORD[op]} ${sayUnit(a.value)} and ${sayUnit(b.value)}, which do not go together.`)
  return ok(op === '+' || op === '-' || op === 'mod' ? unit : YES_NO)
}

/** Choices and yes/no are told equal or not; undefined for numbers. */
function judgeEqual(
  { op, left, right }: Extract<Syntax, { kind: 'binary' }>,
  names: UnitsByName,
): Judged | undefined {
  const a = judgeFormula(left, names)
  if (!a.ok) return a
  const b = judgeFormula(right, names)
  if (!b.ok) return b
  const kinds = [a.value, b.value]
  if (kinds.every((unit) => unit.kind === 'number')) return undefined
  if (kinds.every((unit) => unit.kind === 'yesNo')) return ok(YES_NO)
  const choice = kinds.find((unit) => unit.kind === 'choice')
  const text = kinds.find((unit) => unit.kind === 'text')
  if (choice === undefined || text === undefined)
    return err(`«${op}» compares ${sayUnit(a.value)} and ${sayUnit(b.value)}, which do not go together.`)
  if (choice.options.includes(text.value)) return ok(YES_NO)
  return err(`«${text.value}» is none of the choices: ${choice.options.slice(0, 12).join(', ')}.`)
}

const MOST_POWER = 6

function judgePower(base: NumberUnit, exponent: NumberUnit, written: Syntax): Judged {
  if (exponent.mm !== 0 || exponent.deg !== 0)
    return err(`The power of «^» must be a plain number; it is ${sayUnit(exponent)}.`)
  if (base.mm === 0 && base.deg === 0) return ok(base.isBare && exponent.isBare ? BARE : PLAIN)
  const n = written.kind === 'number' ? written.value : Number.NaN
  if (!Number.isInteger(n) || n > MOST_POWER)
    return err(`A length or an angle is raised to a whole number written out, at most ${MOST_POWER}.`)
  return ok(power(base, n))
}

function judgeChoose(tree: Extract<Syntax, { kind: 'choose' }>, names: UnitsByName): Judged {
  const test = yesNo(tree.test, names, '?')
  if (!test.ok) return test
  const yes = judgeFormula(tree.yes, names)
  if (!yes.ok) return yes
  const no = judgeFormula(tree.no, names)
  if (!no.ok) return no
  const unit = together(yes.value, no.value)
  if (unit !== undefined) return ok(unit)
  return err(`«? :» gives ${sayUnit(yes.value)} or ${sayUnit(no.value)}; both must be of one unit.`)
}

type Number1 = (unit: NumberUnit) => Judged
const wants =
  (name: string, wanted: NumberUnit, gives: Unit): Number1 =>
  (unit) =>
    together(unit, wanted) === undefined
      ? err(`«${name}» wants ${sayUnit(wanted)} and gets ${sayUnit(unit)}.`)
      : ok(gives)
const keeps: Number1 = (unit) => ok(unit)

const ONE: Readonly<Record<Exclude<FunctionName, 'min' | 'max' | 'atan2' | 'shank'>, Number1>> = {
  abs: keeps,
  round: keeps,
  floor: keeps,
  ceil: keeps,
  sqrt: (unit) =>
    unit.mm % 2 === 0 && unit.deg % 2 === 0
      ? ok(power(unit, 0.5))
      : err(`«sqrt» wants a plain number or an area and gets ${sayUnit(unit)}.`),
  sin: wants('sin', DEG, PLAIN),
  cos: wants('cos', DEG, PLAIN),
  tan: wants('tan', DEG, PLAIN),
  asin: wants('asin', PLAIN, DEG),
  acos: wants('acos', PLAIN, DEG),
  atan: wants('atan', PLAIN, DEG),
}

function judgeCall({ name, args }: Extract<Syntax, { kind: 'call' }>, names: UnitsByName): Judged {
  const [least, most] = FUNCTIONS[name]
  if (args.length < least || args.length > most)
    return err(
      `«${name}» takes ${least === most ? least : `${least} to ${most}`} in its brackets; it has ${args.length}.`,
    )
  if (name === 'shank') return judgeShank(args[0], names)
  const units: NumberUnit[] = []
  for (const arg of args) {
    const unit = numberOf(arg, names, name)
    if (!unit.ok) return unit
    units.push(unit.value)
  }
  if (name !== 'min' && name !== 'max' && name !== 'atan2') return ONE[name](units[0])
  let whole: Unit = units[0]
  for (const unit of units) {
    const both = together(whole, unit)
    if (both === undefined)
      return err(`«${name}» gets ${sayUnit(whole)} and ${sayUnit(unit)}, which do not go together.`)
    whole = both
  }
  return ok(name === 'atan2' ? DEG : whole)
}

function judgeShank(arg: Syntax, names: UnitsByName): Judged {
  const isSize = arg.kind === 'name' && arg.name === 'screwSize'
  if (!isSize || !names.has('screwSize')) return err('«shank» takes screwSize: shank(screwSize).')
  return ok(MM)
}
