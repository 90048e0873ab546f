'use client'
import { useEffect, useRef } from 'react'
import type { FormState } from '../form-state'
import { enter } from '../sign-in/enter'
import { ChoiceField, TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { PasswordField } from '../ui/password-field'
import { ZoneField } from '../ui/zone-field'
import { startAction } from './actions'

export function StartForm({ zones }: { readonly zones: readonly string[] }) {
  const zone = useRef<HTMLSelectElement>(null)
  useEffect(() => {
    const here = Intl.DateTimeFormat().resolvedOptions().timeZone
    if (zone.current && zones.includes(here)) zone.current.value = here
  }, [zones])
  const send = async (state: FormState, form: FormData): Promise<FormState> => {
    const answer = await startAction(state, form)
    if (!answer.ok) return answer
    return enter(String(form.get('email')), String(form.get('password')), '/')
  }
  return (
    <Form action={send} label="Start the shop">
      <TextField label="Name of the shop" name="shopName" required autoFocus />
      <ZoneField
        ref={zone}
        zones={zones}
        defaultValue="Europe/Berlin"
        help="Opening hours and bookings follow this clock."
      />
      <ChoiceField
        label="Lengths are shown in"
        name="units"
        defaultValue="mm"
        options={[
          { value: 'mm', label: 'Millimetres' },
          { value: 'in', label: 'Inches' },
        ]}
        help="Either can be typed anywhere, and each member may choose for themselves."
      />
      <hr className="border-hairline" />
      <TextField label="Your name" name="name" autoComplete="name" required />
      <TextField label="Your e-mail" name="email" type="email" autoComplete="username" required />
      <PasswordField isNew label="A password" name="password" help="10 characters at least." required />
      <Submit>Start the shop</Submit>
    </Form>
  )
}
