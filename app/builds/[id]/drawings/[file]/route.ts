import { notFound } from 'next/navigation'
import { settings } from '../../../../load'
import { askedFor } from '../asked'
import { buildModel } from '../build-model'
import { fileOf } from '../file-content'
import { isFileName, MIME } from '../file-kinds'

interface Context {
  readonly params: Promise<{ id: string; file: string }>
}

/** A file name that every system takes. @example plainName('Sitz für 2', 'sheet.pdf') //=> 'sitz-fur-2-sheet.pdf' */
const plainName = (build: string, file: string): string => {
  const plain = build
    .normalize('NFKD')
    .toLowerCase()
    .replace(/[^a-z0-9]+/g, '-')
  return [plain.slice(0, 60).replace(/^-+|-+$/g, ''), file].filter((word) => word !== '').join('-')
}

const refused = (message: string, status: number) =>
  new Response(`${message}\n`, { status, headers: { 'content-type': 'text/plain; charset=utf-8' } })

/** A file of a build, `/builds/ID/drawings/drawings.pdf?paper=a4`: any member may have what any member may see. */
export async function GET(request: Request, { params }: Context) {
  const { id, file } = await params
  if (!isFileName(file)) notFound()
  const now = new Date()
  const [{ units }, made] = await Promise.all([settings(), buildModel(id, now)])
  if (made.status !== 'made')
    return refused('The design of this build cannot be drawn: see its Design page.', 409)
  const asked = askedFor(Object.fromEntries(new URL(request.url).searchParams), units)
  const content = await fileOf(file, { buildId: id, made, asked, madeAt: now })
  if (!content.ok) return refused(content.error, 422)
  return new Response(content.value as BodyInit, {
    headers: {
      'content-type': MIME[file.split('.')[1]],
      'content-disposition': `attachment; filename="${plainName(made.titleBlock.build, file)}"`,
      'cache-control': 'private, no-store',
      'x-content-type-options': 'nosniff',
    },
  })
}
