import { recipe } from '#lib/data/own-designs'
import { refusalStatus } from '#lib/shop/refusal'
import { call } from '../../../submit'

/** The recipe of one version of a member's own design, for pages that work on it. A version never changes. */
export async function GET(_: Request, { params }: { readonly params: Promise<{ name: string }> }) {
  const { name } = await params
  const found = await call(recipe, { designId: decodeURIComponent(name) })
  if (!found.ok) return new Response(null, { status: refusalStatus(found.error) })
  return Response.json(found.value, { headers: { 'cache-control': 'private, max-age=86400, immutable' } })
}
