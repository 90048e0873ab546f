import { describe, expect, it } from 'vitest'
import { counterSeat } from '#lib/core/design/designs/counter-seat/counter-seat'
import type { Model } from '#lib/core/design/model'
import { prepareFrame } from '#lib/core/statics/frame'
import { staticsFromModel } from '#lib/core/statics/from-model'
import { frameCaseOf, loadCases } from '#lib/core/statics/load-cases'
import { footPoints, partAxis, sectionAt } from '#lib/core/statics/part-axis'
import { checkStrength } from '#lib/core/statics/strength'
import { verifyFrame } from '#lib/core/statics/verify-frame'
import { box, joinParts, longBench, modelOf, plank } from './models'

const OPTIONS = { grade: 'clear', factor: 2 } as const

function seat(values: Record<string, number | string> = {}): Model {
  const built = counterSeat.build({ species: 'redOak', ...values })
  if (!built.ok) throw new Error(built.error[0].message)
  return built.value
}
function statics(model: Model) {
  const made = staticsFromModel(model, OPTIONS)
  if (!made.ok) throw new Error(made.error)
  return made.value
}

describe('a part as a member', () => {
  it('runs from end to end of its wood, along its middle', () => {
    const axis = partAxis(box('a', [10, 20, 30], [410, 60, 50], 'x'))!
    expect([axis.fromMm, axis.toMm]).toEqual([0, 400])
    expect(axis.topMm).toBe(50)
    expect(axis.volumeMm3).toBeCloseTo(400 * 40 * 20, 3)
  })

  it('is thinner in a notch, and its middle moves', () => {
    const leg = seat({ joint: 'letIn' }).parts.find(({ id }) => id === 'seat1-leg-left-front')!
    const axis = partAxis(leg)!
    const { notch } = axis.notches[0]
    const inside = sectionAt(axis, notch.alongMm)
    expect([inside.widthMm, inside.thicknessMm, inside.isNotched]).toEqual([45, 19, true])
    expect(Math.hypot(...inside.offset)).toBeCloseTo(9.5, 9)
    expect(sectionAt(axis, notch.alongMm + 100).thicknessMm).toBe(38)
  })

  it('stands on the middle of its foot; a runner on both ends', () => {
    const leg = partAxis(box('leg', [0, 0, 0], [40, 40, 400], 'z'))!
    expect(footPoints(leg)).toEqual([[20, 20, 0]])
    const runner = partAxis(box('runner', [0, 0, 0], [400, 40, 30], 'x'))!
    expect(
      footPoints(runner)
        .map(([x]) => x)
        .sort(),
    ).toEqual([0, 400])
    const panel = partAxis(box('panel', [0, 0, 0], [30, 250, 400], 'z'))!
    expect(
      footPoints(panel)
        .map(([, y]) => y)
        .sort(),
    ).toEqual([0, 250])
    expect(footPoints(partAxis(box('rail', [0, 0, 100], [400, 40, 130], 'x'))!)).toEqual([])
  })
})

describe('the frame of a model', () => {
  it('takes the first of several seats alike', () => {
    expect(statics(seat({ abreast: 3 })).parts.size).toBe(statics(seat({ abreast: 1 })).parts.size)
  })

  it('weighs what the design says the seat weighs', () => {
    const model = seat()
    const kg = model.figures.find(({ id }) => id === 'weight')!.value
    expect(statics(model).weightN / 9.81).toBeCloseTo(kg, 6)
  })

  it('passes the independent check in every load case, at a residual below 1e-9', () => {
    let judged = 0
    for (const model of [
      seat(),
      seat({ joint: 'onFace' }),
      seat({ rake: 0, supportFace: 'outer' }),
      longBench(),
      plank(800, 18),
    ]) {
      const made = statics(model)
      const frame = prepareFrame({ ...made.frame, cases: [] })
      if (!frame.ok) throw new Error(frame.error.message)
      for (const one of loadCases(made)) {
        const frameCase = frameCaseOf(one, one.whenTips === 'reduce' ? 0.2 : 1)
        const result = frame.value.solve(frameCase)
        if (!result.ok) throw new Error(result.error.message)
        if (result.value.status !== 'held') continue
        expect(verifyFrame({ ...made.frame, cases: [] }, frameCase, result.value)).toEqual([])
        expect(result.value.residual).toBeLessThan(1e-9)
        const pushes = [...result.value.feet.values()].reduce((sum, { forceN }) => sum + forceN[2], 0)
        expect(pushes).toBeGreaterThan(made.weightN)
        judged++
      }
    }
    expect(judged).toBeGreaterThan(30)
  })

  it('a mirrored seat is loaded as its mirror image', () => {
    const report = checkStrength(seat())
    if (!report.ok) throw new Error(report.error)
    const margin = (id: string) => report.value.checks.find((check) => check.id === id)!.margin
    for (const kind of ['bending', 'shear', 'buckling'])
      for (const part of ['leg-left-front', 'support-left-top'])
        expect(
          margin(`${kind}/seat1-${part}`) / margin(`${kind}/seat1-${part.replace('left', 'right')}`),
        ).toBeCloseTo(1, 6)
  })
})

describe('what cannot be judged gets a sentence and no number', () => {
  const refusal = (model: Model): string => {
    const report = checkStrength(model)
    return report.ok ? 'judged' : report.error
  }
  const board = box('Board', [0, 0, 400], [860, 250, 420], 'x')
  const left = box('Left upright', [0, 0, 0], [30, 250, 400], 'z')
  const right = box('Right upright', [830, 0, 0], [860, 250, 400], 'z')

  it('an unknown species', () => {
    const odd = { ...board, species: 'plastic' }
    expect(refusal(modelOf([odd, left, right], [joinParts(odd, left), joinParts(odd, right)]))).toMatch(
      /species «plastic» of «Board» is not in the table/,
    )
  })

  it('a joint without screws and glue', () => {
    expect(
      refusal(
        modelOf(
          [board, left, right],
          [joinParts(board, left, { glued: false, screws: 0 }), joinParts(board, right)],
        ),
      ),
    ).toMatch(/Nothing holds «Board» to «Left upright»/)
  })

  it('a part that touches nothing', () => {
    expect(refusal(modelOf([board, left, right], [joinParts(board, left)]))).toMatch(
      /«Right upright» touches nothing/,
    )
  })

  it('no part on the floor', () => {
    const lifted = (part: typeof board) => ({
      ...part,
      frame: {
        ...part.frame,
        origin: [part.frame.origin[0], part.frame.origin[1], part.frame.origin[2] + 100] as const,
      },
    })
    const [b, l] = [lifted(board), lifted(left)]
    expect(refusal(modelOf([b, l], [joinParts(b, l)]))).toMatch(/No part stands on the floor/)
  })

  it('feet on one line', () => {
    const [a, b] = [box('a', [0, 0, 0], [30, 0.4, 400], 'z'), box('b', [0, 0, 400], [400, 40, 420], 'x')]
    expect(refusal(modelOf([a, b], [joinParts(b, a)]))).not.toBe('judged')
  })

  it('no parts', () => {
    expect(refusal(modelOf([], []))).toBe('The model has no parts.')
  })
})
