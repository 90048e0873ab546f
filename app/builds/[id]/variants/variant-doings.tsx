'use client'
import Link from '#app/ui/link'
import { buttonClass } from '../../../ui/button'
import { AskFirst } from '../../../ui/dialog'
import { TextField } from '../../../ui/field'
import { Form, Submit } from '../../../ui/form'
import { chooseVariant, removeVariant, renameVariant } from './actions'
import type { ShownVariant } from './shown-variant'
import { Voices } from './voices'
import { VoteButton } from './vote-button'

interface DoingsProps {
  readonly buildId: string
  readonly variant: ShownVariant
  readonly chosenId: string | undefined
  readonly mayChange: boolean
  readonly mayVote: boolean
  readonly consequence: string
}

/** Who would make it, and what can be done with it. */
export function VariantDoings(props: DoingsProps) {
  const { buildId, variant, mayChange, mayVote } = props
  const said = variant.comments === 1 ? '1 comment' : `${variant.comments} comments`
  return (
    <div className="grid gap-2">
      <Voices variant={variant} />
      <Link
        href={`/builds/${buildId}/variants/${variant.id}`}
        className="link inline-flex min-h-11 items-center"
      >
        {variant.comments === 0 ? 'Look and comment' : said}
      </Link>
      {mayVote ? <VoteButton buildId={buildId} variant={variant} /> : null}
      <Link href={`/builds/${buildId}/design?variant=${variant.id}`} className={buttonClass('plain')}>
        {mayChange ? 'Change its numbers' : 'See its numbers'}
      </Link>
      {mayChange ? <MakersButtons {...props} /> : null}
      {variant.pool.toPlan && mayChange ? (
        <Link href={`/builds/${buildId}/cutting`} className={buttonClass('plain')}>
          Plan its cutting
        </Link>
      ) : null}
    </div>
  )
}

function MakersButtons({ buildId, variant, chosenId, consequence }: DoingsProps) {
  return (
    <>
      {variant.chosen || !chosenId ? null : (
        <AskFirst
          label="Choose it"
          question={`Make «${variant.name}»?`}
          consequence={consequence}
          yes="Choose it"
          stop={false}
          action={chooseVariant}
          hidden={{ variantId: variant.id, version: String(variant.version), insteadOfId: chosenId }}
        />
      )}
      <details>
        <summary className="min-h-11 py-2.5 text-[0.95rem]">
          Name{variant.chosen ? '' : ', take away'}
        </summary>
        <div className="grid gap-3 pb-2">
          <Form action={renameVariant} label={`Name of ${variant.name}`} className="grid gap-2" done="Named.">
            <input type="hidden" name="variantId" value={variant.id} />
            <TextField label="Name" name="name" defaultValue={variant.name} maxLength={80} />
            <div>
              <Submit look="plain">Rename</Submit>
            </div>
          </Form>
          {variant.chosen ? null : (
            <AskFirst
              look="stop"
              label="Take away"
              question={`Take «${variant.name}» away?`}
              consequence="Its numbers and the votes for it are gone. What was said about it stays with the build."
              yes="Take it away"
              action={removeVariant}
              hidden={{ variantId: variant.id, buildId }}
            />
          )}
        </div>
      </details>
    </>
  )
}
