'use client'
import type { FormState } from '../../form-state'
import { enter } from '../../sign-in/enter'
import { TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { PasswordField } from '../../ui/password-field'
import { joinAction } from './actions'

interface JoinFormProps {
  readonly token: string
  readonly email: string
  readonly isMember: boolean
}

export function JoinForm({ token, email, isMember }: JoinFormProps) {
  const send = async (state: FormState, form: FormData): Promise<FormState> => {
    const answer = await joinAction(state, form)
    return answer.ok ? enter(email, String(form.get('password')), '/') : answer
  }
  return (
    <Form action={send} label="Join">
      <input type="hidden" name="token" value={token} />
      <TextField
        label="E-mail"
        name="email"
        value={email}
        readOnly
        autoComplete="username"
        help="The link is for this address."
      />
      {isMember ? null : (
        <TextField
          label="Your name"
          name="name"
          autoComplete="name"
          required
          autoFocus
          help="As the others call you."
        />
      )}
      <PasswordField isNew label="A password" name="password" help="10 characters at least." required />
      <Submit>{isMember ? 'Set it and sign in' : 'Join the shop'}</Submit>
    </Form>
  )
}
