'use client'
import {
  createContext,
  type ReactNode,
  startTransition,
  useActionState,
  useContext,
  useEffect,
  useRef,
  useState,
  useTransition,
} from 'react'
import { useFormStatus } from 'react-dom'
import { type FormState, freshForm } from '../form-state'
import { type ButtonLook, buttonClass } from './button'
import { Notice } from './notice'
import { send } from './send'

const StateContext = createContext<FormState>(freshForm)

/** What the last answer said about the field `name`. */
export function useFieldState(name: string): { error?: string; typed?: string } {
  const state = useContext(StateContext)
  return { error: state.fields?.[name], typed: state.values?.[name] }
}

/** Whether the last answer found fault with any of these fields. */
export function useAnyFault(names: readonly string[]): boolean {
  const { fields } = useContext(StateContext)
  return names.some((name) => fields?.[name] !== undefined)
}

interface FormProps {
  readonly action: (state: FormState, form: FormData) => Promise<FormState>
  readonly children: ReactNode
  readonly className?: string
  /** Said when the form was taken and the page stays. */
  readonly done?: string
  /** Empties the fields after success, for entering the next one; focus goes to the first field. */
  readonly again?: boolean
  readonly onDone?: () => void
  readonly label?: string
}

/**
 * A form whose action answers with a FormState. What was typed stays when it fails; the first field at fault gets
 * the focus; without script it still posts.
 */
export function Form({ action, children, className, done, again, onDone, label }: FormProps) {
  // Without script the form posts by itself; with it, it is sent from here, so that a lost connection loses nothing.
  const [posted, post] = useActionState(action, freshForm)
  const [answer, setAnswer] = useState<FormState | null>(null)
  const [, startSending] = useTransition()
  const state = answer ?? posted
  const ref = useRef<HTMLFormElement>(null)
  const doneRef = useRef(onDone)
  doneRef.current = onDone

  useEffect(() => {
    const form = ref.current
    if (!form || state.at === undefined) return
    if (state.ok) {
      if (again) {
        form.reset()
        form.querySelector<HTMLElement>('input:not([type=hidden]), select, textarea')?.focus()
      }
      doneRef.current?.()
      return
    }
    form.querySelector<HTMLElement>('[aria-invalid="true"]')?.focus()
  }, [state, again])

  // Fields named in the answer that this form does not show would be lost: say them in the sentence.
  const unseen = Object.entries(state.fields ?? {}).filter(
    ([name]) => !ref.current?.querySelector(`[name="${CSS.escape(name)}"]`),
  )
  return (
    <StateContext.Provider value={state}>
      <form
        ref={ref}
        aria-label={label}
        noValidate
        action={post}
        className={className ?? 'grid gap-5'}
        onSubmit={(event) => {
          event.preventDefault()
          const submitter = (event.nativeEvent as SubmitEvent).submitter
          const data = new FormData(event.currentTarget, submitter)
          startSending(async () => {
            const next = await send(action, state, data)
            startTransition(() => setAnswer(next))
          })
        }}
      >
        {state.ok === false && state.sentence ? (
          <Notice level="stop" role="alert">
            {state.sentence} {unseen.map(([, sentence]) => sentence).join(' ')}
          </Notice>
        ) : null}
        {state.ok && (state.said ?? done) ? (
          <Notice level="good" role="status">
            {state.said ?? done}
          </Notice>
        ) : null}
        {children}
      </form>
    </StateContext.Provider>
  )
}

interface SubmitProps {
  readonly children: ReactNode
  readonly look?: ButtonLook
  readonly name?: string
  readonly value?: string
  readonly className?: string
  readonly disabled?: boolean
}

/** Says that it is working and takes no second press while it is. */
export function Submit({ children, look = 'primary', className, disabled, ...rest }: SubmitProps) {
  const { pending } = useFormStatus()
  return (
    <button
      type="submit"
      className={buttonClass(look, className)}
      disabled={pending || disabled}
      aria-busy={pending}
      {...rest}
    >
      {pending ? <span className="animate-pulse">{children}</span> : children}
    </button>
  )
}
