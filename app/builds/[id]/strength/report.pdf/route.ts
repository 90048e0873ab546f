/** The strength report of a build's chosen variant as a PDF, `?grade=&dry=&damp=` as on the page. */
import { currentActor } from '#lib/auth/session'
import { mySettings } from '#lib/data/account'
import { header } from '#lib/data/builds'
import { chosen } from '#lib/data/variants'
import { refusalSentence, refusalStatus } from '#lib/shop/refusal'
import { askFrom } from '#lib/shop/strength-ask'
import { printReport } from './print-report'

export const dynamic = 'force-dynamic'

const sentence = (text: string, status: number) =>
  new Response(`${text}\n`, { status, headers: { 'content-type': 'text/plain; charset=utf-8' } })

export async function GET(request: Request, { params }: { readonly params: Promise<{ id: string }> }) {
  const [{ id: buildId }, actor] = await Promise.all([params, currentActor()])
  const [my, build, variant] = await Promise.all([
    mySettings(actor, {}),
    header(actor, { buildId }),
    chosen(actor, { buildId }),
  ])
  for (const asked of [my, build, variant])
    if (!asked.ok) return sentence(refusalSentence(asked.error), refusalStatus(asked.error))
  if (!my.ok || !build.ok || !variant.ok) throw new Error('asked twice')
  const typed = askFrom(new URL(request.url).searchParams)
  const made = await printReport(
    { my: my.value, build: build.value, variant: variant.value, typed },
    request.signal,
  )
  if (!made.ok) return sentence(made.error.sentence, made.error.status)
  return new Response(Buffer.from(made.value), {
    headers: {
      'content-type': 'application/pdf',
      'content-disposition': 'inline; filename="strength-report.pdf"',
      'cache-control': 'private, no-store',
    },
  })
}
