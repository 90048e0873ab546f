'use client'
import { Check, Copy as CopyIcon } from 'lucide-react'
import { useId, useState } from 'react'
import { buttonClass } from './button'

/** A text to take elsewhere: shown whole, selected by a tap, copied by a button. */
export function Copy({ label, text }: { readonly label: string; readonly text: string }) {
  const id = useId()
  const [isCopied, setCopied] = useState(false)
  const copy = async () => {
    const field = document.getElementById(id) as HTMLInputElement
    field.select()
    // Over plain http the clipboard is closed to pages; the selection is still there to be copied by hand.
    await navigator.clipboard?.writeText(text).then(
      () => setCopied(true),
      () => undefined,
    )
  }
  return (
    <div className="grid gap-1">
      <label htmlFor={id} className="font-medium">
        {label}
      </label>
      <div className="flex flex-wrap gap-2">
        <input
          id={id}
          readOnly
          value={text}
          onFocus={(event) => event.target.select()}
          className="control min-w-0 flex-1 basis-64"
        />
        <button type="button" onClick={copy} className={buttonClass('plain')}>
          {isCopied ? (
            <Check aria-hidden="true" className="size-5" />
          ) : (
            <CopyIcon aria-hidden="true" className="size-5" />
          )}
          <span aria-live="polite">{isCopied ? 'Copied' : 'Copy'}</span>
        </button>
      </div>
    </div>
  )
}
