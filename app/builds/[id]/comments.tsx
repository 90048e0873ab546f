import Link from '#app/ui/link'
import { TextArea } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Section } from '../../ui/sheet'
import { addComment } from './actions'
import { TakeBack } from './take-back'

interface CommentsProps {
  readonly buildId: string
  readonly say: (at: Date) => string
  readonly comments: readonly {
    readonly id: string
    readonly body: string
    readonly createdAt: Date
    readonly memberName: string
    readonly mayRemove: boolean
    /** Null: about the build as a whole. */
    readonly variant: { readonly id: string; readonly name: string; readonly isGone: boolean } | null
  }[]
}

export function Comments({ buildId, comments, say }: CommentsProps) {
  return (
    <Section title="What members say" id="comments">
      {comments.length === 0 ? (
        <p className="mb-4 text-ink-soft">Nobody has said anything yet. Ask for a second pair of eyes.</p>
      ) : (
        <ol aria-label="Comments" className="mb-5 grid max-w-[72ch] gap-4">
          {comments.map((c) => (
            <li key={c.id} className="border-l-2 border-hairline-strong pl-4">
              <div className="flex flex-wrap items-center justify-between gap-x-4">
                <p className="caption">
                  <span className="font-semibold text-ink">{c.memberName}</span> {say(c.createdAt)}
                </p>
                {c.mayRemove ? <TakeBack commentId={c.id} /> : null}
              </div>
              {c.variant ? <AboutVariant buildId={buildId} variant={c.variant} /> : null}
              <p className="whitespace-pre-line">{c.body}</p>
            </li>
          ))}
        </ol>
      )}
      <Form action={addComment} again label="Comment" className="grid max-w-[72ch] gap-3">
        <input type="hidden" name="buildId" value={buildId} />
        <TextArea label="Your comment" name="body" maxLength={4000} />
        <div>
          <Submit look="plain">Say it</Submit>
        </div>
      </Form>
    </Section>
  )
}

type About = NonNullable<CommentsProps['comments'][number]['variant']>

function AboutVariant({ buildId, variant }: { buildId: string; variant: About }) {
  return (
    <p className="text-[0.9rem] text-ink-soft">
      About{' '}
      {variant.isGone ? (
        `«${variant.name}», a variant that was taken away`
      ) : (
        <Link href={`/builds/${buildId}/variants/${variant.id}`} className="link">
          {variant.name}
        </Link>
      )}
    </p>
  )
}
