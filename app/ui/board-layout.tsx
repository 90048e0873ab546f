/**
 * A board with what is cut from it, to scale, as seen on face A: parts in wood with thick edges, offcuts dashed, waste
 * hatched light, damage in its patterns, cuts as numbered lines, the board's own size as dimension lines (ISO 129).
 * Units inside are pixels of the view box; a letter or number tells what colour tells.
 */
import type { DefectKind } from '#lib/core/board/board'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayLength } from '#lib/format/length'
import type { BoardSheet, SheetCut, SheetPart } from '#lib/shop/board-sheet'
import { DEFECT_WORDS } from '#lib/shop/boards'
import type { PieceRect } from '#lib/shop/cutting'
import { partOfStave } from '#lib/shop/staves'
import { MarkPatterns, MarkShape } from './board-face'

const INNER_PX = 870
const MOST_HIGH_PX = 300
/** A narrower screen scrolls sideways: smaller figures cannot be read. */
const LEAST_WIDE_PX = 940
const LEFT_PX = 30
const RIGHT_PX = 96
const TAG_PX = 17
const ROW_PX = TAG_PX + 3
const DIMENSION_PX = 30
const CHAR_PX = 6.9

interface Box {
  readonly x: number
  readonly y: number
  readonly w: number
  readonly h: number
}

interface Tag {
  readonly cut: SheetCut
  readonly x: number
  readonly y: number
}

type Scale = (um: number) => number

const boxOf = (r: { xUm: number; yUm: number; lengthUm: number; widthUm: number }, px: Scale): Box => ({
  x: px(r.xUm),
  y: px(r.yUm),
  w: px(r.lengthUm),
  h: px(r.widthUm),
})

/** Tags of crosscuts that reach the upper edge stand above it, in as many rows as they need. */
function rowsOf(tags: readonly Tag[]): { tag: Tag; row: number }[] {
  const ends: number[] = []
  return [...tags]
    .sort((a, b) => a.x - b.x)
    .map((tag) => {
      const free = ends.findIndex((end) => tag.x - end >= ROW_PX)
      const row = free < 0 ? ends.length : free
      ends[row] = tag.x
      return { tag, row }
    })
}

function cutLine(cut: SheetCut, px: Scale, kerfPx: number) {
  const at = px(cut.lineUm) + kerfPx / 2
  const p = boxOf(cut.piece, px)
  return cut.kind === 'crosscut'
    ? { x1: at, x2: at + px(cut.slantUm ?? 0), y1: p.y, y2: p.y + p.h }
    : { x1: p.x, x2: p.x + p.w, y1: at, y2: at }
}

/** Corners of a piece whose ends may lean. */
function corners(r: PieceRect, px: Scale): string {
  const { x, y, w, h } = boxOf(r, px)
  const [a, b] = r.leanUm ?? [0, 0]
  const [nearFrom, farFrom] = [x + px(Math.max(0, -a)), x + px(Math.max(0, a))]
  const [nearTo, farTo] = [x + w - px(Math.max(0, b)), x + w - px(Math.max(0, -b))]
  return `${nearFrom},${y} ${nearTo},${y} ${farTo},${y + h} ${farFrom},${y + h}`
}

const reachesTop = (cut: SheetCut, sheet: BoardSheet) =>
  cut.kind === 'crosscut' && cut.piece.yUm <= sheet.usable.yUm
const reachesLeft = (cut: SheetCut, sheet: BoardSheet) =>
  cut.kind === 'rip' && cut.piece.xUm <= sheet.usable.xUm

/** In the wood where the cut begins inside the board. */
function innerTag(cut: SheetCut, px: Scale, kerfPx: number): Tag {
  const l = cutLine(cut, px, kerfPx)
  if (cut.kind === 'crosscut') return { cut, x: l.x1, y: l.y1 + Math.min(TAG_PX, (l.y2 - l.y1) / 2) }
  return { cut, x: l.x1 + Math.min(TAG_PX, (l.x2 - l.x1) / 2), y: l.y1 }
}

function CutTag({ x, y, number }: { x: number; y: number; number: number }) {
  return (
    <g>
      <circle cx={x} cy={y} r={TAG_PX / 2} fill="var(--sheet)" stroke="var(--accent)" strokeWidth="1.3" />
      <text x={x} y={y + 4} textAnchor="middle" fontSize="11.5" fontWeight="700" fill="var(--accent)">
        {number}
      </text>
    </g>
  )
}

const fits = (text: string, w: number) => text.length * CHAR_PX <= w - 8

/** The longest of the texts that fits; the letter alone in any case. */
function Label({ box, texts, fill }: { box: Box; texts: readonly string[]; fill: string }) {
  if (box.h < 11 || box.w < 9) return null
  const text = texts.find((t) => fits(t, box.w)) ?? texts[texts.length - 1]
  if (text.length > 2 && !fits(text, box.w)) return null
  return (
    <text
      x={box.x + box.w / 2}
      y={box.y + box.h / 2 + 4.3}
      textAnchor="middle"
      fontSize="12.5"
      fontWeight="600"
      fill={fill}
      stroke={fill === 'var(--wood-ink)' ? 'var(--wood)' : 'var(--sheet)'}
      strokeWidth="3"
      strokeLinejoin="round"
      paintOrder="stroke"
      pointerEvents="none"
    >
      {text}
    </text>
  )
}

/** Thin line between two arrow heads, broken for its figure where it lies flat. */
function Dimension({ from, to, text }: { from: [number, number]; to: [number, number]; text: string }) {
  const isUpright = from[0] === to[0]
  const [mx, my] = [(from[0] + to[0]) / 2, (from[1] + to[1]) / 2]
  const half = (text.length * CHAR_PX) / 2 + 7
  const head = ([x, y]: [number, number], sign: 1 | -1) =>
    isUpright ? `M${x} ${y}l-2.4 ${sign * 8}h4.8z` : `M${x} ${y}l${sign * 8} -2.4v4.8z`
  const line = isUpright
    ? `M${from.join(' ')}L${to.join(' ')}`
    : `M${from.join(' ')}H${mx - half}M${mx + half} ${my}H${to[0]}`
  return (
    <g fill="var(--ink-soft)" stroke="none">
      <path d={line} stroke="var(--ink-soft)" strokeWidth="0.8" />
      <path d={head(from, 1)} />
      <path d={head(to, -1)} />
      <text
        transform={isUpright ? `translate(${mx + 14} ${my + 4})` : `translate(${mx} ${my + 4})`}
        textAnchor={isUpright ? 'start' : 'middle'}
        fontSize="12.5"
        fill="var(--ink)"
      >
        {text}
      </text>
    </g>
  )
}

interface BoardLayoutProps {
  readonly sheet: BoardSheet
  readonly kerfUm: number
  readonly units: LengthUnit
  /** Keeps the names of its patterns apart from those of other drawings on the page. */
  readonly prefix: string
}

export function BoardLayout({ sheet, kerfUm, units, prefix }: BoardLayoutProps) {
  const { board } = sheet
  const scale = Math.min(INNER_PX / board.lengthUm, MOST_HIGH_PX / board.widthUm)
  const px: Scale = (um) => um * scale
  const kerfPx = px(kerfUm)
  const [w, h] = [px(board.lengthUm), px(board.widthUm)]
  const top = sheet.cuts.filter((c) => reachesTop(c, sheet))
  const left = sheet.cuts.filter((c) => reachesLeft(c, sheet))
  const inner = sheet.cuts.filter((c) => !top.includes(c) && !left.includes(c))
  const rows = rowsOf(top.map((cut) => ({ cut, x: cutLine(cut, px, kerfPx).x1, y: 0 })))
  const topPx = 8 + ROW_PX * Math.max(1, ...rows.map((r) => r.row + 1))
  const hatch = `${prefix}-waste`
  const labels = labelsOf(sheet, px)
  const allPx = LEFT_PX + w + RIGHT_PX
  return (
    <svg
      role="img"
      aria-label={inWords(sheet, units)}
      viewBox={`0 0 ${allPx} ${topPx + h + DIMENSION_PX}`}
      style={{ width: '100%', maxWidth: allPx, minWidth: Math.min(allPx, LEAST_WIDE_PX) }}
      className="block tabular-nums"
    >
      <MarkPatterns prefix={prefix} />
      <defs>
        <pattern id={hatch} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path d="M0 0V6" stroke="var(--hairline-strong)" strokeWidth="0.7" />
        </pattern>
      </defs>
      <g transform={`translate(${LEFT_PX} ${topPx})`}>
        <rect width={w} height={h} fill="var(--sheet)" />
        <rect width={w} height={h} fill={`url(#${hatch})`} />
        {sheet.rests.map((r) => {
          const b = boxOf(r, px)
          if (r.kind === 'waste') return null
          const size = `${sayLength(r.lengthUm, units)} × ${sayLength(r.widthUm, units)}`
          return (
            <g key={`${r.xUm} ${r.yUm}`}>
              <rect {...rect(b)} fill="var(--sheet)" />
              <rect
                {...rect(b)}
                fill="var(--accent-wash)"
                stroke="var(--accent)"
                strokeWidth="1.4"
                strokeDasharray="7 4"
              />
              <Label box={b} texts={[`offcut ${size}`, 'offcut']} fill="var(--ink)" />
            </g>
          )
        })}
        {sheet.parts.map((p) => (
          <polygon
            key={p.letter}
            data-part={partOfStave(p.partId)}
            className="cursor-pointer data-marked:stroke-[var(--accent)] data-marked:stroke-[5px]"
            points={corners(p, px)}
            fill="var(--wood)"
            stroke="var(--ink)"
            strokeWidth="1.7"
          />
        ))}
        {board.defects.map((mark) => (
          <MarkShape
            key={mark.id}
            mark={mark}
            box={markBox(boxOf(asRect(mark), px))}
            face="A"
            prefix={prefix}
          />
        ))}
        {sheet.parts.map((p) => (
          <Label key={p.letter} box={boxOf(p, px)} texts={labels(p)} fill="var(--wood-ink)" />
        ))}
        <rect width={w} height={h} fill="none" stroke="var(--ink)" strokeWidth="1.7" />
        {sheet.cuts.map((cut) => (
          <line key={cut.number} {...cutLine(cut, px, kerfPx)} stroke="var(--accent)" strokeWidth="1" />
        ))}
        {rows.map(({ tag, row }) => {
          const y = -4 - TAG_PX / 2 - row * ROW_PX
          return (
            <g key={tag.cut.number}>
              <path d={`M${tag.x} 0V${y}`} stroke="var(--accent)" strokeWidth="0.8" />
              <CutTag x={tag.x} y={y} number={tag.cut.number} />
            </g>
          )
        })}
        {left.map((cut, i) => (
          <CutTag
            key={cut.number}
            x={-4 - TAG_PX / 2}
            y={spread(left, i, (c) => cutLine(c, px, kerfPx).y1)}
            number={cut.number}
          />
        ))}
        {inner.map((cut) => {
          const tag = innerTag(cut, px, kerfPx)
          return <CutTag key={cut.number} x={tag.x} y={tag.y} number={cut.number} />
        })}
        <Dimension from={[0, h + 18]} to={[w, h + 18]} text={sayLength(board.lengthUm, units)} />
        <path
          d={`M0 ${h + 3}V${h + 22}M${w} ${h + 3}V${h + 22}M${w + 3} 0H${w + 16}M${w + 3} ${h}H${w + 16}`}
          stroke="var(--ink-soft)"
          strokeWidth="0.7"
        />
        <Dimension from={[w + 12, 0]} to={[w + 12, h]} text={sayLength(board.widthUm, units)} />
      </g>
    </svg>
  )
}

/** As long as every part of the board has room for: full names, else what parts of its sort are called, else letters. */
function labelsOf(sheet: BoardSheet, px: Scale): (part: SheetPart) => readonly string[] {
  const ways = [(p: SheetPart) => `${p.letter} · ${p.name}`, (p: SheetPart) => `${p.letter} · ${p.kind}`]
  const common = ways.find((way) => sheet.parts.every((p) => fits(way(p), px(p.lengthUm))))
  return common ? (p) => [common(p), p.letter] : (p) => [ways[1](p), p.letter]
}

const rect = (b: Box) => ({ x: b.x, y: b.y, width: b.w, height: b.h })
const asRect = (d: { xUm: number; yUm: number; widthUm: number; heightUm: number }) => ({
  xUm: d.xUm,
  yUm: d.yUm,
  lengthUm: d.widthUm,
  widthUm: d.heightUm,
})
const LEAST_MARK_PX = 3
const markBox = (b: Box): Box => ({ ...b, w: Math.max(LEAST_MARK_PX, b.w), h: Math.max(LEAST_MARK_PX, b.h) })

/** Tags at one edge, moved apart where their cuts lie close together. */
function spread(cuts: readonly SheetCut[], index: number, at: (cut: SheetCut) => number): number {
  const order = [...cuts].sort((a, b) => at(a) - at(b))
  let last = Number.NEGATIVE_INFINITY
  for (const cut of order) {
    last = Math.max(at(cut), last + ROW_PX)
    if (cut === cuts[index]) return last
  }
  return at(cuts[index])
}

function inWords(sheet: BoardSheet, units: LengthUnit): string {
  const offcuts = sheet.rests.filter((r) => r.kind === 'offcut').length
  const parts = sheet.parts.map((p) => p.name).join(', ')
  const size = `${sayLength(sheet.board.lengthUm, units)} by ${sayLength(sheet.board.widthUm, units)}`
  return `Board ${sheet.board.number}, ${size}, cut into ${parts || 'no part'}; ${offcuts} offcuts kept; ${sheet.cuts.length} cuts. The cuts are listed below.`
}

/** What the drawing's marks and lines mean: only what is on it. */
export function LayoutLegend({ sheets, prefix }: { sheets: readonly BoardSheet[]; prefix: string }) {
  const kinds = [...new Set(sheets.flatMap((s) => s.board.defects.map((d) => d.kind)))] as DefectKind[]
  const chip = 'inline-flex items-center gap-2'
  return (
    <ul aria-label="Legend" className="flex flex-wrap gap-x-5 gap-y-1.5 text-[0.9rem] text-ink-soft">
      <li className={chip}>
        <span className="h-4 w-6 border-2 border-ink bg-wood" /> part
      </li>
      <li className={chip}>
        <span className="h-4 w-6 border-2 border-dashed border-accent bg-accent-wash" /> offcut, back to the
        pool
      </li>
      <li className={chip}>
        <span className="h-4 w-6 border border-hairline-strong bg-sheet bg-[repeating-linear-gradient(135deg,transparent_0_3px,var(--hairline-strong)_3px_4px)]" />{' '}
        waste
      </li>
      <li className={chip}>
        <svg width="20" height="20" aria-hidden="true">
          <circle cx="10" cy="10" r="8.5" fill="var(--sheet)" stroke="var(--accent)" strokeWidth="1.3" />
          <text x="10" y="14" textAnchor="middle" fontSize="11.5" fontWeight="700" fill="var(--accent)">
            1
          </text>
        </svg>
        cut, in this order
      </li>
      {kinds.map((kind) => (
        <li key={kind} className={chip}>
          <svg width="26" height="18" aria-hidden="true">
            <MarkPatterns prefix={`${prefix}-${kind}`} />
            <MarkShape
              mark={{ kind, face: 'A', xUm: 0, yUm: 0, widthUm: 1, heightUm: 1 }}
              box={{ x: 2, y: 2, w: 22, h: 14 }}
              face="A"
              prefix={`${prefix}-${kind}`}
            />
          </svg>
          {DEFECT_WORDS[kind].name.toLowerCase()}
        </li>
      ))}
    </ul>
  )
}
