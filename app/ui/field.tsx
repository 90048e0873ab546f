'use client'
import clsx from 'clsx'
import { type ComponentProps, type ReactNode, useId } from 'react'
import { useFieldState } from './form'

interface FrameProps {
  readonly label: string
  readonly help?: ReactNode
  readonly error?: string
  readonly id: string
  readonly className?: string
  readonly children: ReactNode
  /** Hides the label from sight where the place says it (a table's column). */
  readonly labelHidden?: boolean
}

/** What is wrong with a field, then how it is meant. */
function FieldWords({
  id,
  error,
  help,
}: {
  readonly id: string
  readonly error?: string
  readonly help?: ReactNode
}) {
  return (
    <>
      {error ? (
        <p id={`${id}-error`} className="text-[0.92rem] font-medium text-stop">
          {error}
        </p>
      ) : null}
      {help ? (
        <p id={`${id}-help`} className="text-[0.88rem] text-ink-soft">
          {help}
        </p>
      ) : null}
    </>
  )
}

function FieldFrame({ label, help, error, id, className, children, labelHidden }: FrameProps) {
  return (
    <div className={clsx('grid content-start gap-1', className)}>
      <label htmlFor={id} className={labelHidden ? 'sr-only' : 'font-medium'}>
        {label}
      </label>
      {children}
      <FieldWords {...{ id, error, help }} />
    </div>
  )
}

interface Shared {
  readonly label: string
  readonly name: string
  readonly help?: ReactNode
  readonly className?: string
  readonly labelHidden?: boolean
  /** Overrides what the form's last answer says. */
  readonly error?: string
}

const described = (id: string, help: ReactNode, error?: string) =>
  [error ? `${id}-error` : '', help ? `${id}-help` : ''].filter(Boolean).join(' ') || undefined

export interface TextFieldProps extends Shared, Omit<ComponentProps<'input'>, 'name' | 'className'> {
  /** Shown after the field: mm, in, °. */
  readonly unit?: string
}

export function TextField({
  label,
  name,
  help,
  className,
  labelHidden,
  unit,
  error,
  defaultValue,
  ...rest
}: TextFieldProps) {
  const id = useId()
  const state = useFieldState(name)
  const wrong = error ?? state.error
  const input = (
    <input
      id={id}
      name={name}
      className={clsx('control', unit && 'pr-12')}
      defaultValue={rest.value === undefined ? (state.typed ?? defaultValue) : undefined}
      aria-invalid={wrong ? true : undefined}
      aria-describedby={described(id, help, wrong)}
      autoComplete="off"
      {...rest}
    />
  )
  return (
    <FieldFrame {...{ label, help, className, labelHidden, id }} error={wrong}>
      {unit ? (
        <div className="relative">
          {input}
          <span
            aria-hidden="true"
            className="pointer-events-none absolute inset-y-0 right-3 grid place-items-center text-ink-soft"
          >
            {unit}
          </span>
        </div>
      ) : (
        input
      )}
    </FieldFrame>
  )
}

/** A length as people write it: 1613, 63 7/16, 5' 3-7/16". `units` is what a bare number means. */
export function LengthField({ units, help, ...rest }: TextFieldProps & { readonly units: 'mm' | 'in' }) {
  return (
    <TextField inputMode="text" enterKeyHint="next" spellCheck={false} unit={units} help={help} {...rest} />
  )
}

export interface TextAreaProps extends Shared, Omit<ComponentProps<'textarea'>, 'name' | 'className'> {}

export function TextArea({
  label,
  name,
  help,
  className,
  labelHidden,
  error,
  defaultValue,
  rows = 3,
  ...rest
}: TextAreaProps) {
  const id = useId()
  const state = useFieldState(name)
  const wrong = error ?? state.error
  return (
    <FieldFrame {...{ label, help, className, labelHidden, id }} error={wrong}>
      <textarea
        id={id}
        name={name}
        rows={rows}
        className="control"
        defaultValue={rest.value === undefined ? (state.typed ?? defaultValue) : undefined}
        aria-invalid={wrong ? true : undefined}
        aria-describedby={described(id, help, wrong)}
        {...rest}
      />
    </FieldFrame>
  )
}

export interface SelectFieldProps extends Shared, Omit<ComponentProps<'select'>, 'name' | 'className'> {
  readonly options: readonly { readonly value: string; readonly label: string; readonly group?: string }[]
}

export function SelectField({
  label,
  name,
  help,
  className,
  labelHidden,
  error,
  options,
  defaultValue,
  ...rest
}: SelectFieldProps) {
  const id = useId()
  const state = useFieldState(name)
  const wrong = error ?? state.error
  const groups = [...new Set(options.map((o) => o.group))]
  const shown = (group: string | undefined) =>
    options
      .filter((o) => o.group === group)
      .map((o) => (
        <option key={o.value} value={o.value}>
          {o.label}
        </option>
      ))
  return (
    <FieldFrame {...{ label, help, className, labelHidden, id }} error={wrong}>
      <select
        id={id}
        name={name}
        className="control"
        defaultValue={rest.value === undefined ? (state.typed ?? defaultValue) : undefined}
        aria-invalid={wrong ? true : undefined}
        aria-describedby={described(id, help, wrong)}
        {...rest}
      >
        {groups.map((group) =>
          group ? (
            <optgroup key={group} label={group}>
              {shown(group)}
            </optgroup>
          ) : (
            shown(group)
          ),
        )}
      </select>
    </FieldFrame>
  )
}

export interface ChoiceFieldProps extends Shared {
  readonly options: readonly { readonly value: string; readonly label: string; readonly help?: string }[]
  readonly defaultValue?: string
  readonly onPick?: (value: string) => void
}

/** One of a few, all in sight: a row of large targets. */
export function ChoiceField({
  label,
  name,
  help,
  className,
  error,
  options,
  defaultValue,
  onPick,
}: ChoiceFieldProps) {
  const id = useId()
  const state = useFieldState(name)
  const wrong = error ?? state.error
  return (
    <fieldset
      className={clsx('grid content-start gap-1', className)}
      aria-describedby={described(id, help, wrong)}
    >
      <legend className="mb-1 font-medium">{label}</legend>
      <div className="flex flex-wrap gap-x-1 gap-y-1">
        {options.map((o) => (
          <label
            key={o.value}
            title={o.help}
            className="inline-flex min-h-11 items-center gap-2 border border-hairline-strong bg-sheet px-3 py-1.5 first:rounded-l-control last:rounded-r-control has-checked:border-accent has-checked:bg-accent-wash has-checked:font-semibold has-focus-visible:outline-3 has-focus-visible:outline-accent"
          >
            <input
              type="radio"
              name={name}
              value={o.value}
              defaultChecked={(state.typed ?? defaultValue) === o.value}
              onChange={onPick ? () => onPick(o.value) : undefined}
              className="size-4 accent-[var(--accent)] outline-none"
            />
            {o.label}
          </label>
        ))}
      </div>
      <FieldWords id={id} error={wrong} help={help} />
    </fieldset>
  )
}

export interface CheckFieldProps
  extends Shared,
    Omit<ComponentProps<'input'>, 'name' | 'className' | 'type'> {}

export function CheckField({
  label,
  name,
  help,
  className,
  error,
  labelHidden,
  defaultChecked,
  ...rest
}: CheckFieldProps) {
  const id = useId()
  const state = useFieldState(name)
  const wrong = error ?? state.error
  return (
    <div className={clsx('grid gap-1', className)}>
      <label className="inline-flex min-h-11 items-center gap-3">
        <input
          id={id}
          type="checkbox"
          name={name}
          defaultChecked={defaultChecked}
          aria-invalid={wrong ? true : undefined}
          aria-describedby={described(id, help, wrong)}
          className="size-6 shrink-0 accent-[var(--accent)]"
          {...rest}
        />
        <span className={labelHidden ? 'sr-only' : undefined}>{label}</span>
      </label>
      <FieldWords id={id} error={wrong} help={help} />
    </div>
  )
}
