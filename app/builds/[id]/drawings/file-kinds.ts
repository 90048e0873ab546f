/** The files of a build: their names in the address, what they are, and what each is good for. */
export const FILES = [
  {
    file: 'packet.pdf',
    label: 'Job packet',
    format: 'PDF',
    use: 'For the bench: picture, cut list, drawings, joints and hardware, set-up cards once the cutting is planned, cautions.',
  },
  {
    file: 'sheet.pdf',
    label: 'This sheet',
    format: 'PDF',
    use: 'Prints at its scale: choose «actual size» or 100 % in the printer’s dialog.',
  },
  {
    file: 'sheet.svg',
    label: 'This sheet as lines',
    format: 'SVG',
    use: 'One unit is one millimetre of paper. Opens in any vector drawing program.',
  },
  {
    file: 'drawings.pdf',
    label: 'All sheets',
    format: 'PDF',
    use: 'The whole piece and every distinct part, both hands, each at the largest standard scale that fits.',
  },
  {
    file: 'templates.pdf',
    label: 'Full-size templates',
    format: 'PDF',
    use: 'End angles, notches and hole patterns at 1:1, to be laid on the wood. Print at «actual size» and measure the 100 mm bar first.',
  },
  {
    file: 'cut-list.csv',
    label: 'Cut list',
    format: 'CSV',
    use: 'Blanks with their sizes in mm, counts, wood, faces and end angles, for a spreadsheet or a cutting program.',
  },
  {
    file: 'hardware.csv',
    label: 'Hardware list',
    format: 'CSV',
    use: 'Screws by size and count.',
  },
  {
    file: 'piece.glb',
    label: 'The piece in three dimensions',
    format: 'GLB',
    use: 'glTF 2.0, metres, each part by its name: for a room planner, a slide or a web page.',
  },
  {
    file: 'piece.stl',
    label: 'The piece as a solid',
    format: 'STL',
    use: 'Closed surfaces in mm: for a 3-D printed scale model, or a program that knows nothing newer.',
  },
] as const

export type FileName = (typeof FILES)[number]['file']

export const isFileName = (text: string): text is FileName => FILES.some(({ file }) => file === text)

export const MIME: Readonly<Record<string, string>> = {
  pdf: 'application/pdf',
  svg: 'image/svg+xml; charset=utf-8',
  csv: 'text/csv; charset=utf-8; header=present',
  glb: 'model/gltf-binary',
  stl: 'model/stl',
}
