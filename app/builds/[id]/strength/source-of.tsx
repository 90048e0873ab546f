'use client'
import type { Sourced } from '#lib/core/statics/sources'
import { sayTag } from '#lib/shop/strength-words'

/** Where a number is from, and how sure that is: «from memory, not read again». */
export function SourceOf({ source: { source, tag } }: { readonly source: Sourced }) {
  return (
    <>
      {source} <em>({sayTag(tag)})</em>
    </>
  )
}
