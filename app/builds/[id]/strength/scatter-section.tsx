'use client'
import type { Scatter, ScatterReport } from '#lib/core/statics/monte-carlo'
import { SCATTER } from '#lib/core/statics/sources'
import { sayPercent } from '#lib/format/amount'
import { rangeBar } from '#lib/shop/strength-words'
import { Button } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { Section } from '../../../ui/sheet'
import { Going } from '../going'
import { SourceOf } from './source-of'
import { type Asked, type Desk, useStrength } from './use-strength'

const SEED = 1
const DRAWS = 2000
const SHOWN = 8

/** A range instead of one number: many such pieces, as wood, joints and people scatter. */
export function ScatterSection({ desk, asked }: { desk: Desk; asked: Asked }) {
  const { asking, start, stop } = useStrength<'scatter'>(desk)
  const ask = (label: string) => (
    <Button
      className="print:hidden"
      onClick={() => start({ kind: 'scatter', ...asked, seed: SEED, draws: DRAWS })}
    >
      {label}
    </Button>
  )
  return (
    <Section
      title="How sure is that?"
      note="Boards of one wood differ, joints are tighter or looser, people heavier or lighter. Many such pieces are drawn by lot, and a range is told instead of one number."
    >
      {asking.state === 'idle' ? ask(`Draw ${DRAWS} such pieces`) : null}
      {asking.state === 'going' ? (
        <Going
          label="Drawing…"
          done={asking.done}
          of={asking.of ?? DRAWS}
          counted="pieces drawn"
          stop={stop}
        />
      ) : null}
      {asking.state === 'cancelled' ? (
        <div className="grid justify-items-start gap-2">
          <p role="status">Stopped.</p>
          {ask('Draw again')}
        </div>
      ) : null}
      {asking.state === 'refused' ? <Notice level="caution">{asking.sentence}</Notice> : null}
      {asking.state === 'failed' ? (
        <Notice level="stop">The drawing failed; the fault is in the program.</Notice>
      ) : null}
      {asking.state === 'done' ? <Range report={asking.answer.report} /> : null}
    </Section>
  )
}

function Range({ report }: { report: ScatterReport }) {
  if (report.checks.length === 0)
    return <p role="status">Nothing here can be drawn for: no strength of wood or joint governs.</p>
  return (
    <div className="grid gap-4">
      <p role="status" className="max-w-[68ch] text-[1.1rem] font-medium">
        {report.anyFails === 0
          ? `Of ${report.draws} such pieces none failed.`
          : `Of ${report.draws} such pieces ${sayPercent(report.anyFails)} failed somewhere under the published loads.`}
      </p>
      <ul className="grid max-w-3xl divide-y divide-hairline border-y border-hairline">
        {report.checks.slice(0, SHOWN).map((one) => (
          <RangeRow key={one.checkId} one={one} />
        ))}
      </ul>
      <p className="max-w-[72ch] text-[0.88rem] text-ink-soft">
        Bars: true strength over true load, nine pieces in ten; the notch is the middle one, the upright line
        is where it fails. Only the {Math.min(SHOWN, report.checks.length)} weakest of {report.checks.length}{' '}
        are shown. Drawn with the seed {report.seed}, so that the same design gives the same range. Without
        the factor of safety that the checks above keep, so the middle lies higher than their margin.{' '}
        <SourceOf source={SCATTER} />
      </p>
    </div>
  )
}

function RangeRow({ one }: { one: Scatter }) {
  const bar = rangeBar(one)
  return (
    <li className="grid gap-x-6 gap-y-1 py-3 sm:grid-cols-[minmax(0,1fr)_minmax(0,16rem)]">
      <div>
        <p className="font-medium">{one.title}</p>
        <p className="text-[0.92rem] text-ink-soft">
          {one.low.toFixed(1)} to {one.high.toFixed(1)} times the load; {sayPercent(one.fails)} fail
        </p>
      </div>
      <div aria-hidden="true" className="relative h-6 self-center border border-hairline-strong bg-sheet">
        <div
          className="absolute inset-y-1 border border-accent bg-accent-wash"
          style={{ left: `${bar.low * 100}%`, width: `${(bar.high - bar.low) * 100}%` }}
        />
        <div className="absolute inset-y-1 w-0.5 bg-accent" style={{ left: `${bar.middle * 100}%` }} />
        <div
          className="absolute -inset-y-1.5 w-[3px] -translate-x-1/2 bg-ink"
          style={{ left: `${bar.one * 100}%` }}
        />
      </div>
    </li>
  )
}
