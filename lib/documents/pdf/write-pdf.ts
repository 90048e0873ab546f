/**
 * Sets a document (content.ts) as a PDF: text sections over as many sheets as they take, plates at their true scale,
 * and a title block with «sheet n of m» on every one. Data in, bytes out; the same content and instant give the same
 * bytes. Cost: some 10 ms a sheet, so a long packet belongs off the request. Method: sheets are kept open until all
 * are set, then numbered. Tests: tests/documents/pdf/write-pdf.test.ts
 */
import { plateMarks, type SheetNumber, titleBlockMarks } from '../sheet/plate'
import type { PdfContent, PlateSection, TextSection } from './content'
import { Flow } from './flow'
import { Pen } from './pen'

type Section = TextSection | PlateSection

/** Sets a section; says which sheet is its first. */
function setSection(pen: Pen, content: PdfContent, section: Section): { from: number; section: Section } {
  const from = pen.sheets
  if (section.kind === 'plate') {
    const { paper, turned } = section.plate
    pen.beginSheet({ paper, turned })
    pen.bookmark(section.plate.title)
    return { from, section }
  }
  const flow = new Flow(pen, content.paper, section.foot)
  pen.bookmark(section.title)
  for (const block of section.blocks) flow.block(block)
  return { from, section }
}

function finishSheet(pen: Pen, content: PdfContent, section: Section, number: SheetNumber): void {
  pen.turnTo(number.sheet - 1)
  pen.marks(
    section.kind === 'plate'
      ? plateMarks(section.plate, content.titleBlock, number)
      : titleBlockMarks({ paper: content.paper }, content.titleBlock, { title: section.title }, number),
  )
}

/**
 * @throws RangeError for a document without sections
 * @example await writePdf({ title: 'Cut list', paper: 'a4', titleBlock, madeAt, sections: [{ kind: 'text', title: 'Cut list', blocks }] }) //=> Uint8Array, «%PDF-1.3 …»
 */
export async function writePdf(content: PdfContent): Promise<Uint8Array> {
  if (content.sections.length === 0) throw new RangeError('a document without sections')
  const pen = new Pen({ title: content.title, author: content.titleBlock.shop, madeAt: content.madeAt })
  const set = content.sections.map((section) => setSection(pen, content, section))
  set.forEach(({ from, section }, i) => {
    const to = set[i + 1]?.from ?? pen.sheets
    for (let sheet = from + 1; sheet <= to; sheet++)
      finishSheet(pen, content, section, { sheet, of: pen.sheets })
  })
  return pen.end()
}
