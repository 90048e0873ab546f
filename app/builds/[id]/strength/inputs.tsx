'use client'
import { type AskFaults, levelChoices, type TypedAsk } from '#lib/shop/strength-ask'
import { SelectField, TextField } from '../../../ui/field'
import { Notice } from '../../../ui/notice'

export interface Wood {
  readonly id: string
  readonly name: string
  /** Where no one wood is asked for: how it is judged then. */
  readonly note: string | null
  /** Woods that the design may ask for, by id. */
  readonly choices: readonly string[]
}

interface InputsProps {
  readonly typed: TypedAsk
  readonly setTyped: (typed: TypedAsk) => void
  readonly faults: AskFaults
  readonly grades: readonly { readonly value: string; readonly label: string }[]
  readonly wood: Wood
  readonly buildId: string
}

/** The wood that the design asks for, how good its pieces are, and the air that the finished thing lives in. */
export function Inputs({ typed, setTyped, faults, grades, wood, buildId }: InputsProps) {
  const type = (name: keyof TypedAsk) => (event: { readonly target: { readonly value: string } }) =>
    setTyped({ ...typed, [name]: event.target.value })
  const humidity = (name: 'dry' | 'damp', label: string, help: string) => (
    <TextField
      label={label}
      name={name}
      unit="%"
      inputMode="decimal"
      value={typed[name]}
      onChange={type(name)}
      error={faults[name]}
      help={help}
    />
  )
  return (
    <div className="grid gap-5">
      <div className="grid gap-x-8 gap-y-4 md:grid-cols-2">
        <div className="grid content-start gap-1 md:col-span-2">
          <p className="font-medium">Wood</p>
          <p className="min-h-11 py-2">
            {wood.name}{' '}
            <a className="link print:hidden" href={`/builds/${buildId}/design`}>
              Change it in the design
            </a>
          </p>
        </div>
        <SelectField
          label="Where it is used"
          name="level"
          options={levelChoices}
          value={typed.level}
          onChange={type('level')}
          help="For seats. Tables and shelves are judged as at home."
        />
        <SelectField
          label="The parts that bear are picked for"
          name="grade"
          options={grades}
          value={typed.grade}
          onChange={type('grade')}
          help="Look for this at the bench: a worse piece must not go into a leg, a support or a rail."
        />
        {humidity('dry', 'Driest air of the year', 'A heated room in winter: about 35 %.')}
        {humidity('damp', 'Dampest air of the year', 'A room in a damp summer: about 65 %.')}
      </div>
      {wood.note ? <Notice>{wood.note}</Notice> : null}
    </div>
  )
}
