import { AskFirst } from '../../ui/dialog'
import { removeComment } from './actions'

/** A comment's writer, a keeper or an admin takes it back; it asks first. */
export function TakeBack({ commentId }: { readonly commentId: string }) {
  return (
    <AskFirst
      look="quiet"
      label="Take back"
      question="Take this comment back?"
      consequence="It is gone for everyone."
      yes="Take it back"
      action={removeComment}
      hidden={{ commentId }}
    />
  )
}
