'use client'
import type { PicturePlace } from '#lib/shop/picture-places'
import { Button } from '../../../../ui/button'
import { SelectField, TextArea } from '../../../../ui/field'
import { Form, Submit } from '../../../../ui/form'
import { sayOfVariant } from '../actions'
import type { LookedAt } from './looked-at'

interface SayProps {
  readonly variant: LookedAt
  readonly parts: readonly { readonly id: string; readonly name: string }[]
  readonly partId: string
  readonly pickPart: (partId: string) => void
  readonly place: PicturePlace | null
  /** Name of the picture that the place is on. */
  readonly pointedAt: string | null
  readonly unpoint: () => void
}

export function SayForm({ variant, parts, partId, pickPart, place, pointedAt, unpoint }: SayProps) {
  return (
    <Form action={sayOfVariant} again label="Comment" className="grid gap-3" onDone={unpoint}>
      <input type="hidden" name="variantId" value={variant.id} />
      <input type="hidden" name="version" value={variant.version} />
      <input type="hidden" name="view" value={place?.view ?? ''} />
      <input type="hidden" name="x" value={place?.x.toFixed(4) ?? ''} />
      <input type="hidden" name="y" value={place?.y.toFixed(4) ?? ''} />
      <TextArea label="Your comment" name="body" maxLength={4000} />
      <SelectField
        label="About"
        name="partId"
        value={partId}
        onChange={(event) => pickPart(event.target.value)}
        options={[
          { value: '', label: 'the whole of it' },
          ...parts.map(({ id, name }) => ({ value: id, label: name })),
        ]}
      />
      <div className="flex flex-wrap items-center gap-x-3 gap-y-1">
        <p role="status" className="text-[0.92rem] text-ink-soft">
          {pointedAt ? `Pointed at on the ${pointedAt}.` : 'Nowhere pointed at.'}
        </p>
        {place ? (
          <Button look="quiet" onClick={unpoint}>
            Do not point
          </Button>
        ) : null}
      </div>
      <div>
        <Submit look="plain">Say it</Submit>
      </div>
    </Form>
  )
}
