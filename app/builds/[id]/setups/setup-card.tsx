'use client'
import { sayDuration } from '#lib/format/instant'
import { KIND_WORDS } from '../../../stations/words'
import type { BenchSetup } from './bench-sheet'
import type { SettingItem } from './setting-items'
import { TickRow } from './tick-row'

const MS = 1000

interface Props {
  readonly setup: BenchSetup
  readonly count: number
  readonly ticked: ReadonlySet<string>
  readonly by: ReadonlyMap<string, string>
  readonly recorded: ReadonlySet<string>
  readonly mayTick: boolean
  readonly onTick: (keys: readonly string[], to: boolean) => void
}

/** One set-up, to be read at arm's length: set this, mind that, try it in scrap, cut these. */
export function SetupCard({ setup, count, ...ticking }: Props) {
  return (
    <div className="grid grid-cols-[minmax(0,1fr)] gap-5">
      <div className="flex flex-wrap items-start justify-between gap-x-6 gap-y-1">
        <div className="min-w-0">
          <p className="text-ink-soft">
            <span className="font-semibold text-ink">{KIND_WORDS[setup.station].word}</span> · set-up{' '}
            {setup.number} of {count}
          </p>
          <h2 className="text-[1.5rem] leading-tight font-semibold sm:text-[1.9rem]">{setup.title}</h2>
        </div>
        <p className="text-ink-soft sm:pt-1">about {sayDuration(setup.seconds * MS)}</p>
      </div>
      <Settings setup={setup} />
      <Cautions setup={setup} />
      {setup.standsAs === null ? (
        <p className="max-w-[72ch]">
          <strong>First in scrap:</strong> {setup.testCut} Check with {setup.checkWith}.
        </p>
      ) : null}
      <ul
        aria-label={`Cuts of set-up ${setup.number}`}
        className="divide-y divide-hairline border-y border-hairline-strong"
      >
        {setup.cuts.map((cuts) => (
          <TickRow key={cuts.keys[0]} cuts={cuts} {...ticking} />
        ))}
      </ul>
    </div>
  )
}

/** What is set anew stands large; what stays as it was stands below it, small. */
function Settings({ setup }: { setup: BenchSetup }) {
  const now = setup.settings.filter((s) => s.isNew)
  const stays = setup.settings.filter((s) => !s.isNew)
  return (
    <div className="grid gap-3">
      {setup.standsAs === null ? null : (
        <p className="text-[1.12rem] font-medium">
          Nothing to set: the machine still stands as in set-up {setup.standsAs}.
        </p>
      )}
      {now.length > 0 ? (
        <dl
          aria-label="Set now"
          className="grid grid-cols-2 gap-x-6 gap-y-3 border-l-4 border-accent py-1 pl-4 sm:flex sm:flex-wrap sm:gap-x-10"
        >
          {now.map((s) => (
            <Setting key={s.label} item={s} />
          ))}
        </dl>
      ) : null}
      {stays.length > 0 ? (
        <dl aria-label="Stays as it is" className="flex flex-wrap gap-x-6 gap-y-1 pl-5">
          {stays.map((s) => (
            <div key={s.label} className="flex gap-x-1.5">
              <dt className="text-ink-soft">{s.label}</dt>
              <dd className="font-medium">{s.value}</dd>
            </div>
          ))}
        </dl>
      ) : null}
    </div>
  )
}

/** A value and what is said after it: «614 mm», «left». */
function Setting({ item }: { item: SettingItem }) {
  const [value, ...rest] = item.value.split(', ')
  return (
    <div>
      <dt className="text-[0.95rem] text-ink-soft">{item.label}</dt>
      <dd className="text-[1.45rem] leading-tight font-semibold sm:text-[1.75rem]">
        {value}
        {rest.length > 0 ? <span className="text-[1.05rem] font-medium">, {rest.join(', ')}</span> : null}
      </dd>
    </div>
  )
}

/** New ones in sight; those of an earlier set-up at this station a tap away. */
function Cautions({ setup: { newCautions, knownCautions, station } }: { setup: BenchSetup }) {
  if (newCautions.length + knownCautions.length === 0) return null
  const list = (cautions: readonly string[]) => (
    <ul className="grid max-w-[75ch] list-disc gap-1 pl-5">
      {cautions.map((c) => (
        <li key={c}>{c}</li>
      ))}
    </ul>
  )
  return (
    <div className="grid gap-x-3 border-l-4 border-caution bg-caution-wash px-4 py-2">
      {newCautions.length > 0 ? (
        <>
          <p className="py-1 font-semibold text-caution">Read before switching on</p>
          {list(newCautions)}
        </>
      ) : null}
      {knownCautions.length > 0 ? (
        <details className="print:hidden">
          <summary className="min-h-11 py-2.5 font-medium text-caution">
            {newCautions.length > 0 ? 'And as before' : 'Cautions as before'} at the{' '}
            {KIND_WORDS[station].word.toLowerCase()}: {knownCautions.length}
          </summary>
          <div className="pb-2">{list(knownCautions)}</div>
        </details>
      ) : null}
    </div>
  )
}
