/**
 * Formulas of recipes, read by mathjs and let through only in part: numbers, names, + - * / ^ mod, comparison,
 * and/or/not, a choice of two and the functions of syntax.ts. Nothing of mathjs' own is evaluated: its tree becomes
 * ours (lib/core/design/recipe/syntax.ts). Length, depth and number of nodes are bounded before and after.
 * Tests: tests/core/design/recipe/formula.test.ts
 */
import {
  type ConditionalNode,
  type ConstantNode,
  create,
  type FunctionNode,
  type MathNode,
  type OperatorNode,
  type ParenthesisNode,
  parseDependencies,
  type RelationalNode,
  type SymbolNode,
} from 'mathjs/number'
import { nearestName } from '#lib/core/design/recipe/nearest-name'
import { LIMITS } from '#lib/core/design/recipe/recipe'
import { type Binary, FUNCTIONS, type FunctionName, type Syntax } from '#lib/core/design/recipe/syntax'
import { err, ok, type Result } from '#lib/core/units/result'

/** The parser alone: a third of the library's size. */
const { parse } = create(parseDependencies)

/** One sentence for the maker, thrown inside this file only. */
class Unfit extends Error {}

/** Operators by the name that mathjs gives them. */
const OPERATORS: Readonly<Record<string, Binary>> = {
  add: '+',
  subtract: '-',
  multiply: '*',
  divide: '/',
  pow: '^',
  mod: 'mod',
  smaller: '<',
  smallerEq: '<=',
  larger: '>',
  largerEq: '>=',
  equal: '==',
  unequal: '!=',
  and: 'and',
  or: 'or',
}
const OWN = (table: object, key: string): boolean => Object.hasOwn(table, key)

const WORD_OF_NODE: Readonly<Record<string, string>> = {
  AccessorNode: 'A point or a bracket after a name',
  ArrayNode: 'A list in square brackets',
  AssignmentNode: '«=»',
  BlockNode: '«;» or a second line',
  FunctionAssignmentNode: 'A function of your own',
  IndexNode: 'A square bracket',
  ObjectNode: 'A brace',
  RangeNode: '«:»',
}

interface Room {
  nodes: number
}

function treeOf(node: MathNode, room: Room, depth: number): Syntax {
  if (++room.nodes > LIMITS.formulaNodes)
    throw new Unfit('This formula is too long: give a part of it a name of its own.')
  if (depth > LIMITS.formulaDepth)
    throw new Unfit('This formula is nested too deeply: give a part of it a name of its own.')
  const child = (inner: MathNode): Syntax => treeOf(inner, room, depth + 1)
  switch (node.type) {
    case 'ParenthesisNode':
      return child((node as ParenthesisNode).content)
    case 'ConstantNode':
      return constant((node as ConstantNode).value)
    case 'SymbolNode':
      return { kind: 'name', name: (node as SymbolNode).name }
    case 'OperatorNode':
      return operator(node as OperatorNode, child)
    case 'RelationalNode':
      return chain(node as RelationalNode, child)
    case 'ConditionalNode': {
      const { condition, trueExpr, falseExpr } = node as ConditionalNode
      return { kind: 'choose', test: child(condition), yes: child(trueExpr), no: child(falseExpr) }
    }
    case 'FunctionNode':
      return call(node as FunctionNode, child)
    default:
      throw new Unfit(`${WORD_OF_NODE[node.type] ?? 'That'} is not part of a formula here.`)
  }
}

function constant(value: unknown): Syntax {
  if (typeof value === 'number') return { kind: 'number', value }
  if (typeof value === 'string') return { kind: 'text', value }
  throw new Unfit(`«${String(value)}» is not part of a formula here.`)
}

function operator(node: OperatorNode, child: (inner: MathNode) => Syntax): Syntax {
  const { fn, args, op } = node as OperatorNode & { implicit: boolean }
  if (fn === 'unaryMinus') return { kind: 'unary', op: '-', of: child(args[0]) }
  if (fn === 'unaryPlus') return child(args[0])
  if (fn === 'not') return { kind: 'unary', op: 'not', of: child(args[0]) }
  if (!OWN(OPERATORS, fn) || args.length !== 2) throw new Unfit(`«${op}» is not part of a formula here.`)
  if ((node as unknown as { implicit: boolean }).implicit) {
    if (!isMm(args[1])) throw new Unfit('Write * between what is multiplied.')
    // «1 / 2 mm» might be read two ways.
    if (args[0].type !== 'ConstantNode')
      throw new Unfit('Put a length that is written out in brackets: (180 mm).')
  }
  return { kind: 'binary', op: OPERATORS[fn], left: child(args[0]), right: child(args[1]) }
}

/** «180 mm» and «2 mm^2» are numbers with their unit. */
function isMm(node: MathNode): boolean {
  if (node.type === 'SymbolNode') return (node as SymbolNode).name === 'mm'
  return (
    node.type === 'OperatorNode' &&
    (node as OperatorNode).fn === 'pow' &&
    isMm((node as OperatorNode).args[0])
  )
}

/** a < b < c as a < b and b < c. */
function chain(node: RelationalNode, child: (inner: MathNode) => Syntax): Syntax {
  const { conditionals, params } = node as unknown as { conditionals: string[]; params: MathNode[] }
  const links = conditionals.map((name, i): Syntax => {
    if (!OWN(OPERATORS, name)) throw new Unfit('That comparison is not part of a formula here.')
    return { kind: 'binary', op: OPERATORS[name], left: child(params[i]), right: child(params[i + 1]) }
  })
  return links.reduce((left, right) => ({ kind: 'binary', op: 'and', left, right }))
}

function call(node: FunctionNode, child: (inner: MathNode) => Syntax): Syntax {
  const { fn, args } = node as unknown as { fn: MathNode; args: MathNode[] }
  if (fn.type !== 'SymbolNode') throw new Unfit('Only a named function may stand before brackets.')
  const { name } = fn as SymbolNode
  if (OWN(FUNCTIONS, name)) return { kind: 'call', name: name as FunctionName, args: args.map(child) }
  const near = nearestName(name, Object.keys(FUNCTIONS))
  const hint = near === undefined ? 'To multiply by a bracket, write * before it.' : `Do you mean «${near}»?`
  throw new Unfit(`There is no function «${name}». ${hint}`)
}

const MOST_BRACKETS = 40
const MOST_KEPT = 2000

function read(text: string): Result<Syntax, string> {
  if (text.trim() === '') return err('Type a number or a formula.')
  if (text.length > LIMITS.formulaChars)
    return err(`A formula has at most ${LIMITS.formulaChars} characters.`)
  if ((text.match(/[([{]/g)?.length ?? 0) > MOST_BRACKETS) return err('This formula has too many brackets.')
  // What a person may type for a minus, a times sign and the comparisons.
  const plain = text
    .replace(/[−–]/g, '-')
    .replace(/[×·]/g, '*')
    .replace(/÷/g, '/')
    .replace(/≤/g, '<=')
    .replace(/≥/g, '>=')
    .replace(/≠/g, '!=')
    .replace(/°/g, '')
  if (/[\r\n;#]/.test(plain)) return err('A formula is one line, without «;» and «#».')
  if (/\d,\d/.test(plain) && !plain.includes('(')) return err('Write a point for the decimals: 12.5.')
  try {
    return ok(treeOf(parse(plain), { nodes: 0 }, 1))
  } catch (caught) {
    if (caught instanceof Unfit) return err(caught.message)
    if (caught instanceof SyntaxError) return err(sayWhere(caught, plain))
    if (caught instanceof RangeError) return err('This formula is nested too deeply.')
    throw caught
  }
}

/** Where reading stopped, in the maker's words. */
function sayWhere(caught: SyntaxError, text: string): string {
  const { char } = caught as SyntaxError & { char?: number }
  if (char === undefined || char > text.length)
    return 'This formula breaks off: something is missing at its end.'
  return `This formula cannot be read from «${text.slice(char - 1, char + 9)}» on.`
}

const kept = new Map<string, Result<Syntax, string>>()

/** @example parseFormula('2 * rake').ok //=> true */
export function parseFormula(text: string): Result<Syntax, string> {
  const known = kept.get(text)
  if (known !== undefined) return known
  const found = read(text)
  if (kept.size >= MOST_KEPT) kept.clear()
  kept.set(text, found)
  return found
}
