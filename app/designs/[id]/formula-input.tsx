'use client'
import clsx from 'clsx'
import { type KeyboardEvent, useId, useRef, useState } from 'react'

export interface NameHint {
  readonly name: string
  /** What it is, and what it is worth now. */
  readonly note: string
}

interface FormulaInputProps {
  readonly id: string
  readonly value: string
  readonly readOnly: boolean
  readonly isFaulty: boolean
  readonly describedBy: string | undefined
  readonly names: readonly NameHint[]
  readonly onChange: (text: string) => void
}

const MOST_HINTS = 7

/** The word that ends at the caret, if it may be the beginning of a name. */
function wordBefore(text: string, caret: number): string {
  return /[a-zA-Z][a-zA-Z0-9]*$/.exec(text.slice(0, caret))?.[0] ?? ''
}

/** A formula, with the names that it may use offered as they are typed. */
export function FormulaInput(props: FormulaInputProps) {
  const { id, value, readOnly, isFaulty, describedBy, names, onChange } = props
  const listId = useId()
  const input = useRef<HTMLInputElement>(null)
  const [word, setWord] = useState('')
  const [at, setAt] = useState(0)
  const hints =
    word === ''
      ? []
      : names
          .filter((n) => n.name !== word && n.name.toLowerCase().startsWith(word.toLowerCase()))
          .slice(0, MOST_HINTS)
  const isOpen = hints.length > 0
  const chosen = hints[Math.min(at, hints.length - 1)]
  const take = ({ name }: NameHint) => {
    const caret = input.current?.selectionStart ?? value.length
    const before = value.slice(0, caret - word.length)
    onChange(`${before}${name}${value.slice(caret)}`)
    setWord('')
    requestAnimationFrame(() => {
      input.current?.focus()
      input.current?.setSelectionRange(before.length + name.length, before.length + name.length)
    })
  }
  const onKeyDown = (event: KeyboardEvent) => {
    if (!isOpen || !chosen) return
    if (event.key === 'ArrowDown') setAt((i) => (i + 1) % hints.length)
    else if (event.key === 'ArrowUp') setAt((i) => (i + hints.length - 1) % hints.length)
    else if (event.key === 'Enter') take(chosen)
    else if (event.key === 'Escape') setWord('')
    else return
    event.preventDefault()
  }
  return (
    <div className="relative">
      <input
        ref={input}
        id={id}
        role="combobox"
        aria-expanded={isOpen}
        aria-controls={listId}
        aria-autocomplete="list"
        aria-activedescendant={isOpen ? `${listId}-${hints.indexOf(chosen)}` : undefined}
        aria-invalid={isFaulty ? true : undefined}
        aria-describedby={describedBy}
        className={clsx('control formula', isOpen && 'rounded-b-none')}
        value={value}
        readOnly={readOnly}
        maxLength={300}
        autoComplete="off"
        autoCapitalize="none"
        autoCorrect="off"
        spellCheck={false}
        onKeyDown={onKeyDown}
        onBlur={() => setWord('')}
        onChange={(event) => {
          const { value: text, selectionStart } = event.target
          onChange(text)
          setWord(wordBefore(text, selectionStart ?? text.length))
          setAt(0)
        }}
      />
      <div
        id={listId}
        role="listbox"
        aria-label="Names"
        hidden={!isOpen}
        className="absolute inset-x-0 z-30 border border-t-0 border-hairline-strong bg-sheet shadow-float"
      >
        {hints.map((hint, i) => (
          <div
            key={hint.name}
            id={`${listId}-${i}`}
            role="option"
            tabIndex={-1}
            aria-selected={hint === chosen}
            className={clsx(
              'flex min-h-11 cursor-pointer flex-wrap items-center gap-x-3 px-3 py-1',
              hint === chosen && 'bg-accent-wash',
            )}
            // Before the field loses its focus.
            onMouseDown={(event) => {
              event.preventDefault()
              take(hint)
            }}
          >
            <span className="formula font-medium">{hint.name}</span>
            <span className="text-[0.88rem] text-ink-soft">{hint.note}</span>
          </div>
        ))}
      </div>
    </div>
  )
}
