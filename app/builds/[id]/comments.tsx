import { AskFirst } from '../../ui/dialog'
import { TextArea } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Section } from '../../ui/sheet'
import { addComment, removeComment } from './actions'

interface CommentsProps {
  readonly buildId: string
  readonly say: (at: Date) => string
  readonly comments: readonly {
    readonly id: string
    readonly body: string
    readonly createdAt: Date
    readonly memberName: string
    readonly mayRemove: boolean
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
                {c.mayRemove ? (
                  <AskFirst
                    look="quiet"
                    label="Take back"
                    question="Take this comment back?"
                    consequence="It is gone for everyone."
                    yes="Take it back"
                    action={removeComment}
                    hidden={{ commentId: c.id }}
                  />
                ) : null}
              </div>
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
