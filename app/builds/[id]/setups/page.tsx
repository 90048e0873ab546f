import type { Metadata } from 'next'
import type { SetupPlan } from '#lib/core/setups/setup-plan'
import type { LengthUnit } from '#lib/core/units/inches'
import { ofBuild, type SetupWorkView } from '#lib/data/setups'
import { sayDuration } from '#lib/format/instant'
import { load, settings } from '../../../load'
import { ButtonLink } from '../../../ui/button'
import { Live } from '../../../ui/live'
import { Notice } from '../../../ui/notice'
import { Empty, Page, type TitleCell } from '../../../ui/sheet'
import { buildHeader } from '../header'
import { Bench } from './bench'
import { benchSetups, inUnits, recordedKeys, type StationLeft, stationsLeft } from './bench-sheet'
import { plannedSetups } from './planned-setups'
import { Stations } from './stations'

export const metadata: Metadata = { title: 'Set-ups' }

const MS = 1000

export default async function SetupsPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [build, { units }, work] = await Promise.all([
    buildHeader(buildId),
    settings(),
    load(ofBuild, { buildId }),
  ])
  const plan = work && work.boards.length > 0 ? plannedSetups(work.input) : null
  if (!work || !plan || plan.setups.length === 0)
    return (
      <Page title="Set-ups">
        <Live topics={[`build:${buildId}`]} />
        <None buildId={buildId} isMine={build.isMine && build.isOpen} />
      </Page>
    )
  const recorded = recordedKeys(plan, work.boards)
  const ticked = new Set([...work.ticks.map((t) => t.key), ...recorded])
  const stations = stationsLeft(plan, ticked)
  const mayWork = build.isMine && build.isOpen
  return (
    <Page
      title="Set-ups"
      above={<span className="hidden print:inline">{build.name}</span>}
      cells={cells(plan, ticked, stations)}
      actions={
        <ButtonLink href="#stations" className="print:hidden">
          {mayWork ? 'Book stations' : 'Time on each station'}
        </ButtonLink>
      }
    >
      <Live topics={[`build:${buildId}`]} />
      <Heads
        work={work}
        plan={plan}
        units={units}
        makerName={mayWork ? null : build.makerName}
        isOpen={build.isOpen}
      />
      <Bench
        planId={work.planId}
        setups={benchSetups(plan, work.input.model.parts, units)}
        recorded={recorded}
        ticks={work.ticks.map(({ key, memberName }) => ({ key, memberName }))}
        mayTick={mayWork && !work.isUnfinished}
      />
      <Stations buildId={buildId} work={work} plan={plan} stations={stations} mayBook={mayWork} />
    </Page>
  )
}

function None({ buildId, isMine }: { buildId: string; isMine: boolean }) {
  return (
    <Empty
      title="No set-ups yet"
      action={
        isMine ? (
          <ButtonLink look="primary" href={`/builds/${buildId}/cutting`}>
            Plan the cutting
          </ButtonLink>
        ) : undefined
      }
    >
      They follow from the cut plan and from the notches and holes of the parts.
    </Empty>
  )
}

function cells(plan: SetupPlan, ticked: ReadonlySet<string>, stations: readonly StationLeft[]): TitleCell[] {
  const cuts = plan.setups.flatMap((s) => s.cuts)
  const left = stations.reduce((sum, t) => sum + t.secondsLeft, 0)
  return [
    { label: 'Cuts ticked off', value: `${cuts.filter((c) => ticked.has(c.key)).length} of ${cuts.length}` },
    { label: 'Time left', value: left === 0 ? 'None' : sayDuration(left * MS) },
  ]
}

interface HeadsProps {
  readonly work: SetupWorkView
  readonly plan: SetupPlan
  readonly units: LengthUnit
  /** Whose it is to tick off, where it is not the reader's. */
  readonly makerName: string | null
  readonly isOpen: boolean
}

/** What is to be known before the first cut. */
function Heads({ work, plan, units, makerName, isOpen }: HeadsProps) {
  const missing = plan.partsWithoutPiece.map(
    (id) => work.input.model.parts.find((p) => p.id === id)?.name ?? id,
  )
  const warnings = [...new Map(plan.warnings.map((w) => [`${w.level} ${w.message}`, w])).values()].filter(
    (w) => w.code !== 'noPiece',
  )
  if (
    !makerName &&
    !work.isUnfinished &&
    !work.isDesignChanged &&
    missing.length === 0 &&
    warnings.length === 0
  )
    return null
  return (
    <div className="grid gap-2">
      {makerName ? (
        <Notice>
          {isOpen ? `${makerName} ticks these off.` : 'The build has ended: nothing is ticked off any more.'}
        </Notice>
      ) : null}
      {work.isDesignChanged && isOpen ? (
        <Notice level="caution" title="For other numbers">
          The design has changed since the cutting was planned, and these set-ups follow that plan.{' '}
          {makerName ? '' : 'Plan the cutting again before you set a machine by them.'}
        </Notice>
      ) : null}
      {work.isUnfinished ? (
        <Notice>A cut plan is still being worked out; these set-ups follow the best one so far.</Notice>
      ) : null}
      {missing.length > 0 ? (
        <Notice level="caution" title="Without a piece">
          {missing.join('; ')}. The cut plan does not yield {missing.length === 1 ? 'it' : 'them'}, so{' '}
          {missing.length === 1 ? 'its' : 'their'} own cuts are not here.
        </Notice>
      ) : null}
      {warnings.map((w) => (
        <Notice key={w.key + w.message} level={w.level}>
          {inUnits(w.message, units)}
        </Notice>
      ))}
    </div>
  )
}
