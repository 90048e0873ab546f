import { describe, expect, it } from 'vitest'
import { wallShelf } from '#lib/core/design/designs/wall-shelf/wall-shelf'
import type { ParameterValues } from '#lib/core/design/model'
import { massProperties } from '#lib/core/design/part-shape'
import { figureOf, modelOf, partOf, refusedFor } from './ask-design'

const DEG = Math.PI / 180

describe('wall shelf', () => {
  it('a brace at 45° over 210 mm is 296.98 mm at its long points, 56.57 mm along the wall if 40 wide (run / sin a, w / sin a)', () => {
    const model = modelOf(wallShelf, { depth: 240, setBack: 15, braceWidth: 40 })
    expect(figureOf(model, 'braceLongPoint')).toBeCloseTo(296.98, 2)
    expect(figureOf(model, 'braceOnWall')).toBeCloseTo(56.57, 2)
  })

  it.each([35, 45, 52])(
    'cuts a brace at %d° level above and upright below, and leaves the area of its parallelogram',
    (angle) => {
      const model = modelOf(wallShelf, { braceAngle: angle, depth: 300 })
      const brace = partOf(model, 'brace-1')
      const [upper, lower] = brace.operations.filter((op) => op.kind === 'endCut')
      expect(Math.abs(upper.mitreRad)).toBeCloseTo(angle * DEG, 9)
      expect(Math.abs(lower.mitreRad)).toBeCloseTo((90 - angle) * DEG, 9)
      const [run, a] = [300 - 30, angle * DEG]
      // Long edge run / sin a; the short one less w tan a above and w / tan a below.
      const short = run / Math.sin(a) - 40 * Math.tan(a) - 40 / Math.tan(a)
      expect(massProperties(brace).volumeMm3).toBeCloseTo(((run / Math.sin(a) + short) / 2) * 40 * 24, 4)
    },
  )

  it('presses the brace: it meets the arm from below and the upright from the side', () => {
    const { joints } = modelOf(wallShelf)
    const top = joints.find((joint) => joint.id === 'brace-top-1')!
    expect(top.contact.normal[2]).toBeCloseTo(-1, 12)
    expect(top.contact.areaMm2).toBeCloseTo((40 / Math.cos(45 * DEG)) * 24, 6)
    expect(joints.find((joint) => joint.id === 'brace-low-1')!.contact.normal[0]).toBeCloseTo(-1, 12)
  })

  it('lies flat on its wall, the rail let into the uprights', () => {
    const model = modelOf(wallShelf, { brackets: 3, length: 1200 })
    expect(model.place[0]).toMatchObject({ id: 'wall' })
    for (const i of [1, 2, 3]) {
      const [notch] = partOf(model, `upright-${i}`).operations.filter((op) => op.kind === 'notch')
      expect(notch).toMatchObject({ widthMm: 50, jointId: `rail-${i}` })
      expect(notch.depthMm).toBeCloseTo(19, 9)
    }
  })

  it.each<[string, ParameterValues, string]>([
    ['brackets meet', { length: 300, endOverhang: 80 }, 'endOverhang'],
    ['no room for the rail', { depth: 160 }, 'railWidth'],
    ['rail eats the upright', { railThickness: 28, armWidth: 50 }, 'railThickness'],
    ['uprights in the floor', { mountHeight: 600, depth: 400, braceAngle: 31 }, 'mountHeight'],
    ['boards too narrow', { shelfBoards: 5, depth: 200 }, 'shelfBoards'],
    ['first board misses the arms', { shelfBoards: 4, setBack: 40 }, 'setBack'],
    ['screw splits an arm', { thickness: 14, screwSize: 'no10' }, 'screwSize'],
    ['lap screw comes out', { lapScrewLength: 47 }, 'lapScrewLength'],
    ['brace screw too short', { braceScrewLength: 55 }, 'braceScrewLength'],
    ['brace too flat', { braceAngle: 75 }, 'braceAngle'],
  ])('refuses: %s', (_, values, parameter) => {
    expect(refusedFor(wallShelf, values)).toContain(parameter)
  })

  it('says what pulls at the wall, and warns of a long span', () => {
    // 0.9 × 0.26 m² at 100 kg/m² is 23 kg.
    expect(modelOf(wallShelf).notices[0].message).toContain('about 23 kg')
    const about = modelOf(wallShelf, { length: 1400 }).notices.map((notice) => notice.parameter)
    expect(about).toContain('brackets')
  })
})
