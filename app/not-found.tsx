import { ButtonLink } from './ui/button'
import { Page } from './ui/sheet'

export default function NotFound() {
  return (
    <Page
      title="Nothing here"
      lead="It may have left the pool, or the link is mistyped, or it is not yours to see."
    >
      <div>
        <ButtonLink href="/" look="primary">
          Go to Today
        </ButtonLink>
      </div>
    </Page>
  )
}
