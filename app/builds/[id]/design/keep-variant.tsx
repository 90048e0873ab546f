'use client'
import { useState } from 'react'
import Link from '#app/ui/link'
import type { ParameterValues } from '#lib/core/design/model'
import { AskFirst } from '../../../ui/dialog'
import { TextField } from '../../../ui/field'
import { Notice } from '../../../ui/notice'
import { keepAsVariant } from './actions'

interface KeepProps {
  readonly buildId: string
  readonly fromId: string
  readonly values: ParameterValues
  /** The numbers make a piece, and are not those that are saved. */
  readonly canKeep: boolean
  readonly onKept: () => void
}

/** The numbers in the fields, kept as another variant; those that are saved stay as they are. */
export function KeepVariant({ buildId, fromId, values, canKeep, onKept }: KeepProps) {
  const [hasKept, setKept] = useState(false)
  if (canKeep)
    return (
      // The question stands elsewhere in the document, but its sending would be heard by the form around this.
      <div className="contents" onSubmit={(event) => event.stopPropagation()}>
        <AskFirst
          look="quiet"
          label="Keep as a variant"
          question="Keep these numbers as another variant?"
          consequence="They stand beside the others, where members can look and vote. The saved numbers here stay as they are."
          yes="Keep it"
          stop={false}
          action={keepAsVariant}
          hidden={{ fromId, parameters: JSON.stringify(values) }}
          onDone={() => {
            setKept(true)
            onKept()
          }}
        >
          <TextField label="What you call it" name="name" maxLength={80} help="Like «With a low back»." />
        </AskFirst>
      </div>
    )
  return hasKept ? (
    <div className="w-full">
      <Notice level="good" role="status">
        Kept as a variant; the saved numbers stand here again.{' '}
        <Link href={`/builds/${buildId}/variants`} className="link">
          See them side by side
        </Link>
      </Notice>
    </div>
  ) : null
}
