import type { LotView } from '#lib/data/hardware'
import { countedWords, HARDWARE_TERMS } from '#lib/shop/hardware'
import { TERMS_WORDS } from '#lib/shop/sharing'
import { SelectField, TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { Row, Rows } from '../ui/sheet'
import { Tag } from '../ui/tag'
import { hardwareTaken, lotChanged } from './actions'

export const HARDWARE_TERMS_OPTIONS = HARDWARE_TERMS.map((value) => ({
  value,
  label: TERMS_WORDS[value].label,
}))

interface LotsProps {
  readonly lots: readonly LotView[]
  readonly label: string
}

/** Tin by tin: what it is, how many are left, whose, where; and what this member may do with it. */
export function Lots({ lots, label }: LotsProps) {
  return (
    <Rows label={label}>
      {lots.map((lot) => (
        <Row
          key={lot.id}
          aside={lot.terms === 'mine' ? <Tag tone="plain">{TERMS_WORDS.mine.label}</Tag> : undefined}
        >
          <p className="font-semibold wrap-anywhere">{lot.size}</p>
          <p className="text-[0.95rem] text-ink-soft wrap-anywhere">
            {[lot.count === 0 ? 'Used up' : countedWords(lot.kind, lot.count), lot.ownerName, lot.place]
              .filter(Boolean)
              .join(' · ')}
          </p>
          <LotDoings lot={lot} />
        </Row>
      ))}
    </Rows>
  )
}

function LotDoings({ lot }: { readonly lot: LotView }) {
  const mayTake = lot.mayTake && lot.count > 0
  if (!mayTake && !lot.mayChange) return null
  return (
    <div className="mt-1 flex flex-wrap items-start gap-x-6">
      {mayTake ? (
        <details>
          <summary className="min-h-11 py-2 text-[0.95rem] font-medium">Take some</summary>
          <Form
            action={hardwareTaken}
            label={`Take some ${lot.size}`}
            done="Taken."
            className="mb-3 flex flex-wrap items-end gap-3"
          >
            <input type="hidden" name="lotId" value={lot.id} />
            <TextField label="How many" name="count" inputMode="numeric" className="w-28" />
            <Submit look="plain">Take them</Submit>
          </Form>
        </details>
      ) : null}
      {lot.mayChange ? (
        <details>
          <summary className="min-h-11 py-2 text-[0.95rem] font-medium">Count anew</summary>
          <Form
            action={lotChanged}
            label={`Change ${lot.size}`}
            done="Changed."
            className="mb-3 grid items-start gap-3 sm:grid-cols-3"
          >
            <input type="hidden" name="lotId" value={lot.id} />
            <TextField
              label="How many there are"
              name="count"
              inputMode="numeric"
              defaultValue={String(lot.count)}
            />
            <SelectField
              label="Terms"
              name="terms"
              options={HARDWARE_TERMS_OPTIONS}
              defaultValue={lot.terms}
            />
            <TextField label="Where they lie" name="place" defaultValue={lot.place} maxLength={80} />
            <div>
              <Submit look="plain">Save</Submit>
            </div>
          </Form>
        </details>
      ) : null}
    </div>
  )
}
