import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { requireActor } from '#lib/auth/session'
import { Form, Submit } from '../../ui/form'
import { Notice } from '../../ui/notice'
import { Page } from '../../ui/sheet'
import { beginTeardown } from '../actions'
import { DonorFields } from '../donor-fields'

export const metadata: Metadata = { title: 'Log a teardown' }

export default async function NewTeardownPage() {
  await requireActor()
  return (
    <Page
      title="Log a teardown"
      lead="First the piece, then its boards."
      above={
        <Link className="link inline-flex min-h-11 items-center" href="/teardowns">
          Teardowns
        </Link>
      }
    >
      <div className="grid max-w-xl gap-6">
        <Form action={beginTeardown} label="The piece">
          <DonorFields />
          <div>
            <Submit>Go on to its boards</Submit>
          </div>
        </Form>
        <Notice level="caution" title="Before you take it apart">
          Old paint and varnish may hold lead, upholstery and insulation may hold asbestos or live insects,
          springs and glass under tension fly. Gloves, goggles and a mask; do not sand or burn an old finish;
          stop and ask whoever answers for safety in your shop when in doubt. Local rules come first.
        </Notice>
      </div>
    </Page>
  )
}
