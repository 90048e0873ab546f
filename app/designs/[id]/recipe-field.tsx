'use client'
import clsx from 'clsx'
import { Plus, X } from 'lucide-react'
import { type ReactNode, useId } from 'react'
import { FormulaInput, type NameHint } from './formula-input'
import { type FieldSpec, WAYS } from './room-fields'
import type { RecipeEdit } from './use-recipe'

type Row = Readonly<Record<string, unknown>>

/** What all fields of the editor share. */
export interface Bench {
  readonly edit: RecipeEdit
  readonly faults: Readonly<Record<string, string>>
  /** What of the piece a maker should see to, by row. */
  readonly remarks: Readonly<Record<string, string>>
  readonly worth: Readonly<Record<string, string>>
  readonly names: readonly NameHint[]
  readonly readOnly: boolean
}

interface FieldProps {
  readonly spec: FieldSpec
  /** Of the row that the field lies in. */
  readonly at: string
  readonly bench: Bench
}

export function RecipeFields({
  fields,
  at,
  bench,
}: {
  fields: readonly FieldSpec[]
  at: string
  bench: Bench
}) {
  const row = (at === '' ? bench.edit.recipe : bench.edit.valueAt(at)) as Row
  return (
    <div className="grid grid-cols-[repeat(auto-fill,minmax(9.5rem,1fr))] gap-x-4 gap-y-3">
      {fields
        .filter((spec) => spec.only?.(row) ?? true)
        .map((spec) => (
          <RecipeField key={spec.key} spec={spec} at={at} bench={bench} />
        ))}
    </div>
  )
}

const join = (at: string, key: string) => (at === '' ? key : `${at}.${key}`)

function RecipeField({ spec, at, bench }: FieldProps) {
  if (spec.kind === 'list') return <ListField {...{ spec, at, bench }} />
  if (spec.kind === 'group') return <GroupField {...{ spec, at, bench }} />
  if (spec.kind === 'ways') return <WaysField {...{ spec, at, bench }} />
  if (spec.kind === 'yesNo') return <YesNoField {...{ spec, at, bench }} />
  return <OneField {...{ spec, at, bench }} />
}

interface FrameProps {
  readonly id: string
  readonly spec: FieldSpec
  readonly fault: string | undefined
  readonly worth: string | undefined
  readonly children: ReactNode
}

function Frame({ id, spec, fault, worth, children }: FrameProps) {
  return (
    <div className={clsx('grid min-w-0 content-start gap-1', spec.wide && 'col-span-full')}>
      <label htmlFor={id} className="text-[0.92rem] leading-tight font-medium">
        {spec.label}
        {spec.optional ? <span className="font-normal text-ink-soft"> (may be empty)</span> : null}
      </label>
      {children}
      {fault ? (
        <p id={`${id}-fault`} className="text-[0.92rem] font-medium wrap-anywhere text-stop">
          {fault}
        </p>
      ) : worth ? (
        <p id={`${id}-worth`} className="text-[0.85rem] text-ink-soft">
          = {worth}
        </p>
      ) : null}
    </div>
  )
}

function OneField({ spec, at, bench }: FieldProps) {
  const id = useId()
  const path = join(at, spec.key)
  const fault = bench.faults[path]
  const value = bench.edit.valueAt(path)
  const worth = spec.kind === 'formula' && value !== undefined ? bench.worth[path] : undefined
  const isPlain = worth === `${value} mm` || worth === String(value)
  const describedBy = fault ? `${id}-fault` : worth && !isPlain ? `${id}-worth` : undefined
  return (
    <Frame {...{ id, spec, fault }} worth={isPlain ? undefined : worth}>
      <Control {...{ id, spec, at, bench, value, fault, describedBy }} />
    </Frame>
  )
}

interface ControlProps extends FieldProps {
  readonly id: string
  readonly value: unknown
  readonly fault: string | undefined
  readonly describedBy: string | undefined
}

function Control({ id, spec, at, bench, value, fault, describedBy }: ControlProps) {
  const path = join(at, spec.key)
  const { edit, readOnly } = bench
  const keep = (text: string) => edit.set(path, text === '' && spec.optional ? undefined : text)
  const shared = {
    id,
    'aria-invalid': fault ? (true as const) : undefined,
    'aria-describedby': describedBy,
  }
  if (spec.kind === 'formula')
    return (
      <FormulaInput
        {...{ id, describedBy, readOnly }}
        isFaulty={fault !== undefined}
        value={String(value ?? '')}
        names={bench.names}
        onChange={keep}
      />
    )
  if (spec.kind === 'number')
    return <NumberInput {...{ shared, readOnly, value }} keep={(n) => edit.set(path, n)} />
  const options = optionsOf(spec, bench)
  if (options)
    return (
      <select
        {...shared}
        className="control"
        disabled={readOnly}
        value={String(value ?? '')}
        onChange={(event) => {
          if (spec.kind === 'choice' && spec.turn)
            edit.set(at, spec.turn(edit.valueAt(at) as Row, event.target.value))
          else keep(event.target.value)
        }}
      >
        {spec.optional || !options.some(([v]) => v === value) ? (
          <option value="">{spec.optional ? 'not said' : 'choose'}</option>
        ) : null}
        {options.map(([v, label]) => (
          <option key={v} value={v}>
            {label}
          </option>
        ))}
      </select>
    )
  const typed = {
    ...shared,
    className: 'control',
    value: String(value ?? ''),
    readOnly,
    maxLength: 600,
    onChange: (event: { target: { value: string } }) => keep(event.target.value.replace(/\n/g, ' ')),
  }
  return spec.wide ? (
    <textarea rows={2} {...typed} />
  ) : (
    <input autoComplete="off" spellCheck={false} {...typed} />
  )
}

function optionsOf(spec: FieldSpec, { edit }: Bench): readonly (readonly [string, string])[] | undefined {
  if (spec.kind === 'choice') return spec.options
  if (spec.kind === 'part') return edit.recipe.parts.map((p) => [p.id, `${p.name} (${p.id})`])
  if (spec.kind === 'parameter')
    return [...edit.recipe.parameters.map((p) => [p.id, p.label] as const), ['screwSize', 'Screw size']]
  return undefined
}

interface NumberProps {
  readonly shared: object
  readonly value: unknown
  readonly readOnly: boolean
  readonly keep: (value: number | undefined) => void
}

/** A number written with a point; what is none is kept as nothing and said so. */
function NumberInput({ shared, value, readOnly, keep }: NumberProps) {
  return (
    <input
      {...shared}
      type="number"
      step="any"
      className="control formula"
      value={typeof value === 'number' ? value : ''}
      readOnly={readOnly}
      onChange={(event) => keep(event.target.value === '' ? undefined : Number(event.target.value))}
    />
  )
}

function YesNoField({ spec, at, bench }: FieldProps) {
  const path = join(at, spec.key)
  return (
    <label className="flex min-h-11 items-center gap-3 self-end">
      <input
        type="checkbox"
        className="size-6 shrink-0 accent-[var(--accent)]"
        checked={bench.edit.valueAt(path) === true}
        disabled={bench.readOnly}
        onChange={(event) => bench.edit.set(path, event.target.checked)}
      />
      {spec.label}
    </label>
  )
}

function WaysField({ spec, at, bench }: FieldProps) {
  const path = join(at, spec.key)
  const chosen = (bench.edit.valueAt(path) as readonly string[] | undefined) ?? []
  const fault = Object.entries(bench.faults).find(([key]) => key.startsWith(path))?.[1]
  return (
    <fieldset className="col-span-full">
      <legend className="text-[0.92rem] font-medium">{spec.label}</legend>
      <div className="flex flex-wrap gap-x-5">
        {WAYS.map(([way, label]) => (
          <label key={way} className="flex min-h-11 items-center gap-2">
            <input
              type="checkbox"
              className="size-5 accent-[var(--accent)]"
              checked={chosen.includes(way)}
              disabled={bench.readOnly}
              onChange={(event) => {
                const rest = chosen.filter((w) => w !== way)
                const next = event.target.checked ? [...rest, way] : rest
                bench.edit.set(path, next.length === 0 && spec.optional ? undefined : next)
              }}
            />
            {label}
          </label>
        ))}
      </div>
      {fault ? <p className="text-[0.92rem] font-medium text-stop">{fault}</p> : null}
    </fieldset>
  )
}

const small =
  'inline-flex min-h-11 items-center gap-1.5 text-[0.95rem] text-accent underline underline-offset-4'

type ListSpec = Extract<FieldSpec, { kind: 'list' }>
function ListField({ spec, at, bench }: FieldProps & { readonly spec: ListSpec }) {
  const path = join(at, spec.key)
  const rows = (bench.edit.valueAt(path) as readonly Row[] | undefined) ?? []
  if (rows.length === 0 && bench.readOnly) return null
  return (
    <fieldset className="col-span-full grid gap-3 border-t border-hairline pt-2">
      <legend className="float-left text-[0.92rem] font-medium">{spec.label}</legend>
      {rows.map((_, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: rows have no names of their own
        <div key={i} className="grid gap-2 border-l-2 border-hairline-strong pl-3">
          <RecipeFields fields={spec.fields} at={`${path}.${i}`} bench={bench} />
          {bench.readOnly ? null : (
            <button
              type="button"
              className={clsx(small, 'justify-self-start')}
              onClick={() => {
                if (rows.length > 1) bench.edit.take(`${path}.${i}`)
                else bench.edit.set(path, undefined)
              }}
            >
              <X aria-hidden="true" className="size-4" />
              Take it away
              <span className="sr-only">
                : {spec.label} {i + 1}
              </span>
            </button>
          )}
        </div>
      ))}
      {bench.readOnly ? null : (
        <button
          type="button"
          className={clsx(small, 'justify-self-start')}
          onClick={() => bench.edit.set(path, [...rows, spec.fresh])}
        >
          <Plus aria-hidden="true" className="size-4" />
          {spec.add}
        </button>
      )}
    </fieldset>
  )
}

type GroupSpec = Extract<FieldSpec, { kind: 'group' }>
function GroupField({ spec, at, bench }: FieldProps & { readonly spec: GroupSpec }) {
  const path = join(at, spec.key)
  const isThere = bench.edit.valueAt(path) !== undefined
  if (!isThere && bench.readOnly) return null
  return (
    <fieldset className="col-span-full grid gap-2 border-t border-hairline pt-2">
      <legend className="float-left text-[0.92rem] font-medium">{spec.label}</legend>
      {isThere ? <RecipeFields fields={spec.fields} at={path} bench={bench} /> : null}
      {bench.readOnly ? null : (
        <button
          type="button"
          className={clsx(small, 'justify-self-start')}
          onClick={() => bench.edit.set(path, isThere ? undefined : spec.fresh)}
        >
          {isThere ? (
            <X aria-hidden="true" className="size-4" />
          ) : (
            <Plus aria-hidden="true" className="size-4" />
          )}
          {isThere ? `None: ${spec.label.toLowerCase()}` : spec.add}
        </button>
      )}
    </fieldset>
  )
}
