import type { Metadata } from 'next'
import { figures } from '#lib/data/variant-sheet'
import { open } from '#lib/data/variants'
import { DRAFT_KEY, draftTexts, readDraft } from '#lib/shop/design-draft'
import { findDesign } from '../../../designs/find-design'
import { load, settings } from '../../../load'
import { ButtonLink } from '../../../ui/button'
import { Live } from '../../../ui/live'
import { Notice } from '../../../ui/notice'
import { Page } from '../../../ui/sheet'
import { GoneDesign } from '../gone-design'
import { buildHeader } from '../header'
import { DesignSheet } from './design-sheet'
import { NewerVersion } from './newer-version'

export const metadata: Metadata = { title: 'Design' }

interface DesignPageProps {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<Readonly<Record<string, string | string[] | undefined>>>
}

export default async function DesignPage({ params, searchParams }: DesignPageProps) {
  const [{ id: buildId }, asked] = await Promise.all([params, searchParams])
  const variantId = typeof asked.variant === 'string' ? asked.variant : undefined
  const [{ units }, build, variant, shop] = await Promise.all([
    settings(),
    buildHeader(buildId),
    load(open, { buildId, variantId }),
    load(figures, {}),
  ])
  const design = await findDesign(variant.designId)
  if (!design)
    return (
      <Page title="Design">
        <GoneDesign buildId={buildId} />
      </Page>
    )
  const offered = variant.mayChange ? readDraft(design.parameters, asked[DRAFT_KEY]) : {}
  return (
    <Page
      title={design.name}
      lead={variant.variants > 1 || !variant.chosen ? <WhichVariant variant={variant} /> : undefined}
      actions={
        variant.chosen ? (
          <ButtonLink href={`/builds/${buildId}/cutting`}>
            {build.isMine && build.isOpen ? 'Plan the cutting' : 'See the cutting'}
          </ButtonLink>
        ) : (
          <ButtonLink href={`/builds/${buildId}/variants`}>Side by side</ButtonLink>
        )
      }
    >
      <Live topics={[`build:${buildId}`]} />
      {variant.partsMade > 0 && variant.mayChange ? (
        <Notice level="caution">
          {variant.partsMade} {variant.partsMade === 1 ? 'part is' : 'parts are'} cut already. Those that do
          not fit the numbers that you save are set aside, and taken up again when you save them back.
        </Notice>
      ) : null}
      {variant.newer ? (
        <NewerVersion
          variantId={variant.id}
          version={variant.version}
          mayChange={variant.mayChange}
          newer={variant.newer}
        />
      ) : null}
      {variant.mayChange ? null : (
        <Notice>
          {build.isOpen
            ? `These numbers are ${build.makerName}’s to change. `
            : 'The build has ended: its numbers stay as they are. '}
          <a href={`/builds/${buildId}#comments`}>Say what you think</a>
        </Notice>
      )}
      <DesignSheet
        key={variant.id}
        title={build.name}
        designId={design.id}
        specs={design.parameters}
        saved={{ variantId: variant.id, version: variant.version, parameters: variant.parameters }}
        shop={shop}
        buildId={buildId}
        units={units}
        mayChange={variant.mayChange}
        isOpen={build.isOpen}
        offer={draftTexts(design.parameters, offered, units)}
      />
    </Page>
  )
}

function WhichVariant({ variant }: { variant: { readonly name: string; readonly chosen: boolean } }) {
  return (
    <>
      Variant «{variant.name}»,{' '}
      {variant.chosen ? 'the one that is made.' : 'not the one that is made: nothing is planned by it.'}
    </>
  )
}
