'use client'
import { type ReactNode, useId } from 'react'
import { useFieldState } from '../../ui/form'

export interface DesignChoice {
  readonly id: string
  readonly name: string
  readonly goodFor: string
  readonly preview: ReactNode
}

interface DesignFieldProps {
  readonly designs: readonly DesignChoice[]
  /** Chosen to begin with. */
  readonly first?: string | undefined
}

/** Designs as large cards, one of which is chosen; the first one to begin with. */
export function DesignField({ designs, first }: DesignFieldProps) {
  const id = useId()
  const { error, typed } = useFieldState('designId')
  const wanted = designs.find((d) => d.id === first) ?? designs[0]
  const chosen = typed ?? wanted?.id
  return (
    <fieldset aria-describedby={error ? `${id}-error` : undefined}>
      <legend className="mb-2 font-medium">Design</legend>
      <div className="grid gap-4 sm:grid-cols-2">
        {designs.map((d) => (
          <label
            key={d.id}
            className="grid cursor-pointer content-start gap-3 border border-hairline-strong bg-sheet p-4 has-checked:border-2 has-checked:border-accent has-checked:p-[calc(1rem-1px)] has-focus-visible:outline-3 has-focus-visible:outline-offset-2 has-focus-visible:outline-accent"
          >
            {/* A picture of what the words beside it say. */}
            <div aria-hidden="true">{d.preview}</div>
            <span className="flex items-start gap-3">
              <input
                type="radio"
                name="designId"
                value={d.id}
                defaultChecked={d.id === chosen}
                className="mt-1 size-5 shrink-0 accent-[var(--accent)] outline-none"
              />
              <span>
                <span className="block text-[1.1rem] leading-tight font-semibold">{d.name}</span>
                <span className="mt-1 block text-ink-soft">{d.goodFor}</span>
              </span>
            </span>
          </label>
        ))}
      </div>
      {error ? (
        <p id={`${id}-error`} className="mt-1 text-[0.92rem] font-medium text-stop">
          {error}
        </p>
      ) : null}
    </fieldset>
  )
}
