import type { Metadata } from 'next'
import type { ComponentProps } from 'react'
import { type CutPlanView, glueable, latest } from '#lib/data/cut-plans'
import { cutsOfBuild } from '#lib/data/cutting'
import { nearInstantIn } from '#lib/format/instant'
import { boardSheet } from '#lib/shop/board-sheet'
import { isStale, orderOf } from '#lib/shop/plan-input'
import { load, settings } from '../../../load'
import { LayoutLegend } from '../../../ui/board-layout'
import { ButtonLink } from '../../../ui/button'
import { Live } from '../../../ui/live'
import { Notice } from '../../../ui/notice'
import { Empty, Page, Row, Rows, Section } from '../../../ui/sheet'
import { buildHeader } from '../header'
import { AskForm } from './ask-form'
import { BoardPart } from './board-part'
import { HoldAll } from './holding'
import { partNames } from './part-names'
import { PieceBeside } from './piece-beside'
import { Ended, Progress } from './progress'
import { Changes, Shortages, Summary } from './summary'

export const metadata: Metadata = { title: 'Cutting' }

type Say = (at: Date) => string
type Found = CutPlanView & { readonly result: NonNullable<CutPlanView['result']> }

export default async function CuttingPage({ params }: { readonly params: Promise<{ id: string }> }) {
  const { id: buildId } = await params
  const [build, { timeZone, units }, plans, cuts] = await Promise.all([
    buildHeader(buildId),
    settings(),
    load(latest, { buildId }),
    load(cutsOfBuild, { buildId }),
  ])
  const gluing = build.isMine && build.isOpen ? await load(glueable, { buildId }) : []
  const say = nearInstantIn(timeZone, new Date())
  const newest = plans?.newest
  const order = newest ? orderOf(newest.input.shop) : undefined
  const ask = { buildId, glueable: gluing, units, order }
  const shown = newest?.result ? newest : plans?.former
  const isGoing = newest?.status === 'queued' || newest?.status === 'running'
  const mayAsk = build.isMine && build.isOpen && !isGoing
  const isOld = shown?.changes ? isStale(shown.changes) : false
  return (
    <Page
      title="Cutting"
      lead="Which part comes out of which board, around its damage."
      actions={
        build.designName ? (
          <ButtonLink look="quiet" href={`/builds/${buildId}/cutting/together`}>
            Plan together with other builds
          </ButtonLink>
        ) : undefined
      }
    >
      <Live topics={[`build:${buildId}`, 'pool', ...(newest ? [`plan:${newest.id}`] : [])]} />
      {newest && isGoing ? <Progress plan={newest} /> : null}
      {newest && !isGoing ? <Ended plan={newest} /> : null}
      {!newest ? <FirstPlan ask={ask} build={build} /> : null}
      {shown?.result ? (
        <>
          {build.isOpen ? <Changes changes={shown.changes} /> : null}
          {mayAsk && isOld ? <AskForm {...ask} label="Plan again" isFirst /> : null}
          <Summary plan={shown as Found} units={units} canCompare={plans !== null && plans.found > 1} />
          <Shortages plan={shown as Found} units={units} isOpen={build.isOpen} />
          <Boards plan={shown as Found} isGoing={isGoing} isOpen={build.isOpen} units={units} say={say} />
        </>
      ) : null}
      {cuts.length > 0 ? <CutAlready cuts={cuts} say={say} /> : null}
      {newest && mayAsk && !isOld ? (
        <Section
          title="Plan again"
          note="With another try at a better plan. What is held stays held; parts that are cut are not asked for again."
        >
          <AskForm {...ask} label="Plan again" isFirst={!shown} />
        </Section>
      ) : null}
    </Page>
  )
}

type Ask = Pick<ComponentProps<typeof AskForm>, 'buildId' | 'glueable' | 'units' | 'order'>

function FirstPlan({
  ask,
  build,
}: {
  ask: Ask
  build: { isMine: boolean; isOpen: boolean; designName: string | null }
}) {
  if (!build.designName)
    return (
      <Empty
        title="Nothing to cut yet"
        action={
          build.isMine ? (
            <ButtonLink look="primary" href={`/builds/${ask.buildId}/design`}>
              Choose the design
            </ButtonLink>
          ) : undefined
        }
      >
        Fit a design to its place first; its parts are then looked for in the pool.
      </Empty>
    )
  if (!build.isMine || !build.isOpen)
    return <Empty title="No cut plan yet">The maker of this build has not asked for one.</Empty>
  return (
    <Section
      title="Plan the cutting"
      note="Every board that you may use is looked at: your own, those free to all, and those that you may ask for. Parts are laid around damage that would spoil them, with allowance for flattening and the saw’s kerf."
    >
      <AskForm {...ask} label="Plan the cutting" isFirst />
    </Section>
  )
}

async function Boards({
  plan,
  isGoing,
  isOpen,
  units,
  say,
}: {
  plan: Found
  isGoing: boolean
  /** The build goes on: its boards may be held and cut. */
  isOpen: boolean
  units: 'mm' | 'in'
  say: Say
}) {
  const nameOf = await partNames(plan.input)
  const sheets = plan.result.plan.layouts.map((_, i) => boardSheet(plan.input, plan.result, i, nameOf))
  const states = new Map(plan.boards.map((b) => [b.boardId, b]))
  if (sheets.length === 0) return null
  const isSomeCut = plan.boards.some((b) => b.cut)
  return (
    <Section
      title="Boards"
      actions={
        <ButtonLink look="quiet" href={`/builds/${plan.buildId}/setups`}>
          See the set-ups
        </ButtonLink>
      }
    >
      <div className="grid gap-6">
        {!isOpen || isGoing ? null : (
          <HoldAll plan={plan} isOld={plan.changes !== null && isStale(plan.changes)} />
        )}
        {isSomeCut || !isOpen ? null : (
          <Notice level="caution">
            Guard on, riving knife in, push stick at hand; look each board over for metal once more. The saw’s
            manual and your induction come before this plan.
          </Notice>
        )}
        <LayoutLegend sheets={sheets} prefix="legend" />
        <PieceBeside
          designId={plan.input.design.designId}
          parameters={plan.input.design.parameters}
          title={plan.buildName}
          units={units}
        >
          {sheets.map((sheet) => {
            const state = states.get(sheet.board.id)
            return state ? (
              <BoardPart key={sheet.board.id} {...{ plan, sheet, state, isOpen, units, say }} />
            ) : null
          })}
        </PieceBeside>
      </div>
    </Section>
  )
}

interface Cut {
  readonly id: string
  readonly boardId: string
  readonly boardNumber: number
  readonly memberName: string
  readonly cutAt: Date
  readonly note: string
  readonly partIds: readonly string[]
  /** How many of them the numbers of now do not ask for any more. */
  readonly setAside: number
  readonly offcuts: readonly { readonly id: string; readonly number: number }[]
}

function CutAlready({ cuts, say }: { cuts: readonly Cut[]; say: Say }) {
  return (
    <Section title="Cut so far">
      <Rows label="Boards that were cut">
        {cuts.map((cut) => (
          <Row key={cut.id} aside={<span className="text-ink-soft">{say(cut.cutAt)}</span>}>
            <a className="link font-medium" href={`/boards/${cut.boardId}`}>
              Board {cut.boardNumber}
            </a>{' '}
            became {cut.partIds.length} {cut.partIds.length === 1 ? 'part' : 'parts'}
            {cut.offcuts.length > 0 ? (
              <>
                {' '}
                and went back as{' '}
                {cut.offcuts.map((o, i) => (
                  <span key={o.id}>
                    {i > 0 ? ', ' : ''}
                    <a className="link" href={`/boards/${o.id}`}>
                      board {o.number}
                    </a>
                  </span>
                ))}
              </>
            ) : null}
            {cut.setAside > 0 ? (
              <span className="block text-[0.92rem]">
                {cut.setAside === cut.partIds.length ? 'All' : cut.setAside} set aside: the design asks for
                others now.
              </span>
            ) : null}
            <span className="block text-[0.92rem] text-ink-soft">
              by {cut.memberName}
              {cut.note ? `: ${cut.note}` : ''}
            </span>
          </Row>
        ))}
      </Rows>
    </Section>
  )
}
