'use client'
import dynamic from 'next/dynamic'
import { type ReactNode, useRef, useState } from 'react'
import type { FormState } from '../form-state'
import { type ButtonLook, buttonClass } from './button'

const DialogQuestion = dynamic(() => import('./dialog-question'), { ssr: false })

export interface AskProps {
  /** On the button that opens the question. */
  readonly label: ReactNode
  readonly look?: ButtonLook
  /** The question, and what follows from yes. */
  readonly question: string
  readonly consequence: string
  /** On the button that does it. */
  readonly yes: string
  readonly action: (state: FormState, form: FormData) => Promise<FormState>
  /** Sent with the form. */
  readonly hidden?: Readonly<Record<string, string>>
  /** More fields of the question: a note, a reason. */
  readonly children?: ReactNode
  readonly stop?: boolean
}

/** A button for what cannot be undone: it asks first. */
export function AskFirst({ label, look = 'plain', ...question }: AskProps) {
  const [isOpen, setOpen] = useState(false)
  const button = useRef<HTMLButtonElement>(null)
  const close = () => {
    setOpen(false)
    // After the question has gone: while it is open, it holds the focus.
    setTimeout(() => button.current?.focus())
  }
  return (
    <>
      <button
        ref={button}
        type="button"
        aria-haspopup="dialog"
        aria-expanded={isOpen}
        className={buttonClass(look)}
        onClick={() => setOpen(true)}
      >
        {label}
      </button>
      {isOpen ? <DialogQuestion {...question} close={close} /> : null}
    </>
  )
}
