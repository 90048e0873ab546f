import type { Metadata } from 'next'
import { ofVariant } from '#lib/data/finish-plans'
import { chosen } from '#lib/data/variants'
import { findDesign } from '../../../designs/find-design'
import { load, settings } from '../../../load'
import { Live } from '../../../ui/live'
import { Page } from '../../../ui/sheet'
import { GoneDesign } from '../gone-design'
import { buildHeader } from '../header'
import { FinishSheet } from './finish-sheet'

export const metadata: Metadata = { title: 'Finish' }

const LEAD = 'Which faces get what: how much of it, how many hours, what to mask, and in which order.'

export default async function FinishPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [{ units }, build, variant] = await Promise.all([
    settings(),
    buildHeader(buildId),
    load(chosen, { buildId }),
  ])
  const kept = await load(ofVariant, { variantId: variant.id })
  if (!(await findDesign(variant.designId)))
    return (
      <Page title="Finish" lead={LEAD}>
        <GoneDesign buildId={buildId} />
      </Page>
    )
  return (
    <Page title="Finish" lead={LEAD}>
      <Live topics={[`build:${buildId}`]} />
      <FinishSheet
        key={`${variant.id} ${variant.version}`}
        title={build.name}
        designId={variant.designId}
        parameters={variant.parameters}
        saved={{ variantId: variant.id, ...kept }}
        units={units}
        mayChange={variant.mayChange}
      />
    </Page>
  )
}
