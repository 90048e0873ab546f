import { cureSentence, explainShortages } from '#lib/core/cutting/from-pool'
import type { LengthUnit } from '#lib/core/units/inches'
import type { CutPlanView } from '#lib/data/cut-plans'
import { sayPercent } from '#lib/format/amount'
import { nameList } from '#lib/shop/build-stage'
import { planFigures } from '#lib/shop/plan-compare'
import { isStale, type PlanChanges } from '#lib/shop/plan-input'
import { gapSentence, madeSentence, partsShort, reachSentence, woodShares } from '#lib/shop/plan-words'
import { ButtonLink } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { Section } from '../../../ui/sheet'
import { FigureTable } from './figure-table'
import { NumberCure } from './number-cure'

type Found = CutPlanView & { readonly result: NonNullable<CutPlanView['result']> }

/** What the plan makes, where the wood goes, and how good it could be at best. */
export function Summary({
  plan,
  units,
  canCompare,
}: {
  plan: Found
  units: LengthUnit
  /** There are other plans of this build. */
  canCompare: boolean
}) {
  const { plan: cut } = plan.result
  const shares = woodShares(cut, plan.input)
  const sentences = [reachSentence(cut, plan.input), gapSentence(cut)].filter((s) => s !== null)
  return (
    <Section
      title="Result"
      actions={
        canCompare ? (
          <ButtonLink look="quiet" href={`/builds/${plan.buildId}/cutting/compare`}>
            Compare with another plan
          </ButtonLink>
        ) : undefined
      }
    >
      <p className="text-[1.35rem] leading-snug font-semibold">{madeSentence(cut, plan.input)}</p>
      {sentences.length > 0 ? <p className="mt-1">{sentences.join(' ')}</p> : null}
      {cut.layouts.length > 0 ? (
        <div className="mt-5 max-w-2xl">
          <ShareBar shares={shares} />
          <p className="mt-3 text-[0.9rem] text-ink-soft">
            Offcuts of earlier builds are used up first; a board that someone must be asked for is taken only
            where no other does as well.
          </p>
          <details className="mt-2">
            <summary className="inline-flex min-h-11 items-center font-medium text-accent">
              How the plan was judged
            </summary>
            <FigureTable
              columns={[
                { head: 'This plan', figures: planFigures({ input: plan.input, result: plan.result }) },
              ]}
              units={units}
            />
          </details>
        </div>
      ) : null}
    </Section>
  )
}

/** A smaller share is no bar. */
const SEEN = 0.005

function ShareBar({ shares }: { shares: { parts: number; offcuts: number; waste: number } }) {
  const all = [
    { name: 'parts', share: shares.parts, look: 'bg-wood border-ink' },
    {
      name: 'offcuts, back to the pool',
      share: shares.offcuts,
      look: 'bg-accent-wash border-accent border-dashed',
    },
    { name: 'waste, kerf and trimmed ends', share: shares.waste, look: 'bg-sheet border-hairline-strong' },
  ]
  return (
    <>
      <div aria-hidden="true" className="flex h-6 gap-px">
        {all
          .filter((s) => s.share > SEEN)
          .map((s) => (
            <div key={s.name} className={`border-2 ${s.look}`} style={{ width: `${s.share * 100}%` }} />
          ))}
      </div>
      <ul aria-label="Where the wood goes" className="mt-2 flex flex-wrap gap-x-5 gap-y-1">
        {all.map((s) => (
          <li key={s.name} className="inline-flex items-center gap-2">
            <span className={`h-4 w-5 border-2 ${s.look}`} />
            <span>
              <strong>{sayPercent(s.share)}</strong> {s.name}
            </span>
          </li>
        ))}
      </ul>
    </>
  )
}

/** Which parts are short, why, and the smallest board that would make up for it. */
export function Shortages({
  plan,
  units,
  isOpen,
}: {
  plan: Found
  units: LengthUnit
  /** The build goes on. */
  isOpen: boolean
}) {
  const { plan: cut } = plan.result
  if (partsShort(cut) === 0) return null
  const reasons = explainShortages(plan.input.pool, cut, plan.input.needs, { unit: units })
  return (
    <Section
      title="Short"
      actions={
        <ButtonLink look="quiet" href="/teardowns/new">
          Log a teardown
        </ButtonLink>
      }
    >
      <ul className="grid max-w-[72ch] list-disc gap-1.5 pl-5">
        {reasons.map((r) => (
          <li key={r.needId}>{r.sentence}</li>
        ))}
      </ul>
      {cut.cure ? (
        <p className="mt-3 max-w-[72ch] font-medium">
          {cureSentence(cut.cure, plan.input.needs, plan.input.shop.allowances, { unit: units })}
        </p>
      ) : null}
      {isOpen && plan.input.boards.length > 0 ? (
        <div className="mt-4 grid justify-items-start">
          <NumberCure
            buildId={plan.buildId}
            units={units}
            mayChange={plan.isMaker}
            ask={{
              designId: plan.input.design.designId,
              question: {
                parameters: plan.input.design.parameters,
                boards: plan.input.boards,
                partsMade: plan.input.partsMade,
                gluedUp: plan.input.gluedUp ?? [],
                shop: plan.input.shop,
              },
            }}
          />
        </div>
      ) : null}
    </Section>
  )
}

const boardList = (numbers: readonly number[]) =>
  `${numbers.length === 1 ? 'Board' : 'Boards'} ${nameList(numbers.map(String))}`

/** What has changed since the plan was made. */
export function Changes({ changes }: { changes: PlanChanges | null }) {
  if (!changes) return null
  const changed = changes.boards.filter((b) => b.why === 'changed').map((b) => b.number)
  const gone = changes.boards.filter((b) => b.why === 'notForUse').map((b) => b.number)
  if (isStale(changes))
    return (
      <Notice level="caution" title="This plan is out of date">
        {changes.isDesignChanged
          ? 'The design, or the shop’s machines and allowances, have changed since. '
          : ''}
        {changed.length > 0 ? `${boardList(changed)} changed since. ` : ''}
        {gone.length > 0
          ? `${boardList(gone)} cannot be had any more: held elsewhere, or out of the pool. `
          : ''}
        Plan again before you hold or cut anything.
      </Notice>
    )
  if (changes.newBoards === 0) return null
  return (
    <Notice>
      {changes.newBoards === 1
        ? 'A board that would do has'
        : `${changes.newBoards} boards that would do have`}{' '}
      come into the pool since. The plan still holds; planning again may find a better one.
    </Notice>
  )
}
