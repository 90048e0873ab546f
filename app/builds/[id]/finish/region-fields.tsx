'use client'
/** One region of a finish plan: a line that says it, and behind it the fields that change it. */
import clsx from 'clsx'
import { ArrowDown, ArrowUp, ChevronDown, Trash2 } from 'lucide-react'
import { type ReactNode, useId } from 'react'
import { type CoatKind, PRODUCTS, productOf } from '#lib/core/finish/products'
import type { RegionNeed } from '#lib/core/finish/quantities'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayArea } from '#lib/format/amount'
import { Button } from '../../../ui/button'
import {
  type DraftRegion,
  FACE_CHOICES,
  type FaceChoice,
  faultsOf,
  ROLE_CHOICES,
  type RoleChoice,
  withKind,
} from './draft'
import { sayLitres } from './say-finish'

interface FieldProps {
  readonly label: string
  readonly fault?: string
  readonly children: (id: string, described: string | undefined) => ReactNode
}

function Field({ label, fault, children }: FieldProps) {
  const id = useId()
  return (
    <div className="grid content-start gap-1">
      <label htmlFor={id} className="text-[0.92rem] font-medium">
        {label}
      </label>
      {children(id, fault ? `${id}-fault` : undefined)}
      {fault ? (
        <p id={`${id}-fault`} className="text-[0.92rem] font-medium text-stop">
          {fault}
        </p>
      ) : null}
    </div>
  )
}

interface TextProps {
  readonly label: string
  readonly value: string
  readonly fault?: string
  readonly isNumber?: boolean
  readonly onChange: (value: string) => void
}

const Text = ({ label, value, fault, isNumber, onChange }: TextProps) => (
  <Field label={label} fault={fault}>
    {(id, described) => (
      <input
        id={id}
        className="control min-h-11"
        value={value}
        inputMode={isNumber ? 'decimal' : undefined}
        maxLength={80}
        aria-invalid={fault ? true : undefined}
        aria-describedby={described}
        autoComplete="off"
        onChange={(event) => onChange(event.target.value)}
      />
    )}
  </Field>
)

interface ChoiceProps<K extends string> {
  readonly label: string
  readonly value: K
  readonly choices: readonly (readonly [K, string])[]
  readonly onChange: (value: K) => void
}

function Choice<K extends string>({ label, value, choices, onChange }: ChoiceProps<K>) {
  return (
    <Field label={label}>
      {(id) => (
        <select
          id={id}
          className="control min-h-11 min-w-0"
          value={value}
          onChange={(event) => onChange(event.target.value as K)}
        >
          {choices.map(([key, word]) => (
            <option key={key} value={key}>
              {word}
            </option>
          ))}
        </select>
      )}
    </Field>
  )
}

const PRODUCT_CHOICES = PRODUCTS.map(({ kind, name }) => [kind, name] as const)

interface PartsProps {
  readonly kinds: readonly string[]
  readonly chosen: readonly string[]
  readonly onChange: (kinds: readonly string[]) => void
}

/** None ticked: every part. */
function PartKinds({ kinds, chosen, onChange }: PartsProps) {
  return (
    <fieldset className="sm:col-span-2">
      <legend className="text-[0.92rem] font-medium">
        Parts <span className="font-normal text-ink-soft">(none ticked: every part)</span>
      </legend>
      <div className="flex flex-wrap gap-x-5">
        {kinds.map((kind) => (
          <label key={kind} className="inline-flex min-h-11 items-center gap-2 first-letter:uppercase">
            <input
              type="checkbox"
              className="size-5 accent-accent"
              checked={chosen.includes(kind)}
              onChange={(event) =>
                onChange(event.target.checked ? [...chosen, kind] : chosen.filter((one) => one !== kind))
              }
            />
            {kind}
          </label>
        ))}
      </div>
    </fieldset>
  )
}

interface RegionProps {
  readonly region: DraftRegion
  readonly need: RegionNeed | undefined
  readonly kinds: readonly string[]
  readonly units: LengthUnit
  readonly mayChange: boolean
  readonly isOpen: boolean
  readonly onChange: (region: DraftRegion) => void
  /** Absent at either end of the list. */
  readonly onUp?: () => void
  readonly onDown?: () => void
  readonly onRemove: () => void
}

function Swatch({ region }: { region: DraftRegion }) {
  const { hasColour } = productOf(region.kind)
  return (
    <span
      aria-hidden="true"
      className={clsx('size-6 shrink-0 border border-hairline-strong', !hasColour && 'bg-wood')}
      style={hasColour ? { backgroundColor: region.colour } : undefined}
    />
  )
}

function Fields({ region, kinds, onChange, onUp, onDown, onRemove }: RegionProps) {
  const faults = faultsOf(region)
  const set = (more: Partial<DraftRegion>): void => onChange({ ...region, ...more })
  const isBare = region.kind === 'bare'
  return (
    <div className="grid gap-x-4 gap-y-3 pb-4 sm:grid-cols-2">
      <Text label="Name" value={region.name} fault={faults.name} onChange={(name) => set({ name })} />
      <Choice
        label="Finish"
        value={region.kind}
        choices={PRODUCT_CHOICES}
        onChange={(kind: CoatKind) => onChange(withKind(region, kind))}
      />
      <Choice
        label="Faces"
        value={region.faces}
        choices={FACE_CHOICES}
        onChange={(faces: FaceChoice) => set({ faces })}
      />
      <Choice
        label="Of them, those"
        value={region.roles}
        choices={ROLE_CHOICES}
        onChange={(roles: RoleChoice) => set({ roles })}
      />
      <PartKinds kinds={kinds} chosen={region.kinds} onChange={(next) => set({ kinds: next })} />
      {isBare ? null : (
        <>
          <Text
            isNumber
            label="Coats"
            value={region.coats}
            fault={faults.coats}
            onChange={(coats) => set({ coats })}
          />
          <Text
            isNumber
            label="A litre covers, m² a coat"
            value={region.spread}
            fault={faults.spread}
            onChange={(spread) => set({ spread })}
          />
          <Text
            isNumber
            label="Hours between coats"
            value={region.hours}
            fault={faults.hours}
            onChange={(hours) => set({ hours })}
          />
          {productOf(region.kind).hasColour ? (
            <Field label="Colour">
              {(id) => (
                <input
                  id={id}
                  type="color"
                  className="h-11 w-24 cursor-pointer border border-hairline-strong bg-sheet p-1"
                  value={region.colour}
                  onChange={(event) => set({ colour: event.target.value })}
                />
              )}
            </Field>
          ) : null}
        </>
      )}
      <div className="flex flex-wrap gap-2 sm:col-span-2">
        <Button aria-label={`Move ${region.name} up`} className="w-11 px-0!" disabled={!onUp} onClick={onUp}>
          <ArrowUp aria-hidden className="size-5" />
        </Button>
        <Button
          aria-label={`Move ${region.name} down`}
          className="w-11 px-0!"
          disabled={!onDown}
          onClick={onDown}
        >
          <ArrowDown aria-hidden className="size-5" />
        </Button>
        <Button onClick={onRemove}>
          <Trash2 aria-hidden className="size-5" />
          Take away
        </Button>
      </div>
    </div>
  )
}

export function RegionFields(props: RegionProps) {
  const { region, need, units, mayChange, isOpen } = props
  const product = productOf(region.kind)
  const coats = region.kind === 'bare' ? '' : `, ${region.coats} ${region.coats === '1' ? 'coat' : 'coats'}`
  const line = (
    <>
      <Swatch region={region} />
      <span className="min-w-0 flex-1">
        <span className="block font-semibold">{region.name || 'Without a name'}</span>
        <span className="block text-[0.92rem] text-ink-soft">
          {product.name}
          {coats}
        </span>
      </span>
      {need ? (
        <span className="text-right text-[0.95rem] whitespace-nowrap">
          <span className="block font-medium">{sayArea(need.areaMm2, units)}</span>
          {region.kind === 'bare' ? null : (
            <span className="block text-ink-soft">{sayLitres(need.litres, units)}</span>
          )}
        </span>
      ) : null}
    </>
  )
  if (!mayChange) return <li className="flex min-h-14 items-center gap-3 py-2.5">{line}</li>
  return (
    <li>
      <details open={isOpen} className="group">
        <summary className="flex min-h-14 items-center gap-3 py-2.5">
          {line}
          <ChevronDown aria-hidden className="size-5 shrink-0 text-ink-soft group-open:rotate-180" />
        </summary>
        <Fields {...props} />
      </details>
    </li>
  )
}
