/**
 * The type of printed documents: IBM Plex Sans, embedded, so that °, ×, ½ and names with accents print the same
 * everywhere. The package splits it by script; a text is split into runs that one file each can set. Files are read
 * once. A sign that no file has is written out in plain ones. Tests: tests/documents/pdf/write-pdf.test.ts
 */
import { readFileSync } from 'node:fs'
import path from 'node:path'

const FOLDER = path.join(process.cwd(), 'node_modules/@fontsource/ibm-plex-sans')

export type Weight = 400 | 600

/** Part of a text that one font file sets. */
export interface Run {
  readonly script: string
  readonly text: string
}

interface Script {
  readonly name: string
  readonly ranges: readonly (readonly [number, number])[]
}

const files = new Map<string, Buffer>()

function fileOf(name: string): Buffer {
  const known = files.get(name)
  if (known !== undefined) return known
  const file = path.join(FOLDER, name)
  let bytes: Buffer
  try {
    bytes = readFileSync(/* turbopackIgnore: true */ file)
  } catch (cause) {
    throw new Error('The type of printed documents is missing: run npm install.', { cause })
  }
  files.set(name, bytes)
  return bytes
}

/** The font file of a script in a weight. */
export const fontFile = (script: string, weight: Weight): Buffer =>
  fileOf(`files/ibm-plex-sans-${script}-${weight}-normal.woff`)

let scripts: readonly Script[] | undefined

/** Latin first: most texts need no other. */
function readScripts(): readonly Script[] {
  const byName = JSON.parse(fileOf('unicode.json').toString()) as Record<string, string>
  const all = Object.entries(byName).map(([name, ranges]) => ({
    name,
    ranges: ranges.split(',').map((range) => {
      const [low, high = low] = range.replace('U+', '').split('-')
      return [Number.parseInt(low, 16), Number.parseInt(high, 16)] as const
    }),
  }))
  return all.sort((a, b) => Number(b.name === 'latin') - Number(a.name === 'latin'))
}

function scriptOf(sign: string): string | undefined {
  scripts ??= readScripts()
  const code = sign.codePointAt(0)!
  return scripts.find(({ ranges }) => ranges.some(([low, high]) => code >= low && code <= high))?.name
}

/** Signs that the type lacks, in signs that it has. */
const WRITTEN_OUT: Readonly<Record<string, string>> = {
  '⅛': ' 1/8',
  '⅜': ' 3/8',
  '⅝': ' 5/8',
  '⅞': ' 7/8',
  '⅓': ' 1/3',
  '⅔': ' 2/3',
  '→': '–>',
  '≤': '<=',
  '≥': '>=',
  '⌀': 'Ø',
  '√': 'sqrt ',
}

/** What can be set of a text: no control characters, lacking signs written out. @example settable('⅜') //=> '3/8' */
export function settable(text: string): string {
  const plain = text.normalize('NFC').replace(/\s+/g, ' ')
  const signs = [...plain].map((sign) => {
    const code = sign.codePointAt(0)!
    if (code < 32 || (code >= 127 && code < 160)) return ''
    if (WRITTEN_OUT[sign] !== undefined) return WRITTEN_OUT[sign]
    return scriptOf(sign) === undefined ? '?' : sign
  })
  return signs.join('').replace(/ {2,}/g, ' ')
}

/** A settable text as runs of one script each. @example runsOf('ąb') //=> [{ script: 'latin-ext', text: 'ą' }, { script: 'latin', text: 'b' }] */
export function runsOf(text: string): Run[] {
  const runs: { script: string; text: string }[] = []
  for (const sign of text) {
    const script = scriptOf(sign) ?? 'latin'
    const last = runs[runs.length - 1]
    if (last?.script === script) last.text += sign
    else runs.push({ script, text: sign })
  }
  return runs
}
