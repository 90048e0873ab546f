'use client'
import { type ComponentProps, useState } from 'react'
import { TextField } from './field'

interface PasswordFieldProps extends Omit<ComponentProps<typeof TextField>, 'type'> {
  /** A password that is being chosen, or the one that there is. */
  readonly isNew?: boolean
}

/** A password, hidden until its owner wants to see it. */
export function PasswordField({ isNew = false, className, ...rest }: PasswordFieldProps) {
  const [isShown, setShown] = useState(false)
  return (
    <div className={className}>
      <TextField
        type={isShown ? 'text' : 'password'}
        autoComplete={isNew ? 'new-password' : 'current-password'}
        autoCapitalize="none"
        spellCheck={false}
        {...rest}
      />
      <label className="inline-flex min-h-11 items-center gap-2 text-[0.92rem]">
        <input
          type="checkbox"
          checked={isShown}
          onChange={(event) => setShown(event.target.checked)}
          className="size-5 accent-[var(--accent)]"
        />
        Show it
      </label>
    </div>
  )
}
