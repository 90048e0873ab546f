import { file as pngOf } from '#lib/data/stills'
import { refusalSentence, refusalStatus } from '#lib/shop/refusal'
import { call } from '../../../submit'

/** A picture that a member shows, `/api/stills/ID.png`, for members: never as anything but a picture. */
export async function GET(request: Request, { params }: { params: Promise<{ file: string }> }) {
  const { file: name } = await params
  const stillId = name.replace(/\.png$/, '')
  const png = await call(pngOf, { stillId })
  if (!png.ok) {
    const status = png.error.code === 'badInput' ? 404 : refusalStatus(png.error)
    return new Response(`${refusalSentence(png.error)}\n`, { status })
  }
  // It never changes, and is asked for again in case it was taken back.
  const headers = { etag: `"${stillId}"`, 'cache-control': 'private, no-cache' }
  if (request.headers.get('if-none-match') === headers.etag)
    return new Response(null, { status: 304, headers })
  return new Response(png.value as BodyInit, {
    headers: {
      ...headers,
      'content-type': 'image/png',
      'content-disposition': 'inline; filename="picture.png"',
      'content-security-policy': "default-src 'none'; sandbox",
      'cross-origin-resource-policy': 'same-origin',
      'x-content-type-options': 'nosniff',
    },
  })
}
