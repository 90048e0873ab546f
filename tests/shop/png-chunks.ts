import { crc32 } from 'node:zlib'

export const PNG_SIGNATURE = Buffer.from('\x89PNG\r\n\x1a\n', 'latin1')

/** A chunk of a PNG file, its CRC by Node's zlib. */
export function pngChunk(type: string, data: Uint8Array = Buffer.alloc(0)): Buffer {
  const typed = Buffer.concat([Buffer.from(type, 'latin1'), data])
  const numbers = Buffer.alloc(8)
  numbers.writeUInt32BE(data.length, 0)
  numbers.writeUInt32BE(crc32(typed), 4)
  return Buffer.concat([numbers.subarray(0, 4), typed, numbers.subarray(4)])
}
