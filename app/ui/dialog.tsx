'use client'
import dynamic from 'next/dynamic'
import { type ReactNode, useRef, useState } from 'react'
import { type ButtonLook, buttonClass } from './button'
import type { Question } from './dialog-question'

const DialogQuestion = dynamic(() => import('./dialog-question'), { ssr: false })

interface AskProps extends Question {
  /** On the button that opens the question. */
  readonly label: ReactNode
  readonly look?: ButtonLook
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
