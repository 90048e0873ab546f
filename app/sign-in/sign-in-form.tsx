'use client'
import type { FormState } from '../form-state'
import { TextField } from '../ui/field'
import { Form, Submit } from '../ui/form'
import { PasswordField } from '../ui/password-field'
import { enter } from './enter'

const typed = (form: FormData, name: string) => String(form.get(name) ?? '')

function missing(email: string, password: string): FormState | null {
  const fields: Record<string, string> = {}
  if (!email.trim()) fields.email = 'Type your e-mail.'
  if (!password) fields.password = 'Type your password.'
  if (Object.keys(fields).length === 0) return null
  return { ok: false, code: 'badInput', fields, values: { email }, at: Date.now() }
}

export function SignInForm({ next }: { readonly next: string }) {
  const send = async (_: FormState, form: FormData): Promise<FormState> => {
    const [email, password] = [typed(form, 'email'), typed(form, 'password')]
    return missing(email, password) ?? enter(email, password, next)
  }
  return (
    <Form action={send} label="Sign in">
      <TextField label="E-mail" name="email" type="email" autoComplete="username" autoFocus required />
      <PasswordField label="Password" name="password" required />
      <Submit>Sign in</Submit>
    </Form>
  )
}
