import { spawnSync } from 'node:child_process'
import fs from 'node:fs'
import path from 'node:path'
import { describe, expect, test } from 'vitest'
import { verifyCutPlan } from '#lib/core/cutting/verify'
import { answer } from '#lib/engine/core-door'

const home = path.resolve(import.meta.dirname, '../..')
const formats = fs.readFileSync(path.join(home, 'docs/formats.md'), 'utf8')

interface Example {
  readonly verb: string
  readonly given: string
  readonly wanted: unknown
}

/** The examples of docs/formats.md: each `in` with the `out` that follows it. */
function examples(): readonly Example[] {
  const blocks = [...formats.matchAll(/```json (\w+) (in|out)\n([\s\S]*?)\n```/g)]
  return blocks.flatMap(([, verb, side, text], i) => {
    if (side === 'out') return []
    const [, nextVerb, nextSide, out] = blocks[i + 1]
    expect([nextVerb, nextSide]).toEqual([verb, 'out'])
    return [{ verb, given: text, wanted: JSON.parse(out) }]
  })
}

async function good(verb: string, given: unknown): Promise<Record<string, unknown>> {
  const text = typeof given === 'string' ? given : JSON.stringify(given)
  const done = await answer([verb], text)
  expect(done.stderr).toBe('')
  expect(done.exitCode).toBe(0)
  return JSON.parse(done.stdout)
}

async function bad(args: readonly string[], given: unknown) {
  const done = await answer(args, typeof given === 'string' ? given : JSON.stringify(given))
  expect(done.stdout).toBe('')
  const { error } = JSON.parse(done.stderr) as { error: { code: string; message: string; path: unknown[] } }
  return { exitCode: done.exitCode, ...error }
}

/** All that is shown must be so; an answer may hold more. Numbers are shown to six places. */
function expectShown(got: unknown, shown: unknown, at: string): void {
  if (typeof shown === 'number') {
    expect(got, at).toBeTypeOf('number')
    expect(Math.abs((got as number) - shown), at).toBeLessThan(1e-6)
  } else if (typeof shown === 'object' && shown !== null) {
    for (const [key, value] of Object.entries(shown)) {
      expectShown((got as Record<string, unknown> | undefined)?.[key], value, `${at}.${key}`)
    }
  } else expect(got, at).toBe(shown)
}

/** Names of all fields of an answer, but for those that a caller or a design chooses. */
function fieldNames(value: unknown, into = new Set<string>()): ReadonlySet<string> {
  if (typeof value !== 'object' || value === null) return into
  for (const [key, inner] of Object.entries(value)) {
    if (!Array.isArray(value)) into.add(key)
    if (key !== 'parameters') fieldNames(inner, into)
  }
  return into
}

const ONE_BOARD = examples().find((example) => example.verb === 'cut')!
const cutExample = () => JSON.parse(ONE_BOARD.given)
const setupsExample = () => JSON.parse(examples().find((example) => example.verb === 'setups')!.given)

describe('docs/formats.md', () => {
  test('has an example of every verb', () => {
    expect(examples().map((example) => example.verb)).toEqual([
      'model',
      'model',
      'cut',
      'cut',
      'setups',
      'frame',
      'strength',
    ])
  })

  test.each(examples())('its example of $verb comes out as it says', async ({ verb, given, wanted }) => {
    expectShown(await good(verb, given), wanted, verb)
  })

  test.each(examples())('names every field of $verb, in and out', async ({ verb, given }) => {
    const told = new Set([...formats.matchAll(/`([^`\n]+)`/g)].flatMap(([, text]) => text.split(/[^\w]+/)))
    const names = [...fieldNames(JSON.parse(given)), ...fieldNames(await good(verb, given))]
    expect(names.filter((name) => !told.has(name))).toEqual([])
  })
})

describe('model', () => {
  test('left-out parameters take their defaults', async () => {
    const plain = await good('model', { design: 'counterSeat' })
    const { parameters } = plain as { parameters: Record<string, unknown> }
    expect(await good('model', { design: 'counterSeat', parameters })).toEqual(plain)
  })

  test('a recipe that makes no sense is refused at its field', async () => {
    const { recipe } = JSON.parse(examples()[1].given)
    recipe.parts[1].length = 'lng / 2'
    expect(await bad(['model'], { recipe })).toMatchObject({
      exitCode: 2,
      code: 'badInput',
      message: 'There is no name «lng» here. Do you mean «long»?',
      path: ['recipe', 'parts', 1, 'length'],
    })
    recipe.parts[1].length = 'long / (long - 600)'
    expect(await bad(['model'], { recipe })).toMatchObject({ code: 'badInput' })
    recipe.parts[1].length = 'long * long / (long - 600)'
    expect(await bad(['model'], { recipe })).toMatchObject({ code: 'refused', path: ['parameters', 'long'] })
  })

  test('a design that there is not is answered with those that there are', async () => {
    const error = await bad(['model'], { design: 'throne' })
    expect(error).toMatchObject({ exitCode: 2, code: 'badInput', path: ['design'] })
    expect(error.message).toMatch(/counterSeat/)
  })

  test('a parameter out of its range is refused by name', async () => {
    const error = await bad(['model'], { design: 'counterSeat', parameters: { rake: 80 } })
    expect(error).toMatchObject({ exitCode: 2, code: 'refused', path: ['parameters', 'rake'] })
  })
})

describe('cut', () => {
  test('its plan passes the independent check', async () => {
    const { problem } = cutExample()
    const { plan } = await good('cut', ONE_BOARD.given)
    expect(verifyCutPlan(problem, plan as never)).toEqual([])
  })

  test('same seed and steps, same plan', async () => {
    const [a, b] = [await good('cut', ONE_BOARD.given), await good('cut', ONE_BOARD.given)]
    expect(a.plan).toEqual(b.plan)
  })

  // V. Chvatal, Linear Programming, 1983, ch. 13: 100-inch rolls, optimum 453.
  test('solves a published instance, in a file of them', async () => {
    const widths = [45, 36, 31, 14]
    const demands = [97, 610, 395, 211]
    const instance = {
      name: 'chvatal',
      dim: 1,
      objective: 'min_bins',
      stock: [{ w: 100, count: null, cost: 1 }],
      items: widths.map((w, i) => ({ w, demand: demands[i] })),
      known: { best: 453 },
    }
    const { instances } = (await good('cut', {
      set: 'book',
      instances: [instance, instance],
      seconds: 20,
    })) as {
      instances: readonly Record<string, never>[]
    }
    expect(instances).toHaveLength(2)
    for (const got of instances) {
      expect(got).toMatchObject({ name: 'chvatal', status: 'optimal', value: 453, bound: 453 })
      const layout = got.layout as readonly { copies: number; parts: readonly { item: number }[] }[]
      const made = widths.map((_, i) =>
        layout.reduce((sum, l) => sum + l.copies * l.parts.filter((p) => p.item === i).length, 0),
      )
      expect(made.every((count, i) => count >= demands[i])).toBe(true)
    }
  })

  test.each([
    ['a negative length', (p: never) => ({ ...(p as object), kerfUm: -1 }), ['problem', 'kerfUm']],
    ['a misspelt field', (p: never) => ({ ...(p as object), kerf: 3 }), ['problem']],
  ])('%s is refused with its place', async (_, change, where) => {
    const input = cutExample()
    const error = await bad(['cut'], { ...input, problem: change(input.problem as never) })
    expect(error).toMatchObject({ exitCode: 2, code: 'badInput', path: where })
  })

  test('an index of no board is refused', async () => {
    const input = cutExample()
    input.problem.zones[0].board = 7
    expect(await bad(['cut'], input)).toMatchObject({ exitCode: 2, code: 'badInput' })
  })

  test('a fault deep in a published instance is told where it is', async () => {
    const instance = {
      name: 'x',
      dim: 1,
      objective: 'min_bins',
      stock: [{ w: 10, count: 1 }],
      items: [{ w: -4, demand: 1 }],
    }
    const error = await bad(['cut'], { instances: [instance] })
    expect(error).toMatchObject({ exitCode: 2, path: ['instances', 0, 'items', 0, 'w'] })
  })

  test('a flat instance without heights is refused', async () => {
    const instance = {
      name: 'x',
      dim: 2,
      objective: 'min_bins',
      stock: [{ w: 10, count: 1 }],
      items: [{ w: 4, demand: 1 }],
    }
    expect((await bad(['cut'], instance)).message).toMatch(/needs h/)
  })
})

describe('setups', () => {
  test('takes a whole answer of the verb model', async () => {
    const model = await good('model', { design: 'counterSeat' })
    const plan = await good('setups', { ...setupsExample(), model, layouts: [] })
    expect((plan as { partsWithoutPiece: unknown[] }).partsWithoutPiece).toHaveLength(
      (model.parts as unknown[]).length,
    )
  })

  test('a tree whose pieces do not fit is refused with its place', async () => {
    const input = setupsExample()
    input.layouts[0].tree.first.lengthUm += 1
    expect(await bad(['setups'], input)).toMatchObject({ exitCode: 2, path: ['layouts', 0, 'tree'] })
  })

  test('an index of no board, no blank: refused', async () => {
    const [noBoard, noBlank] = [setupsExample(), setupsExample()]
    noBoard.layouts[0].board = 3
    noBlank.layouts[0].tree.first.blank = 3
    expect(await bad(['setups'], noBoard)).toMatchObject({ exitCode: 2, code: 'badInput' })
    expect(await bad(['setups'], noBlank)).toMatchObject({
      exitCode: 2,
      path: ['layouts', 0, 'tree', 'first', 'blank'],
    })
  })

  test('a step wider than the kerf is refused', async () => {
    const input = setupsExample()
    input.shop.tableSaw.kerfMm = 2.4
    expect(await bad(['setups'], input)).toMatchObject({
      exitCode: 2,
      path: ['shop', 'tableSaw', 'notchStepMm'],
    })
  })
})

describe('the door itself', () => {
  test.each([[[]], [['fly']], [['cut', 'model']], [['constructor']]])('verbs %j: usage', async (args) => {
    expect(await bad(args, '{}')).toMatchObject({ exitCode: 2, code: 'usage' })
  })

  test.each(['', '{', 'null', '[]', '3', `${'['.repeat(9_000)}${']'.repeat(9_000)}`])(
    '%j is bad input, not a crash',
    async (text) => {
      for (const verb of ['model', 'cut', 'setups'])
        expect((await bad([verb], text.slice(0, 20_000))).exitCode).toBe(2)
    },
  )

  test('is a command: JSON in, JSON out, exit code 2 for bad input', () => {
    const run = (verb: string, input: string) =>
      spawnSync(process.execPath, ['lib/start/core.mjs', verb], { cwd: home, input, encoding: 'utf8' })
    const fine = run('model', '{ "design": "counterSeat" }')
    expect(JSON.parse(fine.stdout)).toMatchObject({ designId: 'counterSeat' })
    expect(fine.status).toBe(0)
    const wrong = run('model', '{')
    expect(JSON.parse(wrong.stderr).error.code).toBe('badJson')
    expect(wrong.stdout).toBe('')
    expect(wrong.status).toBe(2)
  }, 60_000)
})
