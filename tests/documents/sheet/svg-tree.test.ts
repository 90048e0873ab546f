// Read back with a parser of XML of the platform's own kind: a strict pass over tags, and numbers of the paths.
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { DrawingSet } from '#lib/documents/drawing-set'
import { plateOptions } from '#lib/documents/make-document'
import { sheetSize } from '#lib/documents/sheet/paper'
import { plateMarks } from '#lib/documents/sheet/plate'
import { svgText, svgTree } from '#lib/documents/sheet/svg-tree'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

function sheetOf(build: string, where: 'page' | 'file'): string {
  const built = designs.find(({ id }) => id === 'crate')!.build({})
  if (!built.ok) throw new Error('crate')
  const made = new DrawingSet(kernel, built.value).sheet(
    'part-1',
    plateOptions({ paper: 'a4', units: 'mm' }),
  )!
  if (made.status !== 'made') throw new Error('does not fit')
  const { widthMm, heightMm } = sheetSize(made.plate)
  const block = { design: 'Crate', build, shop: 'S', date: '2026-05-06' }
  const marks = plateMarks(made.plate, block, { sheet: 1, of: 1 })
  return svgText(svgTree({ title: build, marks, box: { x0: 0, y0: 0, x1: widthMm, y1: heightMm } }, where))
}

/** Tags that are opened and not closed, and anything that is no tag and no escaped text. */
function faults(xml: string): string[] {
  const open: string[] = []
  const found: string[] = []
  const rest = xml.replace(
    /<(\/?)([a-z]+)((?: [a-zA-Z-]+="[^"<&]*(?:&(?:amp|lt|gt|quot);[^"<&]*)*")*)(\/?)>/g,
    (_, end, tag, __, own) => {
      if (end === '/') {
        if (open.pop() !== tag) found.push(`</${tag}>`)
      } else if (own !== '/') open.push(tag)
      return ''
    },
  )
  if (/[<>]/.test(rest) || /&(?!(?:amp|lt|gt|quot);)/.test(rest)) found.push(rest.slice(0, 80))
  return [...found, ...open]
}

describe('a sheet as SVG', () => {
  it('is well formed, whatever a build is called', () => {
    for (const name of ['Crate', '<script>alert("1")</script> & \u0000\u0008 ]]>', '“Łódź” 椅'])
      expect(faults(sheetOf(name, 'file'))).toEqual([])
    expect(sheetOf('<script>', 'file')).not.toContain('<script>')
  })

  it('is as large as its paper, one unit to the millimetre', () => {
    expect(sheetOf('Crate', 'file')).toMatch(/ width="297mm" height="210mm" viewBox="0 0 297 210" /)
  })

  it('has the lengths of the model at its scale: the post of 236 × 32 mm at 1:2 or 1:1', () => {
    const svg = sheetOf('Crate', 'file')
    const scale = Number(/>1:(\d+)</.exec(svg)![1])
    const path = /<path d="([^"]+)"[^>]*stroke-width="0.35"/.exec(svg)![1]
    const lengths = path.split('M').flatMap((run) => {
      const points = run.split('L').map((pair) => pair.split(' ').map(Number))
      return points.slice(1).map(([x, y], i) => Math.hypot(x - points[i][0], y - points[i][1]))
    })
    for (const size of [236, 32])
      expect(lengths.some((length) => Math.abs(length - size / scale) < 0.002)).toBe(true)
  })

  it('holds plain colours as a file, and follows the theme on a page', () => {
    expect(sheetOf('Crate', 'file')).not.toContain('var(')
    expect(sheetOf('Crate', 'page')).toContain('var(--ink')
  })
})
