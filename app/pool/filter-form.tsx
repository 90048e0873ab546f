import Link from '#app/ui/link'
import type { LengthUnit } from '#lib/core/units/inches'
import { speciesById } from '#lib/core/wood/species'
import { TERMS_OPTIONS } from '../boards/choices'
import { buttonClass } from '../ui/button'
import { CheckField, LengthField, SelectField, TextField } from '../ui/field'
import type { WantedText } from './wanted'

interface FilterProps {
  readonly typed: WantedText
  /** Sentence by field. */
  readonly fields: Readonly<Record<string, string>>
  readonly choices: {
    readonly owners: readonly { readonly id: string; readonly name: string }[]
    readonly species: readonly string[]
  }
  readonly units: LengthUnit
}

const STATES = [
  { value: 'inPool', label: 'In the pool' },
  { value: 'cut', label: 'Cut' },
  { value: 'removed', label: 'Taken out' },
]

function speciesOptions(species: readonly string[]) {
  const named = species.map((id) => ({ value: id, label: speciesById(id).name, group: 'In this shop' }))
  named.sort((a, b) => a.label.localeCompare(b.label))
  return [
    { value: '', label: 'Any' },
    { value: 'hardwood', label: 'Any hardwood' },
    { value: 'softwood', label: 'Any softwood' },
    ...named,
  ]
}

/** Fields that are asked for less often. */
const MORE = ['owner', 'terms', 'number', 'state']

/** Plain GET: what is asked for stands in the address and can be kept or sent on. */
export function FilterForm({ typed, fields, choices, units }: FilterProps) {
  const at = (name: string) => ({ name, defaultValue: typed[name] ?? '', error: fields[name] })
  return (
    <form
      action="/pool"
      method="get"
      aria-label="Find boards"
      className="grid grid-cols-1 gap-4"
      key={JSON.stringify(typed)}
    >
      <div className="grid grid-cols-2 items-start gap-3 lg:grid-cols-4">
        <SelectField label="Species" options={speciesOptions(choices.species)} {...at('species')} />
        <LengthField label="Length at least" units={units} {...at('length')} />
        <LengthField label="Width at least" units={units} {...at('width')} />
        <LengthField label="Thickness at least" units={units} {...at('thickness')} />
      </div>
      <details open={MORE.some((name) => typed[name] !== undefined)}>
        <summary className="min-h-11 py-2 font-medium">By owner, terms, number or state</summary>
        <div className="mt-1 grid grid-cols-2 items-start gap-3 lg:grid-cols-4">
          <SelectField
            label="Owner"
            options={[
              { value: '', label: 'Anyone' },
              ...choices.owners.map((o) => ({ value: o.id, label: o.name })),
            ]}
            {...at('owner')}
          />
          <SelectField
            label="Terms"
            options={[{ value: '', label: 'Any' }, ...TERMS_OPTIONS]}
            {...at('terms')}
          />
          <TextField label="Number on it" inputMode="numeric" {...at('number')} />
          <SelectField
            label="State"
            options={STATES}
            {...at('state')}
            defaultValue={typed.state ?? 'inPool'}
          />
        </div>
      </details>
      <div className="flex flex-wrap items-center gap-x-6 gap-y-3">
        <CheckField label="Free now" name="free" value="yes" defaultChecked={typed.free !== undefined} />
        <div className="flex flex-wrap gap-2">
          <button type="submit" className={buttonClass('primary')}>
            Find
          </button>
          <Link className={buttonClass('quiet')} href="/pool">
            Show all
          </Link>
        </div>
      </div>
    </form>
  )
}
