import clsx from 'clsx'
import { type NextStep, stepHref, turnWords } from '#lib/shop/build-stage'
import { ButtonLink } from '../ui/button'

interface NextStepProps {
  readonly buildId: string
  readonly step: NextStep
  readonly makerName: string
  /** Whether the step is this member's to take. */
  readonly isMine: boolean
  /** Large at the top of the build's own page. */
  readonly large?: boolean
}

/** What comes next, said and ready to be pressed. */
export function NextStepLine({ buildId, step, makerName, isMine, large }: NextStepProps) {
  const isMyTurn = isMine && step.turn.of === 'maker'
  return (
    <div
      className={clsx(
        'grid grid-cols-[minmax(0,1fr)] gap-3',
        large && 'border-l-4 border-accent py-1 pl-4 sm:pl-5',
      )}
    >
      <div>
        {large ? (
          <p className="caption">{isMyTurn ? 'Your next step' : turnLine(step, makerName, isMine)}</p>
        ) : null}
        <p
          className={
            large ? 'max-w-[32ch] text-[1.5rem] leading-[1.2] font-semibold sm:text-[1.8rem]' : undefined
          }
        >
          {step.sentence}
        </p>
        {!large && !isMyTurn && !saysWhose(step) ? (
          <p className="caption mt-0.5">{turnLine(step, makerName, isMine)}</p>
        ) : null}
      </div>
      {isMine ? (
        <div className="flex flex-wrap gap-2">
          <ButtonLink look={isMyTurn ? 'primary' : 'plain'} href={stepHref(buildId, step.link.place)}>
            {step.link.label}
          </ButtonLink>
          {step.also ? (
            <ButtonLink look="quiet" href={stepHref(buildId, step.also.place)}>
              {step.also.label}
            </ButtonLink>
          ) : null}
        </div>
      ) : null}
    </div>
  )
}

/** «Waiting for Mira to say yes…»: the sentence names them already. */
const saysWhose = ({ turn }: NextStep) => turn.of === 'owner' || turn.of === 'keeper'

function turnLine(step: NextStep, makerName: string, isMine: boolean): string {
  if (step.turn.of === 'time') return 'Nothing to be done before then'
  if (step.turn.of === 'shop') return 'The shop’s computer is at it'
  return `Up to ${turnWords(step.turn, isMine ? 'you' : makerName)}`
}
