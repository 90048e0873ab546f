'use client'
import { type ReactNode, useState } from 'react'
import type { FormState } from '../form-state'
import type { ButtonLook } from '../ui/button'
import { Copy } from '../ui/copy'
import { Form, Submit } from '../ui/form'
import { Notice } from '../ui/notice'
import type { LinkState } from './actions'

interface LinkFormProps {
  readonly action: (state: FormState, form: FormData) => Promise<LinkState>
  readonly label: string
  readonly submit: string
  readonly look?: ButtonLook
  readonly className?: string
  readonly children: ReactNode
}

/** A form that answers with a one-time link, shown this once. */
export function LinkForm({ action, label, submit, look = 'plain', className, children }: LinkFormProps) {
  const [link, setLink] = useState<string>()
  const send = async (state: FormState, form: FormData): Promise<FormState> => {
    const answer = await action(state, form)
    setLink(answer.link)
    return answer
  }
  return (
    <div className="grid gap-4">
      <Form action={send} label={label} className={className} again>
        {children}
        <div>
          <Submit look={look}>{submit}</Submit>
        </div>
      </Form>
      {link ? (
        <Notice level="good" role="status">
          <p className="mb-2">
            Copy this link now and send it to them: it is not shown again. It works once, for 7 days.
          </p>
          <Copy label="One-time link" text={link} />
        </Notice>
      ) : null}
    </div>
  )
}
