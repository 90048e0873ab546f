/** Reads a PDF back with pdfjs, which shares no code with what wrote it: texts, and painted paths in mm of the sheet. */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs'

export interface ReadPath {
  readonly points: readonly (readonly [number, number])[]
  readonly painted: 'stroke' | 'fill'
  readonly widthMm: number
}

export interface ReadSheet {
  readonly widthMm: number
  readonly heightMm: number
  readonly texts: readonly string[]
  /** Where each text stands, in mm from the sheet's lower left corner. */
  readonly textsAt: readonly (readonly [number, number])[]
  /** x and y in mm from the sheet's lower left corner. */
  readonly paths: readonly ReadPath[]
}

const MM = 25.4 / 72
type Matrix = readonly [number, number, number, number, number, number]

const times = (m: Matrix, n: Matrix): Matrix => [
  m[0] * n[0] + m[2] * n[1],
  m[1] * n[0] + m[3] * n[1],
  m[0] * n[2] + m[2] * n[3],
  m[1] * n[2] + m[3] * n[3],
  m[0] * n[4] + m[2] * n[5] + m[4],
  m[1] * n[4] + m[3] * n[5] + m[5],
]
const apply = (m: Matrix, x: number, y: number): [number, number] => [
  (m[0] * x + m[2] * y + m[4]) * MM,
  (m[1] * x + m[3] * y + m[5]) * MM,
]

/** pdfjs packs a path as codes and numbers: 0 move, 1 line, 2 cubic curve, 3 quadratic curve, 4 close. */
function pointsOf(data: ArrayLike<number>, m: Matrix): [number, number][][] {
  const paths: [number, number][][] = []
  for (let i = 0; i < data.length; ) {
    const code = data[i++]
    if (code === 0) paths.push([])
    if (code === 4) {
      paths[paths.length - 1].push(paths[paths.length - 1][0])
      continue
    }
    i += code === 2 ? 4 : code === 3 ? 2 : 0
    paths[paths.length - 1].push(apply(m, data[i], data[i + 1]))
    i += 2
  }
  return paths
}

interface OperatorList {
  readonly fnArray: readonly number[]
  readonly argsArray: readonly (readonly unknown[])[]
}

const STROKES: ReadonlySet<number> = new Set([OPS.stroke, OPS.closeStroke])

function pathsOf({ fnArray, argsArray }: OperatorList): ReadPath[] {
  const out: ReadPath[] = []
  const stack: { m: Matrix; width: number }[] = []
  let [m, width]: [Matrix, number] = [[1, 0, 0, 1, 0, 0], 1]
  fnArray.forEach((fn, i) => {
    const args = argsArray[i]
    if (fn === OPS.save) stack.push({ m, width })
    else if (fn === OPS.restore) ({ m, width } = stack.pop() ?? { m, width })
    else if (fn === OPS.transform) m = times(m, args as unknown as Matrix)
    else if (fn === OPS.setLineWidth) width = args[0] as number
    else if (fn === OPS.constructPath) {
      const [op, [data]] = args as [number, [ArrayLike<number> | null]]
      if (data === null) return
      const painted = STROKES.has(op) ? 'stroke' : 'fill'
      for (const points of pointsOf(data, m)) out.push({ points, painted, widthMm: width * MM })
    }
  })
  return out
}

/** Every sheet of a PDF. */
export async function readPdf(bytes: Uint8Array): Promise<ReadSheet[]> {
  const task = getDocument({ data: bytes.slice(), verbosity: 0, useSystemFonts: false })
  const pdf = await task.promise
  const sheets: ReadSheet[] = []
  for (let n = 1; n <= pdf.numPages; n++) {
    const page = await pdf.getPage(n)
    const [, , width, height] = page.view
    const content = await page.getTextContent()
    const items = content.items.flatMap((item) => ('str' in item && item.str.trim() !== '' ? [item] : []))
    sheets.push({
      widthMm: width * MM,
      heightMm: height * MM,
      texts: items.map((item) => item.str),
      textsAt: items.map(({ transform }) => [transform[4] * MM, transform[5] * MM] as const),
      paths: pathsOf((await page.getOperatorList()) as unknown as OperatorList),
    })
  }
  await task.destroy()
  return sheets
}
