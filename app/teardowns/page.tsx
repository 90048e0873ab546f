import type { Metadata } from 'next'
import Link from '#app/ui/link'
import { teardowns } from '#lib/data/teardowns'
import { dayOf } from '#lib/format/instant'
import { load, settings } from '../load'
import { ButtonLink } from '../ui/button'
import { Pages, pageFrom } from '../ui/pages'
import { Empty, Page, Row, Rows } from '../ui/sheet'

export const metadata: Metadata = { title: 'Teardowns' }

interface Props {
  readonly searchParams: Promise<{ page?: string }>
}

export default async function TeardownsPage({ searchParams }: Props) {
  const page = pageFrom((await searchParams).page)
  const [{ list, total, pages }, { timeZone }] = await Promise.all([load(teardowns, { page }), settings()])
  const start = (
    <ButtonLink look="primary" href="/teardowns/new">
      Log a teardown
    </ButtonLink>
  )
  return (
    <Page
      title="Teardowns"
      lead="Worn-out pieces that were taken apart, and the boards that came out of them."
      actions={total > 0 ? start : undefined}
    >
      {total === 0 ? (
        <Empty title="Nothing has been taken apart yet" action={start}>
          Say what the piece was, then log its boards one after the other: each gets a number to chalk on it
          and goes into the shop’s pool.
        </Empty>
      ) : (
        <div className="grid grid-cols-1 gap-4">
          <Rows label="Teardowns">
            {list.map((t) => (
              <Row
                key={t.id}
                aside={
                  <span className="text-ink-soft">{t.boards === 1 ? 'one board' : `${t.boards} boards`}</span>
                }
              >
                <Link
                  href={`/teardowns/${t.id}`}
                  className="link inline-flex min-h-11 items-center text-[1.1rem] font-semibold wrap-anywhere"
                >
                  {t.name}
                </Link>
                <p className="text-[0.92rem] text-ink-soft wrap-anywhere">
                  {[t.foundAt, t.memberName, dayOf(timeZone, t.createdAt)].filter(Boolean).join(' · ')}
                </p>
              </Row>
            ))}
          </Rows>
          <Pages page={page} pages={pages} href={(n) => `/teardowns?page=${n}`} />
        </div>
      )}
    </Page>
  )
}
