/**
 * What a formula may hold, as a tree. A parser behind `ParseFormula` (lib/engine/formula-parser.ts) makes it and lets
 * nothing else through: no property, no assignment, no function of one's own. Names are looked up in what a recipe
 * declares and nowhere else. Tests: tests/core/design/recipe/formula.test.ts
 */
import type { Result } from '#lib/core/units/result'

export const BINARY = ['+', '-', '*', '/', 'mod', '^', '<', '<=', '>', '>=', '==', '!=', 'and', 'or'] as const
export type Binary = (typeof BINARY)[number]

export type Syntax =
  | { readonly kind: 'number'; readonly value: number }
  | { readonly kind: 'text'; readonly value: string }
  | { readonly kind: 'name'; readonly name: string }
  | { readonly kind: 'unary'; readonly op: '-' | 'not'; readonly of: Syntax }
  | { readonly kind: 'binary'; readonly op: Binary; readonly left: Syntax; readonly right: Syntax }
  | { readonly kind: 'call'; readonly name: FunctionName; readonly args: readonly Syntax[] }
  | { readonly kind: 'choose'; readonly test: Syntax; readonly yes: Syntax; readonly no: Syntax }

/** @returns a tree within the limits, or one sentence about what is wrong */
export type ParseFormula = (text: string) => Result<Syntax, string>

/** Functions and how many arguments they take. */
export const FUNCTIONS = {
  min: [1, 20],
  max: [1, 20],
  abs: [1, 1],
  round: [1, 1],
  floor: [1, 1],
  ceil: [1, 1],
  sqrt: [1, 1],
  sin: [1, 1],
  cos: [1, 1],
  tan: [1, 1],
  asin: [1, 1],
  acos: [1, 1],
  atan: [1, 1],
  atan2: [2, 2],
  shank: [1, 1],
} as const
export type FunctionName = keyof typeof FUNCTIONS

/** Constants that every formula knows. */
export const CONSTANTS = { pi: Math.PI, mm: 1 } as const

/** Words of the formula language, and names that every object of the language underneath has. */
const RESERVED = new Set([
  ...Object.keys(FUNCTIONS),
  ...Object.keys(CONSTANTS),
  ...[
    'and',
    'or',
    'not',
    'xor',
    'in',
    'to',
    'mod',
    'end',
    'true',
    'false',
    'null',
    'undefined',
    'NaN',
    'Infinity',
  ],
  ...['i', 'j', 'n', 'atLeft', 'atRight', 'atFront', 'atBack', 'weight'],
  ...['screwSize', 'finish', 'species'],
])

const NAME = /^[a-zA-Z][a-zA-Z0-9]{0,39}$/

/** Why a word cannot be a name of one's own; undefined if it can. @example nameFault('rake') //=> undefined */
export function nameFault(name: string): string | undefined {
  if (name === '') return 'Give it a name.'
  if (!NAME.test(name)) return 'A name is letters and digits, up to 40, and begins with a letter.'
  if (RESERVED.has(name) || name in {}) return `«${name}» means something already: choose another name.`
  return undefined
}

/** Names that a tree mentions. */
export function namesIn(tree: Syntax): ReadonlySet<string> {
  const names = new Set<string>()
  const walk = (node: Syntax): void => {
    if (node.kind === 'name') names.add(node.name)
    for (const child of childrenOf(node)) walk(child)
  }
  walk(tree)
  return names
}

export function childrenOf(node: Syntax): readonly Syntax[] {
  switch (node.kind) {
    case 'unary':
      return [node.of]
    case 'binary':
      return [node.left, node.right]
    case 'call':
      return node.args
    case 'choose':
      return [node.test, node.yes, node.no]
    default:
      return []
  }
}
