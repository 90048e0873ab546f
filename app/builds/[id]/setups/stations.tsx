import type { SetupPlan } from '#lib/core/setups/setup-plan'
import type { SetupWorkView } from '#lib/data/setups'
import { sayDuration } from '#lib/format/instant'
import { KIND_WORDS } from '../../../stations/words'
import { ButtonLink } from '../../../ui/button'
import { Row, Rows, Section } from '../../../ui/sheet'
import type { StationLeft } from './bench-sheet'

const MS = 1000
const DAY_MIN = 1440
const duration = (seconds: number) => sayDuration(seconds * MS)

interface Props {
  readonly buildId: string
  readonly work: SetupWorkView
  readonly plan: SetupPlan
  readonly stations: readonly StationLeft[]
  readonly mayBook: boolean
}

/** Time on each station, what is left of it, and a way to book it. */
export function Stations({ buildId, work, plan, stations, mayBook }: Props) {
  return (
    <Section
      id="stations"
      title="Time on each station"
      note={`At an unhurried pace: ${duration(plan.settingSeconds)} of setting and test cuts, ${duration(plan.cuttingSeconds)} of cutting.`}
    >
      <Rows label="Stations">
        {stations.map((t) => (
          <Row key={t.station} aside={mayBook ? <Book {...{ buildId, work, time: t }} /> : undefined}>
            <span className="text-[1.1rem] font-semibold">{KIND_WORDS[t.station].word}</span>
            <span className="block text-ink-soft">{timeWords(t)}</span>
          </Row>
        ))}
      </Rows>
      <p className="mt-3 max-w-[68ch] text-ink-soft">{orderSentence(plan)}</p>
    </Section>
  )
}

function timeWords({ seconds, secondsLeft, setups }: StationLeft): string {
  const times = `set ${setups === 1 ? 'once' : `${setups} times`}`
  if (secondsLeft === 0) return `${duration(seconds)}, ${times}; all ticked off`
  if (secondsLeft < seconds) return `${duration(secondsLeft)} left of ${duration(seconds)}, ${times}`
  return `${duration(seconds)}, ${times}`
}

function orderSentence(plan: SetupPlan): string {
  const saved = plan.settingsPieceByPiece - plan.settings
  const all = `Machines are set ${plan.settings === 1 ? 'once' : `${plan.settings} times`} in all`
  const compare =
    saved > 0
      ? `${all}, not ${plan.settingsPieceByPiece} as when every piece is finished in its turn. `
      : `${all}. `
  return plan.settings <= plan.settingsBound
    ? `${compare}No order of these cuts needs fewer: that is proven.`
    : `${compare}No order of these cuts can do with fewer than ${plan.settingsBound}.`
}

function Book({ buildId, work, time }: { buildId: string; work: SetupWorkView; time: StationLeft }) {
  const station = work.stations.find((s) => s.kind === time.station)
  if (!station) return <span className="text-ink-soft">The shop has none</span>
  if (time.secondsLeft === 0) return null
  const minutes = Math.min(DAY_MIN, Math.max(1, Math.ceil(time.secondsLeft / 60)))
  return (
    <ButtonLink className="print:hidden" href={`/stations/${station.id}?minutes=${minutes}&build=${buildId}`}>
      Book {station.name}
    </ButtonLink>
  )
}
