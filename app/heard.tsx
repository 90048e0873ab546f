import Link from '#app/ui/link'
import type { Decision } from '#lib/data/today'
import { Row, Rows, Section } from './ui/sheet'
import { Tag, type TagTone } from './ui/tag'

interface HeardProps {
  readonly decisions: readonly Decision[]
  readonly remarks: readonly {
    readonly id: string
    readonly body: string
    readonly createdAt: Date
    readonly memberName: string
    readonly buildId: string
    readonly buildName: string
    readonly variant: { readonly id: string; readonly name: string } | null
  }[]
  readonly votes: readonly {
    readonly id: string
    readonly at: Date
    readonly memberName: string
    readonly buildId: string
    readonly buildName: string
    readonly variantName: string
  }[]
  readonly say: (at: Date) => string
}

const ANSWER: Record<Decision['answer'], { tone: TagTone; word: string }> = {
  yes: { tone: 'good', word: 'Yes' },
  no: { tone: 'stop', word: 'No' },
  lapsed: { tone: 'caution', word: 'Ran out' },
  takenBack: { tone: 'stop', word: 'Taken back' },
}

const SAID: Partial<Record<Decision['answer'], string>> = {
  yes: 'said yes to',
  no: 'said no to',
  takenBack: 'took back',
}

const MOST_WORDS = 140
const inShort = (text: string) => (text.length > MOST_WORDS ? `${text.slice(0, MOST_WORDS)}…` : text)

/** What others decided about my requests, and what they said about my builds. */
export function Heard({ decisions, remarks, votes, say }: HeardProps) {
  if (decisions.length + remarks.length + votes.length === 0) return null
  return (
    <Section title="Heard lately">
      <Rows label="Heard lately">
        {decisions.map((d) => (
          <Row key={d.id} aside={<Tag tone={ANSWER[d.answer].tone}>{ANSWER[d.answer].word}</Tag>}>
            <p>
              {d.by && SAID[d.answer] ? (
                <>
                  <strong>{d.by}</strong> {SAID[d.answer]}{' '}
                </>
              ) : null}
              <Link href={d.href} className="link font-medium">
                {d.about}
              </Link>
            </p>
            <p className="text-[0.92rem] text-ink-soft">
              {say(d.at)}
              {d.note ? `: «${inShort(d.note)}»` : ''}
            </p>
          </Row>
        ))}
        {remarks.map((r) => (
          <Row key={r.id}>
            <p>
              <strong>{r.memberName}</strong> on{' '}
              <Link
                href={
                  r.variant
                    ? `/builds/${r.buildId}/variants/${r.variant.id}`
                    : `/builds/${r.buildId}#comments`
                }
                className="link font-medium"
              >
                {r.variant ? `${r.buildName}, ${r.variant.name}` : r.buildName}
              </Link>
            </p>
            <p className="max-w-[72ch] text-[0.95rem]">{inShort(r.body)}</p>
            <p className="caption">{say(r.createdAt)}</p>
          </Row>
        ))}
        {votes.map((v) => (
          <Row key={v.id}>
            <p>
              <strong>{v.memberName}</strong> would make «{v.variantName}» of{' '}
              <Link href={`/builds/${v.buildId}/variants`} className="link font-medium">
                {v.buildName}
              </Link>
            </p>
            <p className="caption">{say(v.at)}</p>
          </Row>
        ))}
      </Rows>
    </Section>
  )
}
