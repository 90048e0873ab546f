import type { LotView } from '#lib/data/hardware'
import { countedWords, type LotOnShelf, type WantedHardware } from '#lib/shop/hardware'
import { hardwarePutBack, hardwareTaken } from '../../hardware/actions'
import { ButtonLink } from '../../ui/button'
import { TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Row, Rows, Section } from '../../ui/sheet'
import { Tag } from '../../ui/tag'
import { Tap } from '../../ui/tap'

interface HardwareProps {
  readonly buildId: string
  readonly wanted: readonly WantedHardware<LotView>[]
  readonly mayTake: boolean
}

/** What the design screws together: how many of each size, what lies on the shelf, what was taken. */
export function Hardware({ buildId, wanted, mayTake }: HardwareProps) {
  return (
    <Section
      title="Hardware"
      actions={
        <ButtonLink look="quiet" href="/hardware">
          See the shelf
        </ButtonLink>
      }
    >
      <Rows label="Hardware that it wants">
        {wanted.map((need) => (
          <WantedRow key={`${need.kind} ${need.size}`} {...{ buildId, need, mayTake }} />
        ))}
      </Rows>
    </Section>
  )
}

interface WantedProps {
  readonly buildId: string
  readonly need: WantedHardware<LotView>
  readonly mayTake: boolean
}

function WantedRow({ buildId, need, mayTake }: WantedProps) {
  const missing = need.wanted - need.taken
  const here = need.lots.reduce((sum, lot) => sum + lot.count, 0)
  return (
    <Row aside={missing <= 0 ? <Tag tone="good">Taken</Tag> : <Shelf missing={missing} here={here} />}>
      <p className="font-medium">
        {countedWords(need.kind, need.wanted)}, {need.size}
      </p>
      {need.taken > 0 ? (
        <p className="text-[0.95rem] text-ink-soft">{need.taken} taken from the shelf</p>
      ) : null}
      {mayTake ? (
        <div className="mt-1 flex flex-wrap gap-3">
          {missing > 0
            ? need.lots.map((lot) => (
                <Tap
                  key={lot.id}
                  action={hardwareTaken}
                  hidden={{ buildId, lotId: lot.id, count: String(Math.min(missing, lot.count)) }}
                >
                  {`Take ${Math.min(missing, lot.count)} of ${lot.count}${lot.place ? `, ${lot.place}` : ''}`}
                </Tap>
              ))
            : null}
          {need.takenFrom.map((lot) => (
            <PutBack key={`back ${lot.id}`} {...{ buildId, lot }} />
          ))}
        </div>
      ) : null}
    </Row>
  )
}

function Shelf({ missing, here }: { readonly missing: number; readonly here: number }) {
  if (here >= missing) return <Tag tone="good">On the shelf</Tag>
  return (
    <Tag tone="caution">{here === 0 ? 'None on the shelf' : `${missing - here} too few on the shelf`}</Tag>
  )
}

function PutBack({ buildId, lot }: { readonly buildId: string; readonly lot: LotOnShelf }) {
  return (
    <details>
      <summary className="min-h-11 py-2 text-[0.95rem] font-medium">Put some back</summary>
      <Form
        action={hardwarePutBack}
        label={`Put back ${lot.size}`}
        className="mb-3 flex flex-wrap items-end gap-3"
      >
        <input type="hidden" name="buildId" value={buildId} />
        <input type="hidden" name="lotId" value={lot.id} />
        <TextField
          label="How many"
          name="count"
          inputMode="numeric"
          defaultValue={String(lot.count)}
          className="w-28"
        />
        <Submit look="plain">Put them back</Submit>
      </Form>
    </details>
  )
}
