'use client'
import { useCallback, useEffect, useMemo, useState } from 'react'
import type { ParameterSpec, ParameterValues } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import {
  changedParameters,
  parameterText,
  readParameterTexts,
  type TypedParameters,
} from '#lib/shop/typed-parameters'

export interface SavedNumbers {
  readonly variantId: string
  readonly version: number
  readonly parameters: ParameterValues
}

export interface Numbers extends TypedParameters {
  /** The version that the fields were filled from. */
  readonly base: SavedNumbers
  readonly textOf: (spec: ParameterSpec) => string
  readonly type: (id: string, text: string) => void
  readonly isDirty: boolean
  /** What someone else changed since; null when nothing. */
  readonly meanwhile: readonly ParameterSpec[] | null
  /** Those that a link offered and that still stand, unsaved. */
  readonly offered: readonly ParameterSpec[]
  /** Back to what is saved. */
  readonly putBack: () => void
  /** What is saved now is what was looked at. */
  readonly adopt: (saved: SavedNumbers) => void
}

const draftKey = (variantId: string) => `design ${variantId}`

interface Draft {
  readonly version: number
  readonly typed: Record<string, string>
}

/** What was typed and not saved survives a look at another page; another version's does not. */
function readDraft(saved: SavedNumbers): Record<string, string> {
  try {
    const draft = JSON.parse(sessionStorage.getItem(draftKey(saved.variantId)) ?? 'null') as Draft | null
    return draft?.version === saved.version ? draft.typed : {}
  } catch {
    return {}
  }
}

function keepDraft(base: SavedNumbers, typed: Record<string, string>): void {
  try {
    if (Object.keys(typed).length === 0) sessionStorage.removeItem(draftKey(base.variantId))
    else sessionStorage.setItem(draftKey(base.variantId), JSON.stringify({ version: base.version, typed }))
  } catch {
    // Storage is closed to this page: the draft lives as long as the page does.
  }
}

const NOTHING: Readonly<Record<string, string>> = {}

/**
 * @param saved as the server has it now; a newer version than the one looked at keeps what was typed
 * @param offer what the page's address offers, as it would be typed; taken once
 */
export function useNumbers(
  specs: readonly ParameterSpec[],
  saved: SavedNumbers,
  units: LengthUnit,
  offer: Readonly<Record<string, string>> = NOTHING,
): Numbers {
  const [first] = useState({ saved, offer })
  const [base, setBase] = useState(saved)
  const [typed, setTyped] = useState<Record<string, string>>({})
  const read = useMemo(
    () => readParameterTexts(specs, typed, base.parameters, units),
    [specs, typed, base, units],
  )
  const hasFaults = Object.keys(read.faults).length > 0
  const isDirty = hasFaults || changedParameters(specs, read.values, base.parameters).length > 0
  const isNewer = saved.version > base.version

  useEffect(() => {
    const draft = { ...readDraft(first.saved), ...first.offer }
    setTyped(draft)
    if (Object.keys(first.offer).length === 0) return
    keepDraft(first.saved, draft)
    // Taken: a reload or a way back must not offer it again. The router must hear of it, or its next refresh puts the
    // address back; it listens once its own effects have run, and only where no state of its own is handed on.
    const taken = setTimeout(() => history.replaceState(null, '', location.pathname))
    return () => clearTimeout(taken)
  }, [first])
  useEffect(() => {
    if (isNewer && !isDirty) {
      setBase(saved)
      setTyped({})
    }
  }, [isNewer, isDirty, saved])
  useEffect(() => {
    if (!isDirty) return
    const warn = (event: BeforeUnloadEvent) => event.preventDefault()
    addEventListener('beforeunload', warn)
    return () => removeEventListener('beforeunload', warn)
  }, [isDirty])

  const type = useCallback(
    (id: string, text: string) => {
      setTyped((before) => {
        const next = { ...before, [id]: text }
        keepDraft(base, next)
        return next
      })
    },
    [base],
  )
  const adopt = useCallback((next: SavedNumbers) => {
    keepDraft(next, {})
    setBase(next)
    setTyped({})
  }, [])
  return {
    ...read,
    base,
    isDirty,
    type,
    adopt,
    offered: changedParameters(specs, read.values, base.parameters).filter(
      ({ id }) => first.offer[id] !== undefined && typed[id] === first.offer[id],
    ),
    textOf: (spec) => typed[spec.id] ?? parameterText(spec, base.parameters[spec.id] ?? spec.default, units),
    meanwhile: isNewer && isDirty ? changedParameters(specs, saved.parameters, base.parameters) : null,
    putBack: () => adopt(saved.version >= base.version ? saved : base),
  }
}
