import type { SheetName } from '#lib/documents/drawing-set'
import { PAPERS } from '#lib/documents/sheet/paper'
import { SCALES, scaleText } from '#lib/documents/sheet/scales'
import { buttonClass } from '../../../ui/button'
import { SelectField } from '../../../ui/field'
import { type Asked, queryOf } from './asked'

interface PickerProps {
  readonly buildId: string
  readonly names: readonly SheetName[]
  readonly asked: Asked
}

const papers = Object.entries(PAPERS).map(([value, { label }]) => ({ value, label }))
const scales = [
  { value: '', label: 'Largest that fits' },
  ...SCALES.map((one) => ({ value: String(one), label: scaleText(one) })),
]
const units = [
  { value: 'mm', label: 'Millimetres' },
  { value: 'in', label: 'Inches' },
]

/** Plain GET: the sheet that is shown stands in the address and can be kept or sent on. */
export function Picker({ buildId, names, asked }: PickerProps) {
  const at = names.findIndex(({ id }) => id === asked.sheet)
  const to = (name: SheetName | undefined, label: string) =>
    name === undefined ? null : (
      // A new scale may fit another sheet, so a step does not keep it.
      <a
        className={buttonClass('plain')}
        href={`/builds/${buildId}/drawings?${queryOf({ ...asked, sheet: name.id, scale: undefined })}`}
      >
        <span>
          {label}
          <span className="sr-only">: {name.label}</span>
        </span>
      </a>
    )
  const sheets = names.map(({ id, label, group }) => ({ value: id, label, group }))
  return (
    <div className="grid gap-3 print:hidden">
      <form
        action={`/builds/${buildId}/drawings`}
        method="get"
        aria-label="Choose a sheet"
        key={queryOf(asked)}
        className="grid grid-cols-2 items-end gap-3 sm:grid-cols-[2fr_1fr_1fr_1fr_auto]"
      >
        <SelectField
          label="Sheet"
          name="sheet"
          options={sheets}
          defaultValue={asked.sheet}
          className="col-span-2 sm:col-span-1"
        />
        <SelectField
          label="Scale"
          name="scale"
          options={scales}
          defaultValue={asked.scale === undefined ? '' : String(asked.scale)}
        />
        <SelectField label="Paper" name="paper" options={papers} defaultValue={asked.paper} />
        <SelectField label="Lengths in" name="units" options={units} defaultValue={asked.units} />
        <button type="submit" className={buttonClass('primary')}>
          Show
        </button>
      </form>
      <div className="flex flex-wrap items-center gap-2">
        {to(names[at - 1], 'Sheet before')}
        {to(names[at + 1], 'Next sheet')}
        <span className="text-ink-soft">
          {at + 1} of {names.length}
        </span>
      </div>
    </div>
  )
}
