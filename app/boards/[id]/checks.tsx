import { BOARD_WORKS, type BoardWork, gateCautions, gateRefusals, gateSentence } from '#lib/core/board/gates'
import { LEAD_WORDS, leadSteps, METAL_WORDS, metalSteps } from '#lib/shop/boards'
import { AskFirst } from '../../ui/dialog'
import { TextField } from '../../ui/field'
import { Notice } from '../../ui/notice'
import { Tag, type TagTone } from '../../ui/tag'
import { Tap } from '../../ui/tap'
import { checkTakenBack, leadTested, metalChecked } from '../actions'
import type { BoardView } from './board-view'

const WORK_WORDS: Readonly<Record<BoardWork, string>> = {
  cut: 'Saw',
  plane: 'Plane',
  route: 'Rout',
  drill: 'Drill',
  sand: 'Sand by machine',
  engrave: 'Engrave',
}

const METAL_TONE = { unchecked: 'caution', cleared: 'good', found: 'stop' } as const satisfies Record<
  string,
  TagTone
>
const LEAD_TONE = {
  notNeeded: 'good',
  untested: 'caution',
  free: 'good',
  found: 'stop',
} as const satisfies Record<string, TagTone>

interface ChecksProps {
  readonly board: BoardView
}

/** What is known of metal and lead, who may record what, and what it means at each machine. */
export function Checks({ board }: ChecksProps) {
  return (
    <div className="grid gap-6">
      <div className="grid gap-6 md:grid-cols-2 md:gap-10">
        <MetalCheck board={board} />
        <LeadCheck board={board} />
      </div>
      <Works board={board} />
    </div>
  )
}

function TakeBack({ board, gate, label }: ChecksProps & { gate: 'metal' | 'lead'; label: string }) {
  return (
    <AskFirst
      label={label}
      look="quiet"
      question="Take this check back?"
      consequence="The board has to be checked again before it may go on. Its history keeps both."
      yes="Take it back"
      action={checkTakenBack}
      hidden={{ boardId: board.id, version: String(board.version), gate }}
    >
      <TextField label="Why" name="note" maxLength={300} />
    </AskFirst>
  )
}

function MetalCheck({ board }: ChecksProps) {
  const isInPool = board.status === 'inPool'
  const marks = board.defects.filter((d) => d.kind === 'metal').length
  const hidden = { boardId: board.id, was: board.metal }
  return (
    <div className="grid content-start gap-3">
      <h3 className="flex flex-wrap items-center gap-3 font-semibold">
        Metal <Tag tone={METAL_TONE[board.metal]}>{METAL_WORDS[board.metal]}</Tag>
      </h3>
      <p className="text-ink-soft">
        Look over every face, edge and end, pull nails, screws and staples, then sweep it with a metal
        detector. One hidden staple ruins planer knives and throws splinters of steel.
      </p>
      {isInPool ? (
        <div className="flex flex-wrap items-start gap-2">
          {metalSteps(board.metal).map((is) => {
            const isOut = is === 'cleared' && marks > 0
            return (
              <Tap
                key={is}
                action={metalChecked}
                hidden={{ ...hidden, is, metalMarksAre: isOut ? 'nailHole' : 'metal' }}
                look={is === 'cleared' ? 'primary' : 'plain'}
              >
                {metalWords(board.metal, is, isOut ? marks : 0)}
              </Tap>
            )
          })}
          {board.mayChange && board.metal !== 'unchecked' ? (
            <TakeBack board={board} gate="metal" label="Take the check back" />
          ) : null}
        </div>
      ) : null}
    </div>
  )
}

function metalWords(was: BoardView['metal'], is: BoardView['metal'], marks: number): string {
  if (is === 'found') return 'I found metal in it'
  if (marks > 0)
    return `Metal is out, cleared: ${marks === 1 ? 'its mark becomes a nail hole' : 'its marks become nail holes'}`
  return was === 'found' ? 'Metal is out: cleared' : 'I checked it: cleared'
}

const LEAD_ASK = {
  free: {
    label: 'Tested: free of lead',
    question: 'Tested and free of lead?',
    consequence: 'It may then be sanded, planed, routed and engraved. You are named in its history.',
  },
  found: {
    label: 'Tested: lead found',
    question: 'Lead found?',
    consequence: 'No machine touches it until the finish is off, without dust, and a new test is free.',
  },
  notNeeded: {
    label: 'Bare: no test needed',
    question: 'Bare wood, and never painted?',
    consequence: 'Wood that was stripped may still hold lead in its pores: test that instead.',
  },
} as const

function LeadCheck({ board }: ChecksProps) {
  const isInPool = board.status === 'inPool'
  const steps = leadSteps(board.lead, board.finish).filter((is) => is !== 'untested')
  return (
    <div className="grid content-start gap-3">
      <h3 className="flex flex-wrap items-center gap-3 font-semibold">
        Lead <Tag tone={LEAD_TONE[board.lead]}>{LEAD_WORDS[board.lead]}</Tag>
      </h3>
      <p className="text-ink-soft">
        An old finish of unknown age is neither sanded, planed dry nor lasered before it is tested. Test every
        layer down to the wood; a laboratory is surer than a swab.
      </p>
      {isInPool ? (
        <div className="flex flex-wrap items-start gap-2">
          {steps.map((is) => {
            const ask = LEAD_ASK[is as keyof typeof LEAD_ASK]
            return (
              <AskFirst
                key={is}
                label={ask.label}
                question={ask.question}
                consequence={ask.consequence}
                yes="Record it"
                stop={is === 'found'}
                action={leadTested}
                hidden={{ boardId: board.id, was: board.lead, is }}
              >
                <TextField label="How it was tested" name="note" maxLength={300} />
              </AskFirst>
            )
          })}
          {board.mayChange && board.lead !== 'untested' && board.lead !== 'notNeeded' ? (
            <TakeBack board={board} gate="lead" label="Take the test back" />
          ) : null}
        </div>
      ) : null}
    </div>
  )
}

/** Machine by machine: may it, and why not. */
function Works({ board }: ChecksProps) {
  const shut = BOARD_WORKS.map((work) => ({ work, refusals: gateRefusals(board, work) }))
  const reasons = [...new Set(shut.flatMap((s) => s.refusals))].map(gateSentence)
  const cautions = [...new Set(BOARD_WORKS.flatMap((work) => gateCautions(board, work)))]
  return (
    <div className="grid gap-3">
      <h3 className="font-semibold">What may be done with it now</h3>
      <ul className="grid grid-cols-2 gap-x-6 gap-y-2 sm:grid-cols-3 lg:grid-cols-6">
        {shut.map(({ work, refusals }) => (
          <li key={work} className="border-t border-hairline pt-1.5">
            <span className="block">{WORK_WORDS[work]}</span>
            {refusals.length === 0 ? <Tag tone="good">Yes</Tag> : <Tag tone="stop">Not yet</Tag>}
          </li>
        ))}
      </ul>
      {reasons.length > 0 ? (
        <Notice level="stop" title="Not yet">
          {reasons.join(' ')}
        </Notice>
      ) : null}
      {cautions.length > 0 ? (
        <Notice level="caution" title="Take care">
          {cautions.join(' ')}
        </Notice>
      ) : null}
      <p className="max-w-[68ch] text-[0.88rem] text-ink-soft">
        In the United States paint on what was made before 1978 counts as lead paint until it is tested (EPA
        renovation rule, 40 CFR 745, and HUD; from memory). Elsewhere other years hold. Local rules, the
        machine’s manual and whoever is licensed for such work come before anything said here.
      </p>
    </div>
  )
}
