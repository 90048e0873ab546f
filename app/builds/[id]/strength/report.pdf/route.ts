/** The strength report of a build as a PDF, `?grade=&dry=&damp=` as on the page: any member may have what they may see. */
import { orderDocument } from '#lib/documents/document-desk'
import { askFrom, judgedForWords, readAsk, woodAsked } from '#lib/shop/strength-ask'
import { findDesign, findRecipe } from '../../../../designs/find-design'
import { settings } from '../../../../load'
import { buildModel } from '../../drawings/build-model'

export const dynamic = 'force-dynamic'

const GIVEN_UP = 499

const sentence = (text: string, status: number) =>
  new Response(`${text}\n`, { status, headers: { 'content-type': 'text/plain; charset=utf-8' } })

export async function GET(request: Request, { params }: { readonly params: Promise<{ id: string }> }) {
  const [{ id }, madeAt] = [await params, new Date()]
  const [{ units }, made] = await Promise.all([settings(), buildModel(id, madeAt)])
  if (made.status !== 'made')
    return sentence('The design of this build cannot be judged: see its Design page.', 409)
  const typed = askFrom(new URL(request.url).searchParams)
  const read = readAsk(typed)
  if (!read.ok) return sentence(Object.values(read.error).join(' '), 422)
  const { model, titleBlock } = made
  const [design, recipe] = await Promise.all([findDesign(model.designId), findRecipe(model.designId)])
  const wood = woodAsked(design?.parameters ?? [], model.parameters)
  const order = {
    kind: 'strength' as const,
    ...{ model, recipe, titleBlock, units, madeAt },
    paper: units === 'in' ? ('letter' as const) : ('a4' as const),
    options: read.value,
    judgedFor: judgedForWords(wood.name, typed),
  }
  const document = await orderDocument(order, request.signal).catch((error: unknown) => {
    if (request.signal.aborted) return null
    throw error
  })
  if (document === null) return new Response(null, { status: GIVEN_UP })
  if (document.status === 'refused') return sentence(document.message, 422)
  return new Response(document.bytes as BodyInit, {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': 'inline; filename="strength-report.pdf"',
      'cache-control': 'private, no-store',
      'x-content-type-options': 'nosniff',
    },
  })
}
