/**
 * A PNG file that somebody sent, read with suspicion and written anew: only what a picture needs goes on, so that
 * nothing else travels under its name (texts, places of a camera, another file behind its end).
 * In: bytes. Out: bytes and pixels, or a sentence. Method: chunks, CRC and order after PNG (Third Edition), W3C 2025,
 * sections 5 and 11; the pixels themselves are not unpacked. Tests: tests/shop/png-file.test.ts
 */
import { err, ok, type Result } from '#lib/core/units/result'

export const MAX_PNG_BYTES = 4 * 1024 * 1024
const MAX_PX = 4096
const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a]
/** Length, type and CRC of a chunk. */
const FRAME_BYTES = 12
const NEEDED = new Set(['IHDR', 'PLTE', 'tRNS', 'IDAT', 'IEND'])

export interface PngFile {
  readonly bytes: Uint8Array<ArrayBuffer>
  readonly widthPx: number
  readonly heightPx: number
}

interface Chunk {
  readonly type: string
  /** With its frame. */
  readonly whole: Uint8Array
  readonly data: Uint8Array
}

const NO_PNG = 'That is not a PNG picture.'
const TORN = 'The picture did not arrive whole. Try again.'

const CRC = Uint32Array.from({ length: 256 }, (_, n) => {
  let c = n
  for (let bit = 0; bit < 8; bit++) c = c & 1 ? 0xedb88320 ^ (c >>> 1) : c >>> 1
  return c
})

/** @example crc32(new TextEncoder().encode('IEND')) //=> 0xae426082 */
export function crc32(bytes: Uint8Array): number {
  let c = 0xffffffff
  for (const byte of bytes) c = CRC[(c ^ byte) & 0xff] ^ (c >>> 8)
  return (c ^ 0xffffffff) >>> 0
}

const viewOf = (bytes: Uint8Array) => new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength)

/** Up to and with IEND; null where one is torn. What stands behind is not read. */
function chunksOf(bytes: Uint8Array): Chunk[] | null {
  const view = viewOf(bytes)
  const chunks: Chunk[] = []
  for (let at = SIGNATURE.length; at + FRAME_BYTES <= bytes.length; ) {
    const end = at + FRAME_BYTES + view.getUint32(at)
    if (end > bytes.length) return null
    const typed = bytes.subarray(at + 4, end - 4)
    if (crc32(typed) !== view.getUint32(end - 4)) return null
    const type = String.fromCharCode(...typed.subarray(0, 4))
    chunks.push({ type, whole: bytes.subarray(at, end), data: typed.subarray(4) })
    if (type === 'IEND') return chunks
    at = end
  }
  return null
}

/** Bit 5 of a type's first letter: capital means that the picture cannot be understood without it. */
const isCritical = (type: string) => /^[A-Z]/.test(type)

const BIT_DEPTHS: Readonly<Record<number, readonly number[]>> = {
  0: [1, 2, 4, 8, 16],
  2: [8, 16],
  3: [1, 2, 4, 8],
  4: [8, 16],
  6: [8, 16],
}

function sizeOf(header: Uint8Array): { widthPx: number; heightPx: number } | null {
  if (header.length !== 13) return null
  const view = viewOf(header)
  const [widthPx, heightPx] = [view.getUint32(0), view.getUint32(4)]
  const [depth, colour, compression, filter, interlace] = header.subarray(8)
  const isKnown = BIT_DEPTHS[colour]?.includes(depth) && compression === 0 && filter === 0 && interlace <= 1
  return isKnown && widthPx > 0 && heightPx > 0 ? { widthPx, heightPx } : null
}

function joined(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const all = new Uint8Array(pieces.reduce((sum, p) => sum + p.length, 0))
  let at = 0
  for (const piece of pieces) {
    all.set(piece, at)
    at += piece.length
  }
  return all
}

/** One header first, a palette at most, pixels, one end; of what a picture needs nothing that is not known here. */
const isInOrder = (types: readonly string[]): boolean =>
  /^IHDR (PLTE )?(IDAT )+IEND $/.test(
    types
      .filter(isCritical)
      .map((type) => `${type} `)
      .join(''),
  )

/**
 * The picture alone out of a file that was sent; a sentence where it is none, too large or torn.
 * @example readPng(new Uint8Array(8)) //=> { ok: false, error: 'That is not a PNG picture.' }
 */
export function readPng(bytes: Uint8Array): Result<PngFile, string> {
  if (bytes.length > MAX_PNG_BYTES) return err('Keep a picture under 4 MB.')
  if (!SIGNATURE.every((byte, i) => bytes[i] === byte)) return err(NO_PNG)
  const chunks = chunksOf(bytes)
  if (!chunks) return err(TORN)
  const size = chunks[0].type === 'IHDR' ? sizeOf(chunks[0].data) : null
  if (!size || !isInOrder(chunks.map((c) => c.type))) return err(NO_PNG)
  if (Math.max(size.widthPx, size.heightPx) > MAX_PX) return err(`Keep a picture to ${MAX_PX} pixels a side.`)
  const kept = chunks.filter((c) => NEEDED.has(c.type)).map((c) => c.whole)
  return ok({ ...size, bytes: joined([Uint8Array.from(SIGNATURE), ...kept]) })
}
