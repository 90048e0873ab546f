import { deflateSync } from 'node:zlib'
import { PNG_SIGNATURE, pngChunk } from '../shop/png-chunks'

/** The smallest PNG: one grey pixel. */
export const onePixel = (): Uint8Array<ArrayBuffer> =>
  new Uint8Array(
    Buffer.concat([
      PNG_SIGNATURE,
      pngChunk('IHDR', Buffer.from([0, 0, 0, 1, 0, 0, 0, 1, 8, 0, 0, 0, 0])),
      pngChunk('IDAT', deflateSync(Buffer.from([0, 128]))),
      pngChunk('IEND'),
    ]),
  )
