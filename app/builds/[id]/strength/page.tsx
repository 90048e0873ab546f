import type { Metadata } from 'next'
import { readParameters } from '#lib/core/design/parameters'
import { CAUTION } from '#lib/core/statics/sources'
import { GRADES, SALVAGE_GRADES } from '#lib/core/wood/grades'
import { chosen } from '#lib/data/variants'
import { woodAsked } from '#lib/shop/strength-ask'
import { woodWords } from '#lib/shop/strength-words'
import { findDesign } from '../../../designs/find-design'
import { load, settings } from '../../../load'
import { Live } from '../../../ui/live'
import { Notice } from '../../../ui/notice'
import { Page } from '../../../ui/sheet'
import { GoneDesign } from '../gone-design'
import { buildHeader } from '../header'
import { StrengthSheet } from './strength-sheet'

export const metadata: Metadata = { title: 'Strength' }

const LEAD = 'Will it hold, will it tip, will it sag or creak, will the wood move: told before the first cut.'
const grades = SALVAGE_GRADES.map((value) => ({ value, label: GRADES[value].label }))

export default async function StrengthPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [{ units }, build, variant] = await Promise.all([
    settings(),
    buildHeader(buildId),
    load(chosen, { buildId }),
  ])
  const design = await findDesign(variant.designId)
  if (!design)
    return (
      <Page title="Strength" lead={LEAD}>
        <GoneDesign buildId={buildId} />
      </Page>
    )
  const read = readParameters(design.parameters, variant.parameters)
  const values = read.ok ? read.value : variant.parameters
  const wood = woodAsked(design.parameters, values)
  return (
    <Page
      title="Strength"
      lead={LEAD}
      above={
        <span className="hidden font-medium print:inline">
          {build.name}, {design.name}
        </span>
      }
    >
      <Live topics={[`build:${buildId}`]} />
      <StrengthSheet
        key={`${variant.id} ${variant.version}`}
        buildId={buildId}
        designId={design.id}
        parameters={values}
        grades={grades}
        wood={{ ...wood, note: woodWords(wood.id) }}
        mayChange={variant.mayChange}
        units={units}
      />
      <Notice level="caution" title="Advice, no certificate">
        {CAUTION}
      </Notice>
    </Page>
  )
}
