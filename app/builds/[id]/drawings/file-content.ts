import 'server-only'
import type { Model } from '#lib/core/design/model'
import { err, ok, type Result } from '#lib/core/units/result'
import { orderDocument } from '#lib/documents/document-desk'
import { DrawingSet } from '#lib/documents/drawing-set'
import { cutListCsv, hardwareCsv } from '#lib/documents/export/csv'
import type { WoodColours } from '#lib/documents/export/glb'
import { plateOptions, tooLargeWords } from '#lib/documents/make-document'
import type { DocumentOrder } from '#lib/documents/order'
import { sheetSize } from '#lib/documents/sheet/paper'
import { plateMarks } from '#lib/documents/sheet/plate'
import { svgText, svgTree } from '#lib/documents/sheet/svg-tree'
import { loadSolidKernel } from '#lib/engine/solid-kernel-node'
import { speciesLook } from '../../../ui/model-view/species-look'
import type { Asked } from './asked'
import type { BuildModel } from './build-model'
import type { FileName } from './file-kinds'
import { packetSetups } from './packet-setups'

type Made = Extract<BuildModel, { status: 'made' }>
type Content = Result<string | Uint8Array, string>

/** One sheet is a few ms of work: it is drawn here. */
async function sheetSvg({ model, titleBlock }: Made, asked: Asked): Promise<Content> {
  const set = new DrawingSet(await loadSolidKernel(), model)
  const made = set.sheet(asked.sheet, { ...plateOptions(asked), scale: asked.scale })
  if (made === undefined) return err('There is no such sheet.')
  if (made.status === 'tooLarge') return err(tooLargeWords(made))
  const { widthMm, heightMm } = sheetSize(made.plate)
  const number = { sheet: set.names.findIndex(({ id }) => id === asked.sheet) + 1, of: set.names.length }
  const box = { x0: 0, y0: 0, x1: widthMm, y1: heightMm }
  const sheet = { title: made.plate.title, marks: plateMarks(made.plate, titleBlock, number), box }
  return ok(`<?xml version="1.0" encoding="UTF-8"?>\n${svgText(svgTree(sheet, 'file'))}\n`)
}

/** Longer work is done in the document thread. */
async function ordered(order: DocumentOrder): Promise<Content> {
  const made = await orderDocument(order)
  return made.status === 'made' ? ok(made.bytes) : err(made.message)
}

/** The colour of each wood of a model, as the 3-D view has it. */
const coloursOf = (model: Model): WoodColours =>
  Object.fromEntries(model.parts.map(({ species }) => [species ?? 'any', speciesLook(species).light]))

export interface Wanted {
  readonly buildId: string
  readonly made: Made
  readonly asked: Asked
  readonly madeAt: Date
}

/** What a file holds, or a sentence why there is none. */
export async function fileOf(file: FileName, { buildId, made, asked, madeAt }: Wanted): Promise<Content> {
  const { model, titleBlock } = made
  const common = { model, titleBlock, madeAt, paper: asked.paper, units: asked.units }
  switch (file) {
    case 'sheet.svg':
      return sheetSvg(made, asked)
    case 'packet.pdf':
      return ordered({ ...common, kind: 'packet', ...(await packetSetups(buildId, asked.units)) })
    case 'sheet.pdf':
      return ordered({ ...common, kind: 'sheet', sheet: asked.sheet, scale: asked.scale })
    case 'drawings.pdf':
      return ordered({ ...common, kind: 'drawings' })
    case 'templates.pdf':
      return ordered({ ...common, kind: 'templates' })
    case 'cut-list.csv':
      return ok(cutListCsv(model))
    case 'hardware.csv':
      return ok(hardwareCsv(model))
    case 'piece.glb':
      return ordered({ ...common, kind: 'glb', colours: coloursOf(model) })
    case 'piece.stl':
      return ordered({ ...common, kind: 'stl' })
  }
}
