'use client'
import { useState } from 'react'
import Link from '../../../ui/link'
import { Notice } from '../../../ui/notice'

/** Whose page a picture is shown on. */
export interface ShownVariant {
  readonly buildId: string
  readonly variantId: string
  readonly version: number
  /** What is looked at is what everyone may see. */
  readonly isSaved: boolean
}

/** A sentence of what went wrong, or null: it is shown. */
type Answer = { readonly fault: string | null }

const UNREACHABLE = 'The shop could not be reached. The picture is not shown.'
const UNSAVED =
  'Save the numbers first, or keep them as a variant: the others would see a piece that is not there.'

async function send(picture: Blob, { variantId, version }: ShownVariant, caption: string): Promise<Answer> {
  const about = new URLSearchParams({ variantId, version: String(version), caption })
  try {
    const headers = { 'content-type': 'image/png' }
    const sent = await fetch(`/api/stills?${about}`, { method: 'POST', body: picture, headers })
    return { fault: sent.ok ? null : ((await sent.json()) as { sentence: string }).sentence }
  } catch {
    return { fault: UNREACHABLE }
  }
}

export function useShowing(variant: ShownVariant | undefined) {
  const [answer, setAnswer] = useState<Answer | null>(null)
  const show =
    variant &&
    (async (picture: Blob, seen: string): Promise<void> => {
      setAnswer(null)
      setAnswer(variant.isSaved ? await send(picture, variant, seen) : { fault: UNSAVED })
    })
  return { answer, show }
}

export function ShownSay({ answer, variant }: { answer: Answer | null; variant: ShownVariant | undefined }) {
  if (!answer || !variant) return null
  if (answer.fault)
    return (
      <Notice level="stop" role="alert">
        {answer.fault}
      </Notice>
    )
  return (
    <Notice level="good" role="status">
      The shop sees it on the variant’s page.{' '}
      <Link href={`/builds/${variant.buildId}/variants/${variant.variantId}`} className="link">
        Look and talk about it
      </Link>
    </Notice>
  )
}
