import { describe, expect, it } from 'vitest'
import { bookcase } from '#lib/core/design/designs/bookcase/bookcase'
import type { ParameterValues } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

describe('open bookcase', () => {
  it('adds up: shelves between the posts at equal distances', () => {
    const model = modelOf(bookcase, {
      width: 800,
      postThickness: 34,
      height: 1100,
      bottomHeight: 110,
      shelves: 4,
    })
    expect(figureOf(model, 'shelfLength')).toBe(732)
    expect(figureOf(model, 'pitch')).toBe(330)
    expect(figureOf(model, 'shelfRun')).toBe(4 * 732)
    expect(figureOf(model, 'proud')).toBe(18)
  })

  it('a post has its prism less a notch for each bearer', () => {
    const post = partOf(modelOf(bookcase, { shelves: 5 }), 'post-left-front')
    expect(post.operations.filter((op) => op.kind === 'notch')).toHaveLength(5)
    expect(massProperties(post).volumeMm3).toBeCloseTo(60 * 34 * 1100 - 5 * 60 * 45 * 10, 6)
  })

  it('each shelf lies on what stands proud of the posts, and each rail is behind a shelf', () => {
    const { joints } = modelOf(bookcase)
    const on = joints.find((joint) => joint.id === 'shelf-left-2-1')!
    expect(on.contact.areaMm2).toBeCloseTo(18 * 129, 6)
    expect(joints.filter((joint) => joint.id.endsWith('-shelf')).map((joint) => joint.b)).toEqual([
      'shelf-1-2',
      'shelf-3-2',
      'shelf-4-2',
    ])
    // The lower shoulder of a notch carries the bearer: the notch is as wide as the bearer.
    const [notch] = partOf(modelOf(bookcase), 'post-right-back').operations.filter(
      (op) => op.kind === 'notch',
    )
    expect(notch.widthMm).toBeCloseTo(45, 9)
    expect(notch.depthMm).toBeCloseTo(10, 9)
  })

  it.each<[string, ParameterValues, string]>([
    ['shelves meet', { shelves: 8, height: 600 }, 'shelves'],
    ['bottom on the floor', { bottomHeight: 70 }, 'bottomHeight'],
    ['posts meet', { depth: 180, postWidth: 80 }, 'postWidth'],
    ['notch too deep', { letIn: 20 }, 'letIn'],
    ['nothing to lie on', { letIn: 12, bearerThickness: 20 }, 'letIn'],
    ['no shelf left', { width: 300, postThickness: 60 }, 'width'],
    ['boards too narrow', { shelfBoards: 4, depth: 190 }, 'shelfBoards'],
    ['more rails than shelves', { shelves: 2, rails: 3 }, 'rails'],
    [
      'screw splits a bearer',
      { bearerThickness: 18, letIn: 6, screwSize: 'no10', shelfThickness: 22, postThickness: 40 },
      'screwSize',
    ],
    ['bearer screw comes out', { bearerScrewLength: 60 }, 'bearerScrewLength'],
    ['shelf screw comes out', { screwLength: 110 }, 'screwLength'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(bookcase, values)).toContain(parameter)
  })

  it('tells to fasten a tall one to the wall, and a low one not', () => {
    expect(modelOf(bookcase).notices[0]).toMatchObject({ level: 'caution', parameter: 'height' })
    const low = modelOf(bookcase, { height: 560, shelves: 2, rails: 2 }).notices
    expect(low.some((notice) => notice.parameter === 'height')).toBe(false)
    const long = modelOf(bookcase, { width: 1000 }).notices
    expect(long.some((notice) => notice.parameter === 'shelfThickness')).toBe(true)
  })
})
