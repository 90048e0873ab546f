import type { LengthUnit } from '#lib/core/units/inches'
import { saySize, typedLength } from '#lib/format/length'
import type { SheetPart } from '#lib/shop/board-sheet'
import type { PieceRect } from '#lib/shop/cutting'
import { buttonClass } from '../../../../ui/button'
import { CheckField, LengthField, TextArea, TextField } from '../../../../ui/field'
import { Form, Submit } from '../../../../ui/form'
import { Section } from '../../../../ui/sheet'
import { recordCutting } from '../actions'
import { OTHER } from '../record-fields'

interface Props {
  readonly buildId: string
  readonly planId: string
  readonly boardId: string
  readonly units: LengthUnit
  readonly place: string
  readonly ownerName: string
  readonly parts: readonly SheetPart[]
  readonly offcuts: readonly PieceRect[]
}

/** What really came out: everything is filled in as planned, and only what differs is touched. */
export function RecordForm({ buildId, planId, boardId, units, place, ownerName, parts, offcuts }: Props) {
  return (
    <Form action={recordCutting} label="Record the cutting" className="grid gap-8">
      {Object.entries({ buildId, planId, boardId, units }).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      <Section title="Parts" note="Take the tick off a part that failed: the next plan asks for it again.">
        <ul className="divide-y divide-hairline border-y border-hairline">
          {parts.map((p) => (
            <li key={p.partId}>
              <CheckField
                name={`part.${p.partId}`}
                className="py-1.5"
                label={`${p.letter} · ${p.name}, ${saySize([p.lengthUm, p.widthUm], units)}`}
                defaultChecked
              />
            </li>
          ))}
        </ul>
      </Section>
      <Section
        title="Offcuts"
        note={
          offcuts.length === 0
            ? 'The plan leaves none that is worth keeping.'
            : `They go back to the pool as ${ownerName}’s, with the damage that lies on them. Change a size that came out differently.`
        }
      >
        <div className="grid gap-4">
          {offcuts.map((o, i) => (
            <OffcutRow
              key={`${o.xUm} ${o.yUm}`}
              row={String(i)}
              label={`Offcut ${i + 1}`}
              units={units}
              planned={o}
            />
          ))}
          <details>
            <summary className={buttonClass('quiet')}>Another rest worth keeping</summary>
            <div className="pt-3">
              <OffcutRow row={OTHER} label="Keep another rest" units={units} />
            </div>
          </details>
        </div>
      </Section>
      <div className="grid gap-5 sm:grid-cols-2">
        <TextField label="Where the offcuts are put" name="place" defaultValue={place} maxLength={500} />
        <TextArea
          label="Note"
          name="note"
          rows={2}
          maxLength={500}
          help="Anything the next one should know."
        />
      </div>
      <div className="grid gap-2">
        <p className="max-w-[60ch]">
          The board leaves the pool for good. What is recorded here cannot be taken back.
        </p>
        <div>
          <Submit>Record the cutting</Submit>
        </div>
      </div>
    </Form>
  )
}

interface RowProps {
  readonly row: string
  readonly label: string
  readonly units: LengthUnit
  readonly planned?: PieceRect
}

function OffcutRow({ row, label, units, planned }: RowProps) {
  const size = (side: 'lengthUm' | 'widthUm') => ({
    name: `offcuts.${row}.${side}`,
    units,
    defaultValue: planned ? typedLength(planned[side], units) : '',
  })
  return (
    <fieldset className="grid items-start gap-x-4 gap-y-1 border-b border-hairline pb-4 sm:grid-cols-[12rem_10rem_10rem]">
      <legend className="sr-only">{label}</legend>
      <CheckField
        name={`keep.${row}`}
        className="sm:pt-7"
        label={planned ? `Keep ${label.toLowerCase()}` : label}
        defaultChecked={planned !== undefined}
      />
      {planned ? <input type="hidden" name={`was.${row}.lengthUm`} value={planned.lengthUm} /> : null}
      {planned ? <input type="hidden" name={`was.${row}.widthUm`} value={planned.widthUm} /> : null}
      <LengthField label="Length" {...size('lengthUm')} />
      <LengthField label="Width" {...size('widthUm')} />
    </fieldset>
  )
}
