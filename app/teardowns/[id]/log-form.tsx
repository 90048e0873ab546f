'use client'
import { type ReactNode, useRef } from 'react'
import type { LengthUnit } from '#lib/core/units/inches'
import { FINISH_OPTIONS, SPECIES_OPTIONS, TERMS_OPTIONS } from '../../boards/choices'
import { CheckField, LengthField, SelectField, TextArea, TextField } from '../../ui/field'
import { Form, Submit, useAnyFault } from '../../ui/form'
import { logBoard } from '../actions'

/** Emptied once a board is logged; everything else stays for the next one. */
const FRESH_EACH_TIME = {
  length: '',
  width: '',
  cup: '',
  bow: '',
  crook: '',
  twist: '',
  notes: '',
  alike: '1',
}

interface LogFormProps {
  readonly teardownId: string
  readonly units: LengthUnit
}

/** One row a board: three lengths and Enter, over and over. */
export function LogForm({ teardownId, units }: LogFormProps) {
  const ref = useRef<HTMLDivElement>(null)
  const next = () => {
    for (const [name, value] of Object.entries(FRESH_EACH_TIME)) {
      const field = ref.current?.querySelector<HTMLInputElement>(`[name="${name}"]`)
      if (field) field.value = value
    }
    ref.current?.querySelector<HTMLElement>('[name="length"]')?.focus()
  }
  return (
    <div ref={ref}>
      <Form action={logBoard} label="Log a board" onDone={next} className="grid grid-cols-1 gap-4">
        <input type="hidden" name="teardownId" value={teardownId} />
        <input type="hidden" name="units" value={units} />
        <div className="grid grid-cols-2 items-start gap-3 sm:grid-cols-4 lg:grid-cols-[1fr_1fr_1fr_1.6fr_0.8fr]">
          <LengthField label="Length" name="length" units={units} enterKeyHint="done" />
          <LengthField label="Width" name="width" units={units} enterKeyHint="done" />
          <LengthField label="Thickness" name="thickness" units={units} enterKeyHint="done" />
          <SelectField label="Species" name="species" options={SPECIES_OPTIONS} defaultValue="unknown" />
          <TextField label="How many alike" name="alike" inputMode="numeric" defaultValue="1" />
        </div>
        <div className="grid items-start gap-3 sm:grid-cols-3">
          <SelectField label="Old finish" name="finish" options={FINISH_OPTIONS} defaultValue="unknown" />
          <SelectField label="Terms" name="terms" options={TERMS_OPTIONS} defaultValue="free" />
          <SelectField label="Metal" name="metal" options={METAL_OPTIONS} defaultValue="unchecked" />
        </div>
        <More names={['cup', 'bow', 'crook', 'twist', 'place', 'notes', 'treated']}>
          <div className="grid grid-cols-2 items-start gap-3 sm:grid-cols-4">
            <LengthField label="Cup" name="cup" units={units} help="Over its width." />
            <LengthField label="Bow" name="bow" units={units} help="Over its length, flat side." />
            <LengthField label="Crook" name="crook" units={units} help="Over its length, edge." />
            <LengthField label="Twist" name="twist" units={units} help="Lift of the fourth corner." />
          </div>
          <div className="grid items-start gap-3 sm:grid-cols-2">
            <TextField label="Where it lies" name="place" maxLength={80} />
            <CheckField label="Preservative-treated" name="treated" />
          </div>
          <TextArea label="Notes" name="notes" rows={2} maxLength={1000} />
        </More>
        <div className="flex flex-wrap items-center gap-x-5 gap-y-2">
          <Submit>Log it</Submit>
          <p className="text-[0.88rem] text-ink-soft">
            {units === 'in' ? 'A bare number is inches' : 'A bare number is millimetres'}; 1613 mm, 63 7/16
            and 5' 3-7/16" are all understood.
          </p>
        </div>
      </Form>
    </div>
  )
}

const METAL_OPTIONS = [
  { value: 'unchecked', label: 'Not checked yet' },
  { value: 'cleared', label: 'Checked: cleared' },
  { value: 'found', label: 'Checked: metal in it' },
]

/** What few boards need, out of the way; it opens by itself when something in it is at fault. */
function More({ names, children }: { readonly names: readonly string[]; readonly children: ReactNode }) {
  const isWrong = useAnyFault(names)
  return (
    <details open={isWrong || undefined}>
      <summary className="min-h-11 py-2 font-medium">Warp, place, treated, notes</summary>
      <div className="mt-1 grid gap-4">{children}</div>
    </details>
  )
}
