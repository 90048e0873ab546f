import { show } from '#lib/data/stills'
import { MAX_PNG_BYTES } from '#lib/shop/png-file'
import { refusalSentence, refusalStatus } from '#lib/shop/refusal'
import { call } from '../../submit'
import { boundedBody } from './bounded-body'

const refused = (status: number, sentence: string) => Response.json({ sentence }, { status })

/**
 * Shows a picture of a variant: `POST /api/stills?variantId=…&version=…&caption=…`, the PNG as the body. Its type is
 * one that a page of another origin may not send unasked, so that nobody posts with a member's session from elsewhere.
 */
export async function POST(request: Request) {
  if (request.headers.get('content-type') !== 'image/png') return refused(415, 'Send a PNG picture.')
  const png = await boundedBody(request, MAX_PNG_BYTES)
  if (!png) return refused(413, 'Keep a picture under 4 MB.')
  const { variantId, version, caption } = Object.fromEntries(new URL(request.url).searchParams)
  const shown = await call(show, { variantId, version: Number(version), caption, png })
  if (shown.ok) return Response.json(shown.value, { status: 201 })
  const { fields = {} } = shown.error
  return refused(refusalStatus(shown.error), fields.png ?? refusalSentence(shown.error))
}
