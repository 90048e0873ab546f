/** Sets of parameters that once broke a design, or that lie at the edge of what it can do: each judged as a whole. */
import fs from 'node:fs'
import path from 'node:path'
import { beforeAll, describe, expect, it } from 'vitest'
import { designById } from '#lib/core/design/designs/registry'
import type { ParameterValues } from '#lib/core/design/model'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { firstUnit, judgeJoints, judgeSolids, judgeStanding } from './judge-model'

interface Case {
  readonly design: string
  readonly why: string
  readonly parameters: ParameterValues
  /** `any`: built or refused by name, as long as what is built is sound. */
  readonly expect: 'built' | 'refused' | 'any'
}

const FOLDER = path.join(import.meta.dirname, '../../corpus/design')
const cases = fs
  .readdirSync(FOLDER)
  .map(
    (file) =>
      [
        file.replace('.json', ''),
        JSON.parse(fs.readFileSync(path.join(FOLDER, file), 'utf8')) as Case,
      ] as const,
  )

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

describe('named cases of designs', () => {
  it.each(cases)('%s', (_, { design, why, parameters, expect: wanted }) => {
    expect(why.length).toBeGreaterThan(20)
    const built = designById(design)!.build(parameters)
    if (wanted !== 'any') expect(built.ok ? 'built' : 'refused').toBe(wanted)
    if (!built.ok) {
      expect(built.error.every(({ parameter }) => parameter.length > 0)).toBe(true)
      return
    }
    const parts = firstUnit(built.value)
    judgeStanding(built.value, parts)
    expect(judgeSolids(kernel, parts)).toBeGreaterThan(5)
    judgeJoints(built.value, parts)
  })
})
