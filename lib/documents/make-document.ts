/**
 * Makes a document of a build. Plain data in, bytes out; a set of drawings takes some 0.5 s, so it runs in a thread
 * (document-thread.ts). Tests: tests/documents/document-desk.test.ts
 */
import { drawnLength } from '#lib/core/design/drawing/draw-model'
import type { Model } from '#lib/core/design/model'
import type { SolidKernel } from '#lib/core/geometry/solid'
import type { LengthUnit } from '#lib/core/units/inches'
import { umFromMm } from '#lib/core/units/length'
import { sayLength } from '#lib/format/length'
import { DrawingSet } from './drawing-set'
import { glbOf } from './export/glb'
import { stlOf } from './export/stl'
import type { DocumentOrder, DocumentSettings, MadeDocument } from './order'
import { packetSections } from './packet'
import type { PdfContent } from './pdf/content'
import { writePdf } from './pdf/write-pdf'
import type { MadePlate, PlateOptions } from './sheet/drawing-plates'
import { scaleText, type TooLarge } from './sheet/scales'
import { makeStrengthReport } from './strength/make-report'

/** How a length stands on a drawing in these units. */
export const sayOn =
  (units: LengthUnit) =>
  (valueMm: number): string =>
    units === 'mm' ? drawnLength(valueMm) : sayLength(umFromMm(valueMm), 'in')

export const plateOptions = ({ paper, units }: Pick<DocumentSettings, 'paper' | 'units'>): PlateOptions => ({
  paper,
  lengthsIn: units === 'mm' ? 'mm' : 'inches',
  say: sayOn(units),
})

/** Why a drawing does not fit, and what would. */
export function tooLargeWords({ needsMm, hasMm, largest }: TooLarge): string {
  const size = ([width, height]: readonly [number, number]): string =>
    `${Math.ceil(width)} × ${Math.ceil(height)} mm`
  const has = hasMm.map(Math.floor) as [number, number]
  return `It takes ${size(needsMm)} at this scale, and the sheet has ${size(has)}. The largest that fits is ${scaleText(largest)}.`
}

const content = (order: DocumentSettings, title: string, sections: PdfContent['sections']): PdfContent => ({
  title: `${title}: ${order.titleBlock.build}`,
  paper: order.paper,
  titleBlock: order.titleBlock,
  madeAt: order.madeAt,
  sections,
})

const sectionOf = (made: MadePlate): PdfContent['sections'] =>
  made.status === 'made' ? [{ kind: 'plate', plate: made.plate }] : []

const done = (bytes: Uint8Array): MadeDocument => ({ status: 'made', bytes })

async function drawings(
  order: DocumentSettings & { readonly model: Model },
  kernel: SolidKernel,
): Promise<MadeDocument> {
  const sections = new DrawingSet(kernel, order.model).all(plateOptions(order)).flatMap(sectionOf)
  return done(await writePdf(content(order, 'Drawings', sections)))
}

async function packet(
  order: Extract<DocumentOrder, { kind: 'packet' }>,
  kernel: SolidKernel,
): Promise<MadeDocument> {
  const { model, units, titleBlock, setups, setupNotes } = order
  const source = { model, units, setups, setupNotes, design: titleBlock.design, build: titleBlock.build }
  const sections = packetSections(source, new DrawingSet(kernel, model), kernel, plateOptions(order))
  return done(await writePdf(content(order, 'Job packet', sections)))
}

async function templates(
  order: DocumentSettings & { readonly model: Model },
  kernel: SolidKernel,
): Promise<MadeDocument> {
  const plates = new DrawingSet(kernel, order.model).templates(plateOptions(order))
  if (plates.length === 0)
    return {
      status: 'refused',
      message: 'Every part is square and plain: there is nothing to make a template of.',
    }
  const sections = plates.map((plate) => ({ kind: 'plate' as const, plate }))
  return done(await writePdf(content(order, 'Full-size templates', sections)))
}

async function oneSheet(
  order: Extract<DocumentOrder, { kind: 'sheet' }>,
  kernel: SolidKernel,
): Promise<MadeDocument> {
  const set = new DrawingSet(kernel, order.model)
  const made = set.sheet(order.sheet, { ...plateOptions(order), scale: order.scale })
  if (made === undefined) return { status: 'refused', message: 'There is no such sheet.' }
  if (made.status === 'tooLarge') return { status: 'refused', message: tooLargeWords(made) }
  return done(await writePdf(content(order, made.plate.title, sectionOf(made))))
}

export async function makeDocument(order: DocumentOrder, kernel: SolidKernel): Promise<MadeDocument> {
  switch (order.kind) {
    case 'sheet':
      return oneSheet(order, kernel)
    case 'drawings':
      return drawings(order, kernel)
    case 'packet':
      return packet(order, kernel)
    case 'templates':
      return templates(order, kernel)
    case 'glb':
      return done(await glbOf(kernel, order.model, { name: order.titleBlock.build, colours: order.colours }))
    case 'stl':
      return done(stlOf(kernel, order.model))
    case 'strength':
      return makeStrengthReport(order)
  }
}
