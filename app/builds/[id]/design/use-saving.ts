'use client'
import { useState, useTransition } from 'react'
import type { ParameterValues } from '#lib/core/design/model'
import { type Saved, saveDesign } from './actions'
import type { Numbers, SavedNumbers } from './use-numbers'

export interface Saving {
  readonly isBusy: boolean
  readonly answer: Saved | null
  /** What the server said against the numbers, until they change. */
  readonly fields: Readonly<Record<string, string>>
  /** @param over the version that is saved over; by default the one that the fields were filled from */
  readonly save: (over?: SavedNumbers) => void
}

const NO_FIELDS = {}
const UNREACHABLE: Saved = {
  ok: false,
  code: 'busy',
  sentence: 'The shop could not be reached. Nothing was saved; what you typed is kept.',
  fields: NO_FIELDS,
}

/** Saves the numbers as they stand; the server builds them anew and may refuse them. */
export function useSaving(numbers: Numbers): Saving {
  const [isBusy, startSaving] = useTransition()
  const [last, setLast] = useState<{ answer: Saved; of: ParameterValues } | null>(null)
  const answer = last && (last.of === numbers.values || last.answer.ok) ? last.answer : null
  const save = ({ variantId, version }: SavedNumbers = numbers.base) =>
    startSaving(async () => {
      const parameters = numbers.values
      const sent = await saveDesign({ variantId, version, parameters }).catch(() => UNREACHABLE)
      setLast({ answer: sent, of: parameters })
      if (sent.ok) numbers.adopt({ variantId, version: sent.version, parameters })
    })
  return { isBusy, answer, save, fields: answer && !answer.ok ? answer.fields : NO_FIELDS }
}
