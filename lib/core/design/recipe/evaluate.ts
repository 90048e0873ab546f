/**
 * What a formula is worth. In: a tree that judge-formula.ts has passed, and the value of each name: mm, degrees, plain
 * numbers, yes/no. Out: a value; not-a-number and infinity are the caller's to refuse. Cost: one visit a node.
 * Tests: tests/core/design/recipe/formula.test.ts
 */
import { shankOf } from '../shared-parameters'
import { CONSTANTS, type FunctionName, type Syntax } from './syntax'

export type Value = number | boolean | string
export type Values = ReadonlyMap<string, Value>

const RAD = Math.PI / 180

const CALLS: Readonly<Record<Exclude<FunctionName, 'shank'>, (...args: number[]) => number>> = {
  min: Math.min,
  max: Math.max,
  abs: Math.abs,
  round: Math.round,
  floor: Math.floor,
  ceil: Math.ceil,
  sqrt: Math.sqrt,
  sin: (deg) => Math.sin(deg * RAD),
  cos: (deg) => Math.cos(deg * RAD),
  tan: (deg) => Math.tan(deg * RAD),
  asin: (x) => Math.asin(x) / RAD,
  acos: (x) => Math.acos(x) / RAD,
  atan: (x) => Math.atan(x) / RAD,
  atan2: (y, x) => Math.atan2(y, x) / RAD,
}

/** @throws RangeError for a name that has no value: the tree was not judged with these names */
export function evaluate(tree: Syntax, values: Values): Value {
  switch (tree.kind) {
    case 'number':
    case 'text':
      return tree.value
    case 'name':
      return nameWorth(tree.name, values)
    case 'unary':
      return tree.op === '-' ? -Number(evaluate(tree.of, values)) : evaluate(tree.of, values) !== true
    case 'binary':
      return binary(tree, values)
    case 'call':
      if (tree.name === 'shank') return shankOf(String(evaluate(tree.args[0], values)))
      return CALLS[tree.name](...tree.args.map((arg) => Number(evaluate(arg, values))))
    case 'choose':
      return evaluate(evaluate(tree.test, values) === true ? tree.yes : tree.no, values)
  }
}

function nameWorth(name: string, values: Values): Value {
  const value = values.get(name)
  if (value !== undefined) return value
  if (name === 'pi' || name === 'mm') return CONSTANTS[name]
  throw new RangeError(`no value for ${name}`)
}

function binary({ op, left, right }: Extract<Syntax, { kind: 'binary' }>, values: Values): Value {
  const a = evaluate(left, values)
  if (op === 'and') return a === true && evaluate(right, values) === true
  if (op === 'or') return a === true || evaluate(right, values) === true
  const b = evaluate(right, values)
  if (op === '==') return a === b
  if (op === '!=') return a !== b
  const [x, y] = [Number(a), Number(b)]
  switch (op) {
    case '+':
      return x + y
    case '-':
      return x - y
    case '*':
      return x * y
    case '/':
      return x / y
    case 'mod':
      return x - y * Math.floor(x / y)
    case '^':
      return x ** y
    case '<':
      return x < y
    case '<=':
      return x <= y
    case '>':
      return x > y
    case '>=':
      return x >= y
  }
}
