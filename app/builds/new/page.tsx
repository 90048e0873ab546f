import type { Metadata } from 'next'
import { Suspense } from 'react'
import { designs } from '#lib/core/design/designs/registry'
import type { Action } from '#lib/data/action'
import { offered } from '#lib/data/own-designs'
import { load } from '../../load'
import { ButtonLink } from '../../ui/button'
import { TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Page } from '../../ui/sheet'
import { startBuild } from '../actions'
import { DesignField } from './design-field'
import { DesignPreview } from './design-preview'

export const metadata: Metadata = { title: 'Start a build' }

type Own = (typeof offered extends Action<infer _, infer Out> ? Out : never)[number]

const asChoice = ({ designId, name, ownerName, isMine, recipe }: Own) => ({
  id: designId,
  name,
  goodFor: [recipe?.goodFor, isMine ? 'Your own design.' : `By ${ownerName}.`].filter(Boolean).join(' '),
})

interface NewBuildProps {
  readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>>
}

export default async function NewBuildPage({ searchParams }: NewBuildProps) {
  const own = await load(offered, {})
  const { design } = await searchParams
  const asked = typeof design === 'string' ? design : undefined
  return (
    <Page
      title="Start a build"
      lead="A name, and a design to begin with. Every number can be changed afterwards."
      actions={<ButtonLink href="/designs">Make a design of your own</ButtonLink>}
    >
      <Form action={startBuild} label="Start a build" className="grid max-w-4xl gap-8">
        <TextField
          label="What you call it"
          name="name"
          required
          maxLength={120}
          placeholder="Seats for the kitchen"
          className="max-w-md"
        />
        <DesignField
          first={asked}
          designs={[...designs, ...own.map(asChoice)].map((d) => ({
            id: d.id,
            name: d.name,
            goodFor: d.goodFor,
            preview: (
              <Suspense fallback={<div className="aspect-[4/3]" />}>
                <DesignPreview designId={d.id} />
              </Suspense>
            ),
          }))}
        />
        <div>
          <Submit>Start the build</Submit>
        </div>
      </Form>
    </Page>
  )
}
