'use client'
import { createContext, useContext } from 'react'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayStrengthInUnits } from '#lib/format/sentence'

/** The unit that this member reads, for everything about strength on the page. */
export const Units = createContext<LengthUnit>('mm')

export const useUnits = (): LengthUnit => useContext(Units)

/** Puts a sentence in this member's units. */
export function useSay(): (sentence: string) => string {
  const units = useUnits()
  return (sentence) => sayStrengthInUnits(sentence, units)
}
