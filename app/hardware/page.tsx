import type { Metadata } from 'next'
import { hardware } from '#lib/data/hardware'
import { load } from '../load'
import { ButtonLink } from '../ui/button'
import { Live } from '../ui/live'
import { Pages, pageFrom } from '../ui/pages'
import { Empty, Page } from '../ui/sheet'
import { Lots } from './lots'

export const metadata: Metadata = { title: 'Hardware' }

interface Props {
  readonly searchParams: Promise<{ page?: string }>
}

export default async function HardwarePage({ searchParams }: Props) {
  const page = pageFrom((await searchParams).page)
  const { lots, total, pages } = await load(hardware, { page })
  return (
    <Page
      title="Hardware"
      lead="Screws and other metal parts that came out of teardowns, by kind and size."
      actions={<ButtonLink href="/pool">Boards</ButtonLink>}
    >
      <Live topics={['hardware']} />
      {total === 0 ? (
        <Empty
          title="No hardware yet"
          action={
            <ButtonLink look="primary" href="/teardowns">
              Open a teardown
            </ButtonLink>
          }
        >
          Keep the good screws of a piece: log them with its boards, and any build that wants that size finds
          them.
        </Empty>
      ) : (
        <div className="grid grid-cols-1 gap-4">
          <Lots lots={lots} label="Hardware of the shop" />
          <Pages page={page} pages={pages} href={(n) => `/hardware?page=${n}`} />
        </div>
      )}
    </Page>
  )
}
