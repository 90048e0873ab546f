/**
 * A sheet as SVG, as plain data: one tree that a page turns into elements and a file into text, so that both show
 * the same. One user unit is 1 mm of the paper. On a page, colours follow the page's own variables.
 * Tests: tests/documents/sheet/svg-tree.test.ts
 */
import type { Vec2 } from '#lib/core/geometry/polygon2'
import {
  type Marks,
  MIDDLE,
  type SheetText,
  STROKE_ORDER,
  STROKES,
  type StrokeKind,
  TONES,
  type Tone,
} from './marks'
import type { Box } from './paper'

export interface SvgNode {
  readonly tag: 'svg' | 'title' | 'g' | 'path' | 'rect' | 'text'
  /** Named as a page names them: `strokeWidth`. */
  readonly attributes: Readonly<Record<string, string | number>>
  readonly children: readonly (SvgNode | string)[]
}

const node = (
  tag: SvgNode['tag'],
  attributes: SvgNode['attributes'],
  ...children: readonly (SvgNode | string)[]
): SvgNode => ({ tag, attributes, children })

/** Thousandths of a millimetre: finer than any printer, coarser than rounding. */
const n = (value: number): string => String(Math.round(value * 1000) / 1000 + 0)

const VARIABLES: Readonly<Record<Tone, string>> = {
  ink: 'ink',
  soft: 'ink-soft',
  faint: 'hairline-strong',
  accent: 'accent',
  caution: 'caution',
  stop: 'stop',
}
interface Look {
  readonly heightMm: number
  /** A page's colours follow its theme; a file holds its own, which every program can read. */
  readonly isPage: boolean
}

const colour = (tone: Tone, { isPage }: Look): string =>
  isPage ? `var(--${VARIABLES[tone]}, ${TONES[tone]})` : TONES[tone]
const paper = ({ isPage }: Look): string => (isPage ? 'var(--sheet, #ffffff)' : '#ffffff')

const pathOf = (points: readonly Vec2[], { heightMm }: Look): string =>
  `M${points.map(([x, y]) => `${n(x)} ${n(heightMm - y)}`).join('L')}`

function strokeNode(kind: StrokeKind, marks: Marks, look: Look): SvgNode[] {
  const own = marks.strokes.filter((stroke) => stroke.kind === kind)
  if (own.length === 0) return []
  const { widthMm, tone, dashMm } = STROKES[kind]
  return [
    node('path', {
      d: own.map(({ points }) => pathOf(points, look)).join(''),
      fill: 'none',
      stroke: colour(tone, look),
      strokeWidth: widthMm,
      strokeLinejoin: 'round',
      strokeLinecap: dashMm === undefined ? 'round' : 'butt',
      ...(dashMm === undefined ? {} : { strokeDasharray: dashMm.map(n).join(' ') }),
    }),
  ]
}

function textNode(text: SheetText, look: Look): SvgNode {
  const { at, sizeMm, angleRad = 0 } = text
  const turn = angleRad === 0 ? '' : ` rotate(${n((-angleRad * 180) / Math.PI)})`
  const clear: SvgNode['attributes'] = text.clear
    ? { stroke: paper(look), strokeWidth: n(0.25 * sizeMm), strokeLinejoin: 'round', paintOrder: 'stroke' }
    : {}
  return node(
    'text',
    {
      transform: `translate(${n(at[0])} ${n(look.heightMm - at[1])})${turn}`,
      dy: n(MIDDLE * sizeMm),
      fontSize: n(sizeMm),
      textAnchor: text.anchor,
      fill: colour(text.tone ?? 'ink', look),
      ...(text.bold ? { fontWeight: 600 } : {}),
      ...clear,
    },
    text.text,
  )
}

export interface SvgSheet {
  readonly title: string
  readonly marks: Marks
  /** What is shown of the plane. */
  readonly box: Box
}

/** A sheet, or any stretch of the plane, as a tree. */
export function svgTree({ title, marks, box }: SvgSheet, where: 'page' | 'file'): SvgNode {
  const [widthMm, heightMm] = [box.x1 - box.x0, box.y1 - box.y0]
  const look: Look = { heightMm: box.y1, isPage: where === 'page' }
  return node(
    'svg',
    {
      xmlns: 'http://www.w3.org/2000/svg',
      width: `${n(widthMm)}mm`,
      height: `${n(heightMm)}mm`,
      viewBox: `${n(box.x0)} 0 ${n(widthMm)} ${n(heightMm)}`,
      fontFamily: "'IBM Plex Sans Variable', 'IBM Plex Sans', Arial, sans-serif",
      role: 'img',
    },
    node('title', {}, title),
    node('rect', { x: n(box.x0), y: 0, width: n(widthMm), height: n(heightMm), fill: paper(look) }),
    node('g', {}, ...STROKE_ORDER.flatMap((kind) => strokeNode(kind, marks, look))),
    node(
      'g',
      {},
      ...marks.shapes.map(({ points, tone }) =>
        node('path', { d: `${pathOf(points, look)}Z`, fill: colour(tone, look) }),
      ),
    ),
    node('g', {}, ...marks.texts.map((text) => textNode(text, look))),
  )
}

const ESCAPES: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' }
// biome-ignore lint/suspicious/noControlCharactersInRegex: XML 1.0 has no way to write them
const NOT_XML = /[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g
const escaped = (text: string): string =>
  text.replace(NOT_XML, '').replace(/[&<>"]/g, (sign) => ESCAPES[sign])
/** Attributes of SVG that keep their capitals. */
const KEPT = new Set(['viewBox'])
const attributeName = (name: string): string =>
  KEPT.has(name) ? name : name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`)

/** A tree as text. @example svgText(svgTree(sheet)) //=> '<svg xmlns="http://www.w3.org/2000/svg" width="297mm" …' */
export function svgText({ tag, attributes, children }: SvgNode): string {
  const all = Object.entries(attributes)
    .map(([name, value]) => ` ${attributeName(name)}="${escaped(String(value))}"`)
    .join('')
  const inside = children
    .map((child) => (typeof child === 'string' ? escaped(child) : svgText(child)))
    .join('')
  return inside === '' ? `<${tag}${all}/>` : `<${tag}${all}>${inside}</${tag}>`
}
