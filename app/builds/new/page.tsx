import type { Metadata } from 'next'
import { Suspense } from 'react'
import { requireActor } from '#lib/auth/session'
import { designs } from '#lib/core/design/designs/registry'
import { TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Page } from '../../ui/sheet'
import { startBuild } from '../actions'
import { DesignField } from './design-field'
import { DesignPreview } from './design-preview'

export const metadata: Metadata = { title: 'Start a build' }

export default async function NewBuildPage() {
  await requireActor()
  return (
    <Page
      title="Start a build"
      lead="A name, and a design to begin with. Every number can be changed afterwards."
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
          designs={designs.map((d) => ({
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
