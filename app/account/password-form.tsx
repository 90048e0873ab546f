'use client'
import type { FormState } from '../form-state'
import { enter } from '../sign-in/enter'
import { Form, Submit } from '../ui/form'
import { PasswordField } from '../ui/password-field'
import { passwordAction } from './actions'

/** All sessions end with the old password; this one begins anew with the new one. */
export function PasswordForm({ email }: { readonly email: string }) {
  const send = async (state: FormState, form: FormData): Promise<FormState> => {
    const answer = await passwordAction(state, form)
    return answer.ok ? enter(email, String(form.get('password')), '/account?changed=password') : answer
  }
  return (
    <Form action={send} label="Change password" className="grid max-w-md gap-4">
      <input type="email" autoComplete="username" value={email} readOnly hidden />
      <PasswordField label="Current password" name="current" required />
      <PasswordField isNew label="New password" name="password" help="10 characters at least." required />
      <div>
        <Submit look="plain">Change password</Submit>
      </div>
    </Form>
  )
}
