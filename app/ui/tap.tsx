'use client'
import type { ReactNode } from 'react'
import type { FormState } from '../form-state'
import type { ButtonLook } from './button'
import { Form, Submit } from './form'

interface TapProps {
  readonly action: (state: FormState, form: FormData) => Promise<FormState>
  readonly hidden: Readonly<Record<string, string>>
  readonly look?: ButtonLook
  readonly children: ReactNode
  readonly disabled?: boolean
  /** Nothing to tap any more; what was answered stays in sight. */
  readonly isOver?: boolean
}

/** One tap that does one thing: grant, approve, tick off. A refusal is said above the button. */
export function Tap({ action, hidden, look = 'plain', children, disabled, isOver = false }: TapProps) {
  return (
    <Form action={action} className="inline-grid gap-2">
      {Object.entries(hidden).map(([name, value]) => (
        <input key={name} type="hidden" name={name} value={value} />
      ))}
      {isOver ? null : (
        <Submit look={look} disabled={disabled}>
          {children}
        </Submit>
      )}
    </Form>
  )
}
