// The file written by zlib and the CRC of Node's zlib, not by the reader's own code. Chunk layout: PNG (Third
// Edition), W3C 2025, sections 5.3 and 11.2.
import { deflateSync } from 'node:zlib'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { crc32, MAX_PNG_BYTES, readPng } from '#lib/shop/png-file'
import { pngChunk as chunk, PNG_SIGNATURE } from './png-chunks'

function header(width: number, height: number, kind: readonly number[] = [8, 6, 0, 0, 0]): Buffer {
  const data = Buffer.alloc(13)
  data.writeUInt32BE(width, 0)
  data.writeUInt32BE(height, 4)
  data.set(kind, 8)
  return chunk('IHDR', data)
}

const pixels = (width: number, height: number) => deflateSync(Buffer.alloc(height * (1 + 4 * width), 0x7f))
const png = (...chunks: readonly Buffer[]) => new Uint8Array(Buffer.concat([PNG_SIGNATURE, ...chunks]))
const PLAIN = [header(3, 2), chunk('IDAT', pixels(3, 2)), chunk('IEND')] as const
const [IHDR, IDAT, IEND] = PLAIN

describe('a picture', () => {
  test('comes out as it is, with its size', () => {
    const file = png(...PLAIN)
    expect(readPng(file)).toEqual({ ok: true, value: { bytes: file, widthPx: 3, heightPx: 2 } })
  })

  test('loses what no picture needs: texts, places, another file behind its end', () => {
    const text = chunk('tEXt', Buffer.from('Comment\0<script>alert(1)</script>', 'latin1'))
    const place = chunk('eXIf', Buffer.from('where it was made'))
    const behind = Buffer.from('PK\x03\x04 an archive')
    const read = readPng(png(IHDR, text, IDAT, place, IEND, behind))
    expect(read).toEqual(readPng(png(...PLAIN)))
  })

  test('keeps its palette and what of it is clear', () => {
    const file = png(
      header(3, 2, [8, 3, 0, 0, 0]),
      chunk('PLTE', Buffer.from([1, 2, 3])),
      chunk('tRNS', Buffer.from([0])),
      IDAT,
      IEND,
    )
    expect(readPng(file)).toMatchObject({ ok: true, value: { bytes: file } })
  })
})

const flipped = (file: Uint8Array, at: number) => file.map((byte, i) => (i === at ? byte ^ 1 : byte))

describe('is refused', () => {
  test.each([
    ['nothing', new Uint8Array(0), /not a PNG/],
    ['a page', new TextEncoder().encode('<!doctype html><script>alert(1)</script>'), /not a PNG/],
    ['a GIF', new TextEncoder().encode('GIF89a'), /not a PNG/],
    ['a signature alone', png(), /whole/],
    ['one that ends too soon', png(IHDR, IDAT), /whole/],
    ['one with a bit turned', flipped(png(...PLAIN), 45), /whole/],
    [
      'a chunk longer than the file',
      png(IHDR, Buffer.from([0xff, 0xff, 0xff, 0xff, 73, 68, 65, 84, 0, 0, 0, 0])),
      /whole/,
    ],
    ['one without pixels', png(IHDR, IEND), /not a PNG/],
    ['one that begins with pixels', png(IDAT, IHDR, IEND), /not a PNG/],
    ['two headers', png(IHDR, IHDR, IDAT, IEND), /not a PNG/],
    ['a needed part that is not known', png(IHDR, chunk('EVIL'), IDAT, IEND), /not a PNG/],
    ['no height', png(header(3, 0), IDAT, IEND), /not a PNG/],
    ['a colour type that is none', png(header(3, 2, [8, 5, 0, 0, 0]), IDAT, IEND), /not a PNG/],
    ['one that would unpack to gigabytes', png(header(60_000, 60_000), IDAT, IEND), /4096 pixels/],
    ['one of more than 4 MB', png(IHDR, chunk('IDAT', Buffer.alloc(MAX_PNG_BYTES)), IEND), /4 MB/],
  ])('%s', (_, file, sentence) => {
    const read = readPng(file)
    expect(read.ok ? 'taken' : read.error).toMatch(sentence)
  })
})

test('whatever is sent: a sentence, or a file that is read to the same again', () => {
  let taken = 0
  const noise = fc.uint8Array({ maxLength: 60 })
  const kinds = fc.constantFrom('IHDR', 'PLTE', 'IDAT', 'IEND', 'tEXt', 'eVIL')
  const any = fc.oneof(
    noise,
    fc
      .array(fc.tuple(kinds, noise), { maxLength: 4 })
      .map((more) => png(IHDR, ...more.map(([type, data]) => chunk(type, data)), IDAT, IEND)),
  )
  fc.assert(
    fc.property(any, (bytes) => {
      const read = readPng(bytes)
      if (!read.ok) return
      taken++
      expect(readPng(read.value.bytes)).toEqual(read)
    }),
    { numRuns: 400, seed: 3 },
  )
  expect(taken).toBeGreaterThan(20)
})

// "123456789" and IEND: check values of CRC-32/ISO-HDLC, common practice.
test.each([
  ['123456789', 0xcbf43926],
  ['IEND', 0xae426082],
])('CRC of %s', (text, crc) => expect(crc32(new TextEncoder().encode(text))).toBe(crc))
