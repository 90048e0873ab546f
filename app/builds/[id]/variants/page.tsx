import type { Metadata } from 'next'
import { ofBuild as stillsOf } from '#lib/data/stills'
import { ofBuild } from '#lib/data/variant-sheet'
import { nearInstantIn } from '#lib/format/instant'
import { findDesign } from '../../../designs/find-design'
import { load, settings } from '../../../load'
import { Live } from '../../../ui/live'
import { Notice } from '../../../ui/notice'
import { Page, Section } from '../../../ui/sheet'
import { buildHeader } from '../header'
import { choosingConsequence } from './consequence'
import { MakeForm } from './make-form'
import { planWords } from './plan-words'
import { VariantsSheet } from './variants-sheet'

export const metadata: Metadata = { title: 'Variants' }

export default async function VariantsPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [me, build, sheet, stills] = await Promise.all([
    settings(),
    buildHeader(buildId),
    load(ofBuild, { buildId }),
    load(stillsOf, { buildId }),
  ])
  const say = nearInstantIn(me.timeZone, new Date())
  const used = [...new Set(sheet.variants.map((v) => v.designId))]
  const designs = await Promise.all(used.map((id) => findDesign(id)))
  return (
    <Page
      title="Variants"
      lead="The same piece with other numbers, side by side. Everyone says which they would make; its maker marks the one that is made."
    >
      <Live topics={[`build:${buildId}`, 'shop']} />
      {sheet.isOpen ? null : <Notice>The build has ended: its variants stay as they are.</Notice>}
      {sheet.variants.length === 1 ? (
        <Notice>
          One variant so far.{' '}
          {sheet.mayChange
            ? 'Make another below, change its numbers, and see here what that comes to.'
            : `${build.makerName} can make others.`}
        </Notice>
      ) : null}
      <VariantsSheet
        buildId={buildId}
        variants={sheet.variants.map(({ plan, updatedAt: _, ...v }) => ({
          ...v,
          stills: stills.filter((s) => s.variantId === v.id).map(({ id, caption }) => ({ id, caption })),
          pool: planWords(plan, v.chosen, say),
        }))}
        specs={Object.fromEntries(designs.flatMap((d) => (d ? [[d.id, d.parameters]] : [])))}
        names={Object.fromEntries(designs.flatMap((d) => (d ? [[d.id, d.name]] : [])))}
        shop={sheet.shop}
        units={me.units}
        mayChange={sheet.mayChange}
        mayVote={sheet.isOpen}
        isAdmin={me.role === 'admin'}
        consequence={choosingConsequence(sheet)}
      />
      {sheet.mayChange ? (
        <Section
          title="Make another"
          id="another"
          note="It begins with the numbers of one that there is, and is opened for you to change them."
        >
          <MakeForm buildId={buildId} variants={sheet.variants.map(({ id, name }) => ({ id, name }))} />
        </Section>
      ) : null}
    </Page>
  )
}
