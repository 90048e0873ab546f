'use client'
import type { ParameterValues } from '#lib/core/design/model'
import { draftQuery } from '#lib/shop/design-draft'
import { ButtonLink } from '../../ui/button'

interface UseThisProps {
  readonly buildId: string
  readonly values: ParameterValues
  /** What is changed, for who cannot see where the button stands. */
  readonly of: string
}

/** To the design with these numbers in its fields, not saved. */
export function UseThis({ buildId, values, of }: UseThisProps) {
  return (
    <ButtonLink href={`/builds/${buildId}/design?${draftQuery(values)}`}>
      Use this<span className="sr-only">: {of}</span>
    </ButtonLink>
  )
}
