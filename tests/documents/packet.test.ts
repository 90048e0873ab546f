// The packet read back with pdfjs-dist: everything that a maker needs is in it, with the model's own numbers.
import { beforeAll, describe, expect, it } from 'vitest'
import { designs } from '#lib/core/design/designs/registry'
import type { Model } from '#lib/core/design/model'
import type { SolidKernel } from '#lib/core/geometry/solid'
import { makeDocument } from '#lib/documents/make-document'
import { type PacketSetup, pictureOf } from '#lib/documents/packet'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { shippedModel } from '../core/design/ask-design'
import { readPdf } from './pdf/read-pdf'

let kernel: SolidKernel
beforeAll(async () => {
  kernel = await loadSolidKernel()
})

async function packet(model: Model, setups?: readonly PacketSetup[]): Promise<string[]> {
  const made = await makeDocument(
    {
      kind: 'packet',
      model,
      paper: 'letter',
      units: 'mm',
      titleBlock: { design: 'A design', build: 'Seats', shop: 'Shop', date: '2026-05-06' },
      madeAt: new Date('2026-05-06T09:00:00Z'),
      setups,
    },
    kernel,
  )
  if (made.status !== 'made') throw new Error(made.message)
  return (await readPdf(made.bytes)).map(({ texts }) => texts.join(' ').replace(/\s+/g, ' '))
}

const setup: PacketSetup = {
  number: 1,
  station: 'Table saw',
  title: 'Cut ends, sled 8° clockwise',
  settings: [{ label: 'Blade', value: 'crosscut', isNew: true }],
  testCut: 'Cut two scraps.',
  checkWith: 'bevel gauge',
  cautions: ['Guard and riving knife on.'],
  cuts: [{ title: '4 × leg', which: '', note: 'end A' }],
}

describe('the job packet', () => {
  it('has cover, cut list, drawings, joints, hardware and cautions, sheets numbered through', async () => {
    const model = shippedModel('counterSeat')
    const sheets = await packet(model)
    sheets.forEach((sheet, i) => {
      expect(sheet).toContain(`${i + 1} of ${sheets.length}`)
    })
    const all = sheets.join(' ')
    for (const part of model.parts) expect(all.toLowerCase()).toContain(part.kind.toLowerCase())
    for (const { size, count } of model.hardware) expect(all).toContain(`${size} ${count}`)
    for (const word of [
      'First-angle projection',
      'Cut list',
      'manual',
      'cleared of metal',
      'tested for lead',
    ])
      expect(all).toContain(word)
    expect(all).not.toContain('Set-ups in order')
    const screws = model.joints.reduce((sum, joint) => sum + joint.screws.length, 0)
    expect(model.hardware.reduce((sum, { count }) => sum + count, 0)).toBe(screws)
  })

  it('has a card for each set-up where the cutting is planned', async () => {
    const all = (await packet(shippedModel('crate'), [setup])).join(' ')
    for (const word of [
      '1. Table saw: Cut ends, sled 8° clockwise',
      'crosscut',
      'Cut two scraps.',
      'bevel gauge',
      '4 × leg',
    ])
      expect(all).toContain(word)
  })

  it('can be made of every design', async () => {
    for (const { id } of designs.slice(1)) expect((await packet(shippedModel(id))).length).toBeGreaterThan(6)
  })
})

describe('the picture on its cover', () => {
  it('is as wide as the piece looks along (0.62, -1, 0.55): x and y in the proportion of 1 to 0.62', () => {
    const model = shippedModel('crate')
    const across = model.parts.flatMap(({ blank, frame: { origin, x, y, z } }) =>
      [0, blank.lengthMm].flatMap((u) =>
        [0, blank.widthMm].flatMap((v) =>
          [0, blank.thicknessMm].map((w) => {
            const [px, py] = [0, 1].map((i) => origin[i] + u * x[i] + v * y[i] + w * z[i])
            return (px + 0.62 * py) / Math.hypot(1, 0.62)
          }),
        ),
      ),
    )
    const { min, max } = pictureOf(kernel, model).bounds
    expect(max[0] - min[0]).toBeCloseTo(Math.max(...across) - Math.min(...across), 2)
  })
})
