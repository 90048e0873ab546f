'use client'
import { AlertDialog } from 'radix-ui'
import type { ReactNode } from 'react'
import type { FormState } from '../form-state'
import { buttonClass } from './button'
import { Form, Submit } from './form'

export interface Question {
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
  /** After it was done. */
  readonly onDone?: () => void
}

interface QuestionProps extends Question {
  readonly close: () => void
}

/** The question itself; fetched when it is asked for the first time. */
export default function DialogQuestion({
  question,
  consequence,
  yes,
  action,
  hidden = {},
  children,
  stop = true,
  onDone,
  close,
}: QuestionProps) {
  const done = () => {
    close()
    onDone?.()
  }
  return (
    <AlertDialog.Root open onOpenChange={(isOpen) => isOpen || close()}>
      <AlertDialog.Portal>
        <AlertDialog.Overlay className="fixed inset-0 z-40 bg-[rgb(20_18_14/55%)]" />
        <AlertDialog.Content className="fixed inset-x-3 top-[12vh] z-50 mx-auto max-h-[80vh] max-w-lg overflow-auto bg-sheet p-6 shadow-float outline-none">
          <AlertDialog.Title className="text-[1.3rem] leading-tight font-semibold">
            {question}
          </AlertDialog.Title>
          <AlertDialog.Description className="mt-2 text-ink-soft">{consequence}</AlertDialog.Description>
          <Form action={action} className="mt-5 grid gap-4" onDone={done}>
            {Object.entries(hidden).map(([name, value]) => (
              <input key={name} type="hidden" name={name} value={value} />
            ))}
            {children}
            <div className="flex flex-wrap justify-end gap-2">
              <AlertDialog.Cancel className={buttonClass('plain')}>Keep as it is</AlertDialog.Cancel>
              <Submit look={stop ? 'stop' : 'primary'}>{yes}</Submit>
            </div>
          </Form>
        </AlertDialog.Content>
      </AlertDialog.Portal>
    </AlertDialog.Root>
  )
}
