'use client'
import type { Difference } from '#lib/core/design/recipe/differences'
import { takeNewerVersion } from '../../../designs/actions'
import { DifferencesList } from '../../../designs/differences-list'
import { Form, Submit } from '../../../ui/form'
import { Notice } from '../../../ui/notice'

interface NewerProps {
  readonly variantId: string
  readonly version: number
  readonly mayChange: boolean
  readonly newer: {
    readonly designId: string
    readonly number: number
    readonly memberName: string
    readonly note: string
    readonly differences: readonly Difference[]
  }
}

/** A later version of the member's own design that this build is made to: what differs, and the button that takes it. */
export function NewerVersion({ variantId, version, mayChange, newer }: NewerProps) {
  return (
    <Notice title={`Version ${newer.number} of this design is there`}>
      <p className="wrap-anywhere">
        {newer.memberName} saved it{newer.note ? `: ${newer.note}` : '.'} This build stays as it is until the
        newer version is taken.
      </p>
      <details className="mt-1">
        <summary className="min-h-11 content-center">What differs</summary>
        <DifferencesList all={newer.differences} />
      </details>
      {mayChange ? (
        <Form action={takeNewerVersion} label="Newer version" className="mt-2 grid gap-3">
          <input type="hidden" name="variantId" value={variantId} />
          <input type="hidden" name="version" value={version} />
          <input type="hidden" name="designId" value={newer.designId} />
          <div>
            <Submit look="plain">Take the newer version</Submit>
          </div>
        </Form>
      ) : null}
    </Notice>
  )
}
