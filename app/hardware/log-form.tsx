'use client'
import { useRef } from 'react'
import { HARDWARE_KINDS, HARDWARE_WORDS } from '#lib/shop/hardware'
import { SelectField, TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { hardwareLogged } from './actions'

const KIND_OPTIONS = HARDWARE_KINDS.map((value) => {
  const { many } = HARDWARE_WORDS[value]
  return { value, label: value === 'other' ? 'Something else' : many[0].toUpperCase() + many.slice(1) }
})

interface LogProps {
  readonly teardownId: string
  readonly terms: readonly { readonly value: string; readonly label: string }[]
}

/** One tin a line: what, its size, how many; what stays the same is kept for the next. */
export function LogHardwareForm({ teardownId, terms }: LogProps) {
  const ref = useRef<HTMLDivElement>(null)
  const next = () => {
    for (const name of ['size', 'count']) {
      const field = ref.current?.querySelector<HTMLInputElement>(`[name="${name}"]`)
      if (field) field.value = ''
    }
    ref.current?.querySelector<HTMLElement>('[name="size"]')?.focus()
  }
  return (
    <div ref={ref}>
      <Form
        action={hardwareLogged}
        label="Log hardware"
        done="Logged."
        onDone={next}
        className="grid grid-cols-1 gap-4"
      >
        <input type="hidden" name="teardownId" value={teardownId} />
        <div className="grid grid-cols-2 items-start gap-3 sm:grid-cols-[1fr_1.6fr_0.8fr]">
          <SelectField label="What" name="kind" options={KIND_OPTIONS} defaultValue="screw" />
          <TextField label="Size" name="size" maxLength={60} help="As on the tin: «No. 8 × 32 mm»." />
          <TextField label="How many" name="count" inputMode="numeric" />
        </div>
        <div className="grid items-start gap-3 sm:grid-cols-2">
          <SelectField label="Terms" name="terms" options={terms} defaultValue="free" />
          <TextField label="Where they lie" name="place" maxLength={80} />
        </div>
        <div>
          <Submit look="plain">Log them</Submit>
        </div>
      </Form>
    </div>
  )
}
