import type { CutPlanView } from '#lib/data/cut-plans'
import { costGap, partsWanted } from '#lib/shop/plan-words'
import { Notice } from '../../../ui/notice'
import { Facts } from '../../../ui/sheet'
import { Tap } from '../../../ui/tap'
import { stopPlan } from './actions'
import { IntoView } from './into-view'

const seconds = (ms: number) => `${(ms / 1000).toFixed(ms < 10_000 ? 1 : 0)} s`

type Going = Pick<
  CutPlanView,
  'id' | 'buildId' | 'isMaker' | 'isCancelAsked' | 'seconds' | 'attempt' | 'status' | 'progress'
> & { readonly input: Pick<CutPlanView['input'], 'needs'>; readonly result: object | null }

/** A plan that is being worked out: how far, how good so far, and a way to stop it. */
export function Progress({ plan }: { plan: Going }) {
  const { progress } = plan
  const elapsedMs = progress?.elapsedMs ?? 0
  const share = Math.min(1, elapsedMs / (plan.seconds * 1000))
  return (
    <div role="status" className="relative grid gap-4 border-l-4 border-accent bg-accent-wash px-4 py-4">
      <IntoView />
      <div className="flex flex-wrap items-center justify-between gap-3">
        <p className="text-[1.15rem] font-semibold">{said(plan)}</p>
        {plan.isMaker && !plan.isCancelAsked ? (
          <Tap action={stopPlan} hidden={{ planId: plan.id, buildId: plan.buildId }}>
            Stop, keep the best
          </Tap>
        ) : null}
      </div>
      <div
        role="progressbar"
        aria-label="Time used"
        aria-valuemin={0}
        aria-valuemax={100}
        aria-valuenow={Math.round(share * 100)}
        className="h-2.5 overflow-hidden border border-accent bg-sheet"
      >
        <div
          className="h-full bg-accent transition-[width] duration-700"
          style={{ width: `${share * 100}%` }}
        />
      </div>
      {progress ? (
        <Facts
          items={[
            { label: 'Time', value: `${seconds(elapsedMs)} of ${plan.seconds} s` },
            {
              label: 'Parts placed so far',
              value: `${progress.parts ?? Math.round(progress.weightMade)} of ${partsWanted(plan.input)}`,
            },
            { label: 'Boards', value: progress.boards },
            { label: 'Wood still to be saved', value: savable(progress) },
          ]}
        />
      ) : null}
    </div>
  )
}

/** How much less wood a better plan could use; nothing is known before the first one. */
function savable(progress: NonNullable<CutPlanView['progress']>): string {
  const percent = Math.ceil(costGap(progress) * 100)
  return percent === 0 ? 'None' : `${percent} % at most`
}

function said(plan: Going): string {
  if (plan.isCancelAsked) return 'Stopping…'
  if (plan.status === 'queued')
    return plan.attempt > 0 ? 'Taken up again in a moment…' : 'In line; it begins in a moment…'
  return plan.result ? 'A plan is there; looking for a better one…' : 'Working out the cutting…'
}

/** How the last plan ended, where that needs saying. */
export function Ended({ plan }: { plan: CutPlanView }) {
  const kept = plan.result ? ' The best plan found until then is below.' : ''
  switch (plan.status) {
    case 'cancelled':
      return <Notice>Stopped before its time.{kept}</Notice>
    case 'interrupted':
      return (
        <Notice level="caution" title="Interrupted">
          The computer was stopped while it worked on this plan, several times over.{kept} Plan again for a
          full search.
        </Notice>
      )
    case 'failed':
      return (
        <Notice level="stop" title="This plan failed">
          The fault is in the program, not in your boards. {plan.failure} Tell your admin.{kept}
        </Notice>
      )
    default:
      return null
  }
}
