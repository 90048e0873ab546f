import type { Metadata } from 'next'
import { planSetups } from '#lib/core/setups/plan-setups'
import type { Setup, SetupCut, SetupPlan, StationKind } from '#lib/core/setups/setup-plan'
import type { LengthUnit } from '#lib/core/units/inches'
import { ofBuild, type SetupWorkView } from '#lib/data/setups'
import { sayDuration } from '#lib/format/instant'
import { load, settings } from '../../../load'
import { KIND_WORDS } from '../../../stations/words'
import { ButtonLink } from '../../../ui/button'
import { Live } from '../../../ui/live'
import { Notice } from '../../../ui/notice'
import { Empty, Facts, Page, Row, Rows, Section } from '../../../ui/sheet'
import { Tag } from '../../../ui/tag'
import { buildHeader } from '../header'
import { Settings } from './settings'
import { TickList } from './tick-list'

export const metadata: Metadata = { title: 'Set-ups' }

const MS = 1000
/** Enough for a proof on builds of a few dozen parts, and done in a moment. */
const MOST_STATES = 5_000
const duration = (seconds: number) => sayDuration(seconds * MS)

export default async function SetupsPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [build, { units }, work] = await Promise.all([
    buildHeader(buildId),
    settings(),
    load(ofBuild, { buildId }),
  ])
  const plan = work && work.boards.length > 0 ? planSetups({ ...work.input, maxStates: MOST_STATES }) : null
  return (
    <Page
      title="Set-ups"
      lead="One state of one machine at a time: every cut that it can make is made before anything is set anew."
    >
      <Live topics={[`build:${buildId}`]} />
      {work && plan ? (
        <Planned
          buildId={buildId}
          work={work}
          plan={plan}
          units={units}
          mayTick={build.isMine && build.isOpen && !work.isUnfinished}
        />
      ) : (
        <Empty
          title="No set-ups yet"
          action={
            <ButtonLink look="primary" href={`/builds/${buildId}/cutting`}>
              Plan the cutting
            </ButtonLink>
          }
        >
          They follow from the cut plan and from the notches and holes of the parts.
        </Empty>
      )}
    </Page>
  )
}

interface PlannedProps {
  readonly buildId: string
  readonly work: SetupWorkView
  readonly plan: SetupPlan
  readonly units: LengthUnit
  readonly mayTick: boolean
}

function Planned({ buildId, work, plan, units, mayTick }: PlannedProps) {
  const by = new Map(work.ticks.map((t) => [t.key, t.memberName]))
  return (
    <>
      {work.isUnfinished ? (
        <Notice>A cut plan is still being worked out; these set-ups follow the best one so far.</Notice>
      ) : null}
      <Totals buildId={buildId} work={work} plan={plan} by={by} />
      <Warnings plan={plan} work={work} />
      {plan.setups.map((setup, i) => (
        <SetupPart
          key={setup.id}
          setup={setup}
          number={i + 1}
          numberOf={(id) => plan.setups.findIndex((s) => s.id === id) + 1}
          isNewStation={plan.setups[i - 1]?.station !== setup.station}
          areCautionsNew={!plan.setups.slice(0, i).some((s) => sameCautions(s, setup))}
          {...{ work, by, units, mayTick }}
        />
      ))}
    </>
  )
}

const STATION_ORDER: readonly StationKind[] = [
  'planer',
  'tableSaw',
  'bandSaw',
  'routerTable',
  'drillPress',
  'laserEngraver',
  'assemblyBench',
]

/** Time on each station, what is left of it, and a way to book it. */
function Totals({
  buildId,
  work,
  plan,
  by,
}: {
  buildId: string
  work: SetupWorkView
  plan: SetupPlan
  by: ReadonlyMap<string, string>
}) {
  const cuts = plan.setups.flatMap((s) => s.cuts)
  const done = cuts.filter((c) => by.has(c.key)).length
  const stations = [...plan.stations].sort(
    (a, b) => STATION_ORDER.indexOf(a.station) - STATION_ORDER.indexOf(b.station),
  )
  return (
    <Section title="Time on each station" note="Setting, test cut and cutting, at an unhurried pace.">
      <Rows label="Stations">
        {stations.map((t) => (
          <Row
            key={t.station}
            aside={<Book buildId={buildId} work={work} kind={t.station} seconds={t.seconds} />}
          >
            <span className="text-[1.1rem] font-semibold">{KIND_WORDS[t.station].word}</span>
            <span className="block text-ink-soft">
              {duration(t.seconds)} · set {t.setups} {t.setups === 1 ? 'time' : 'times'}
            </span>
          </Row>
        ))}
      </Rows>
      <div className="mt-5">
        <Facts
          items={[
            { label: 'Ticked off', value: `${done} of ${cuts.length}` },
            { label: 'Setting', value: duration(plan.settingSeconds) },
            { label: 'Cutting', value: duration(plan.cuttingSeconds) },
            { label: 'Settings in all', value: plan.settings },
            { label: 'Finishing piece after piece', value: `${plan.settingsPieceByPiece} settings` },
          ]}
        />
      </div>
      <p className="mt-3 max-w-[68ch] text-ink-soft">{orderSentence(plan)}</p>
    </Section>
  )
}

function orderSentence(plan: SetupPlan): string {
  const saved = plan.settingsPieceByPiece - plan.settings
  const compare = saved > 0 ? `This order spares ${saved} settings. ` : ''
  return plan.settings <= plan.settingsBound
    ? `${compare}No order of the same cuts needs fewer.`
    : `${compare}No order of the same cuts can do with fewer than ${plan.settingsBound}.`
}

function Book({
  buildId,
  work,
  kind,
  seconds,
}: {
  buildId: string
  work: SetupWorkView
  kind: StationKind
  seconds: number
}) {
  const station = work.stations.find((s) => s.kind === kind)
  if (!station) return <span className="text-ink-soft">The shop has none</span>
  const minutes = Math.min(1440, Math.max(1, Math.ceil(seconds / 60)))
  return (
    <ButtonLink href={`/stations/${station.id}?minutes=${minutes}&build=${buildId}`}>
      Book {station.name}
    </ButtonLink>
  )
}

const LEVEL = { stop: 'stop', caution: 'caution', note: 'note' } as const

function Warnings({ plan, work }: { plan: SetupPlan; work: SetupWorkView }) {
  const missing = plan.partsWithoutPiece.map(
    (id) => work.input.model.parts.find((p) => p.id === id)?.name ?? id,
  )
  const texts = [...new Map(plan.warnings.map((w) => [`${w.level} ${w.message}`, w])).values()]
  if (missing.length === 0 && texts.length === 0) return null
  return (
    <Section title="Before the first cut">
      <div className="grid gap-2">
        {missing.length > 0 ? (
          <Notice level="caution" title="Without a piece">
            {missing.join(', ')}: the cut plan does not yield {missing.length === 1 ? 'it' : 'them'}.
          </Notice>
        ) : null}
        {texts.map((w) => (
          <Notice key={w.key + w.message} level={LEVEL[w.level]}>
            {w.message}
          </Notice>
        ))}
      </div>
    </Section>
  )
}

interface SetupProps {
  readonly setup: Setup
  readonly number: number
  readonly numberOf: (setupId: string) => number
  readonly isNewStation: boolean
  /** Not said by a set-up above: shown open. */
  readonly areCautionsNew: boolean
  readonly work: SetupWorkView
  readonly by: ReadonlyMap<string, string>
  readonly units: LengthUnit
  readonly mayTick: boolean
}

const sameCautions = (a: Setup, b: Setup) => a.cautions.join() === b.cautions.join()

function SetupPart(props: SetupProps) {
  const { setup, number, numberOf, isNewStation, areCautionsNew, work, by, units, mayTick } = props
  const done = setup.cuts.filter((c) => by.has(c.key)).map((c) => c.key)
  const isDone = done.length === setup.cuts.length
  return (
    <section aria-label={`Set-up ${number}: ${setup.title}`} className="grid gap-4">
      {isNewStation ? (
        <h2 className="border-b-2 border-ink pb-1 text-[1.35rem] font-semibold">
          {KIND_WORDS[setup.station].word}
        </h2>
      ) : null}
      <div className="flex flex-wrap items-start justify-between gap-x-4 gap-y-1">
        <h3 className="text-[1.15rem] leading-snug font-semibold">
          <span className="mr-2 inline-grid size-8 place-items-center border-2 border-ink align-middle">
            {number}
          </span>
          {setup.title}
        </h3>
        <div className="flex items-center gap-4 text-ink-soft">
          <span>{duration(setup.settingSeconds + setup.cuttingSeconds)}</span>
          <Tag tone={isDone ? 'good' : 'plain'}>
            {isDone ? 'Done' : `${done.length} of ${setup.cuts.length}`}
          </Tag>
        </div>
      </div>
      {setup.resumes ? (
        <p>The machine still stands as in set-up {numberOf(setup.resumes)}: nothing to set.</p>
      ) : (
        <>
          <Settings settings={setup.settings} units={units} />
          {setup.changes.length > 0 ? (
            <p className="text-ink-soft">Set anew: {setup.changes.join(', ')}.</p>
          ) : null}
          <p className="max-w-[70ch]">
            <strong>First in scrap:</strong> {setup.testCut} Check with {setup.checkWith}.
          </p>
        </>
      )}
      <Cautions cautions={setup.cautions} isOpen={areCautionsNew} />
      <TickList
        planId={work.planId}
        label={`Cuts of set-up ${number}`}
        mayTick={mayTick}
        done={done}
        items={setup.cuts.map((c) => ({ key: c.key, title: cutTitle(c), note: c.note, by: by.get(c.key) }))}
      />
    </section>
  )
}

function cutTitle(cut: SetupCut): string {
  const passes = cut.passes > 1 ? `, ${cut.passes} passes` : ''
  const times = cut.count !== undefined && cut.count > 1 ? `, ${cut.count} of them` : ''
  return `${cut.pieceName[0].toUpperCase()}${cut.pieceName.slice(1)}${times}${passes}`
}

function Cautions({ cautions, isOpen }: { cautions: readonly string[]; isOpen: boolean }) {
  if (cautions.length === 0) return null
  return (
    <details open={isOpen} className="border-l-4 border-caution bg-caution-wash px-3">
      <summary className="flex min-h-11 items-center font-medium text-caution">
        {cautions.length} {cautions.length === 1 ? 'caution' : 'cautions'}: read before switching on
      </summary>
      <ul className="grid max-w-[75ch] list-disc gap-1 pb-3 pl-5">
        {cautions.map((c) => (
          <li key={c}>{c}</li>
        ))}
      </ul>
    </details>
  )
}
