import type { StationKind } from '#lib/core/setups/setup-plan'
import { typedLength } from '#lib/format/length'
import { CheckField, LengthField, SelectField, TextArea, TextField } from '../ui/field'
import { Section } from '../ui/sheet'
import { clock, KIND_OPTIONS, quarterHours } from './words'

export interface StationValues {
  readonly name: string
  readonly kind: StationKind
  readonly place: string
  readonly notes: string
  readonly needsInduction: boolean
  readonly needsApproval: boolean
  readonly opensMinute: number
  readonly closesMinute: number
  readonly kerfUm: number | null
  readonly maxRipWidthUm: number | null
  readonly maxCrosscutWidthUm: number | null
  readonly minPieceLengthUm: number | null
  readonly minPieceWidthUm: number | null
  readonly maxPassUm: number | null
  readonly keeper: { readonly id: string }
}

interface SettingProps {
  readonly station?: StationValues
  readonly keepers: readonly { readonly id: string; readonly name: string }[]
}

/** What an admin sets: what it is, who answers for it, what it asks of a maker. */
export function SettingFields({ station, keepers }: SettingProps) {
  return (
    <Section title="What it is">
      <div className="grid gap-4 sm:grid-cols-2">
        <TextField label="Name" name="name" defaultValue={station?.name} required />
        <SelectField
          label="Kind"
          name="kind"
          options={KIND_OPTIONS}
          defaultValue={station?.kind ?? 'tableSaw'}
        />
        <SelectField
          label="Keeper"
          name="keeperId"
          options={keepers.map((k) => ({ value: k.id, label: k.name }))}
          defaultValue={station?.keeper.id}
          help="Keepers and admins can answer for a station."
        />
        <div className="grid gap-1">
          <CheckField
            label="Needs an induction"
            name="needsInduction"
            defaultChecked={station?.needsInduction ?? true}
          />
          <CheckField
            label="Its keeper approves each booking"
            name="needsApproval"
            defaultChecked={station?.needsApproval ?? true}
          />
        </div>
      </div>
    </Section>
  )
}

interface TuningProps {
  readonly station?: StationValues
  readonly units: 'mm' | 'in'
}

/** What its keeper sets too: where, when, and what it can take. Empty where there is no such limit. */
export function TuningFields({ station, units }: TuningProps) {
  const length = (name: keyof StationValues) => {
    const value = station?.[name]
    return { name, units, defaultValue: typeof value === 'number' ? typedLength(value, units) : '' }
  }
  const [opens, closes] = [station?.opensMinute ?? 480, station?.closesMinute ?? 1320]
  return (
    <>
      <input type="hidden" name="shownIn" value={units} />
      <Section title="Where and when">
        <div className="grid gap-4 sm:grid-cols-2">
          <TextField label="Place" name="place" defaultValue={station?.place} className="sm:col-span-2" />
          <SelectField
            label="Opens"
            name="opensMinute"
            options={quarterHours(0, 1425, opens)}
            defaultValue={clock(opens)}
          />
          <SelectField
            label="Closes"
            name="closesMinute"
            options={quarterHours(15, 1440, closes)}
            defaultValue={clock(closes)}
            help="24:00 is midnight."
          />
          <TextArea
            label="Notes"
            name="notes"
            defaultValue={station?.notes}
            className="sm:col-span-2"
            help="What everyone should know before they come."
          />
        </div>
      </Section>
      <Section
        title="Limits"
        note="Plans and set-ups keep to these. Leave empty what does not apply; the machine’s manual decides."
      >
        <div className="grid gap-4 sm:grid-cols-2 lg:grid-cols-3">
          <LengthField label="Kerf" {...length('kerfUm')} />
          <LengthField label="Widest rip" {...length('maxRipWidthUm')} />
          <LengthField label="Widest crosscut" {...length('maxCrosscutWidthUm')} />
          <LengthField label="Shortest safe piece" {...length('minPieceLengthUm')} />
          <LengthField label="Narrowest safe piece" {...length('minPieceWidthUm')} />
          <LengthField label="Deepest pass" {...length('maxPassUm')} />
        </div>
      </Section>
    </>
  )
}
