import Link from '#app/ui/link'
import type { historyOfBoard } from '#lib/data/ledger'
import { instantIn } from '#lib/format/instant'
import { sayLength } from '#lib/format/length'
import { eventWords } from '#lib/shop/ledger-words'
import { Empty } from '../../ui/sheet'

type Events = Extract<Awaited<ReturnType<typeof historyOfBoard>>, { ok: true }>['value']

interface HistoryProps extends Events {
  readonly boardId: string
  readonly isLatest: boolean
  readonly units: 'mm' | 'in'
  readonly timeZone: string
}

/** The ledger of one board in words, the latest first. */
export function History({ boardId, events, before, isLatest, units, timeZone }: HistoryProps) {
  if (events.length === 0)
    return <Empty title="Nothing is told of this board yet">Every change from now on is kept here.</Empty>
  const instant = instantIn(timeZone)
  const say = { length: (um: number) => sayLength(um, units), instant }
  return (
    <div className="grid grid-cols-1 gap-3">
      <ol className="divide-y divide-hairline border-y border-hairline">
        {events.map((event) => {
          const { sentence, lines } = eventWords(event, say)
          return (
            <li key={event.id} className="grid grid-cols-1 gap-x-6 py-2.5 sm:grid-cols-[11rem_minmax(0,1fr)]">
              <time dateTime={event.at.toISOString()} className="text-[0.92rem] text-ink-soft">
                {instant(event.at)} {event.at.getUTCFullYear()}
              </time>
              <div className="min-w-0 wrap-anywhere">
                <p>{sentence}</p>
                {lines.length > 0 ? (
                  <ul className="text-[0.92rem] text-ink-soft">
                    {lines.map((line, i) => (
                      // biome-ignore lint/suspicious/noArrayIndexKey: two marks may be alike, and the list never changes
                      <li key={i}>{line}</li>
                    ))}
                  </ul>
                ) : null}
              </div>
            </li>
          )
        })}
      </ol>
      <p className="flex flex-wrap gap-x-6">
        {isLatest ? null : (
          <Link className="link inline-flex min-h-11 items-center" href={`/boards/${boardId}`}>
            The latest
          </Link>
        )}
        {before ? (
          <Link
            className="link inline-flex min-h-11 items-center"
            href={`/boards/${boardId}?before=${before}`}
          >
            What was before that
          </Link>
        ) : null}
      </p>
    </div>
  )
}
