import type { Metadata } from 'next'
import { notFound } from 'next/navigation'
import type { LengthUnit } from '#lib/core/units/inches'
import { history, type PlanInHistory, type PlanToCompare, pair } from '#lib/data/cut-plans'
import { nearInstantIn } from '#lib/format/instant'
import { boardSheet } from '#lib/shop/board-sheet'
import { type ComparedBoard, comparedBoards, onlyMadeBy, planFigures } from '#lib/shop/plan-compare'
import { load, settings } from '../../../../load'
import { BoardLayout, LayoutLegend } from '../../../../ui/board-layout'
import { ButtonLink } from '../../../../ui/button'
import { SelectField } from '../../../../ui/field'
import { Empty, Page, Section } from '../../../../ui/sheet'
import { buildHeader } from '../../header'
import { FigureTable } from '../figure-table'
import { partNames } from '../part-names'

export const metadata: Metadata = { title: 'Compare cut plans' }

type Say = (at: Date) => string

interface Props {
  readonly params: Promise<{ id: string }>
  readonly searchParams: Promise<{ a?: string; b?: string }>
}

export default async function ComparePage({ params, searchParams }: Props) {
  const [{ id: buildId }, asked] = await Promise.all([params, searchParams])
  const [, { timeZone, units }, plans] = await Promise.all([
    buildHeader(buildId),
    settings(),
    load(history, { buildId }),
  ])
  const say = nearInstantIn(timeZone, new Date())
  const back = (
    <ButtonLink look="quiet" href={`/builds/${buildId}/cutting`}>
      Back to the cutting
    </ButtonLink>
  )
  if (plans.length < 2)
    return (
      <Page title="Compare cut plans">
        <Empty title="There is only one plan" action={back}>
          Plan again, with other wishes or more time; then the two can be laid side by side.
        </Empty>
      </Page>
    )
  const ids = [asked.a ?? plans[1].id, asked.b ?? plans[0].id] as const
  if (!ids.every((id) => plans.some((p) => p.id === id))) notFound()
  const [a, b] = await load(pair, { buildId, planIds: [ids[0], ids[1]] })
  return (
    <Page title="Compare cut plans" lead="What differs, level by level and board by board." actions={back}>
      <Chooser plans={plans} ids={ids} say={say} />
      <Section
        title="Level by level"
        note="In the order in which plans are judged; the better one is marked."
      >
        <FigureTable
          columns={[
            { head: `First: ${say(a.createdAt)}`, figures: planFigures(a) },
            { head: `Second: ${say(b.createdAt)}`, figures: planFigures(b) },
          ]}
          units={units}
        />
        <OnlyIn a={a} b={b} />
      </Section>
      <BoardsBeside a={a} b={b} units={units} />
    </Page>
  )
}

const optionText = (plan: PlanInHistory, say: Say) =>
  `${say(plan.createdAt)}: ${plan.made} of ${plan.wanted} parts, ${plan.boards} ${plan.boards === 1 ? 'board' : 'boards'}`

/** Two of the build's plans, by a plain form that needs no script. */
function Chooser({
  plans,
  ids,
  say,
}: {
  plans: readonly PlanInHistory[]
  ids: readonly [string, string]
  say: Say
}) {
  const options = plans.map((plan) => ({ value: plan.id, label: optionText(plan, say) }))
  return (
    <form method="get" aria-label="Plans to compare" className="flex flex-wrap items-end gap-4">
      <SelectField key={ids[0]} label="First plan" name="a" options={options} defaultValue={ids[0]} />
      <SelectField key={ids[1]} label="Second plan" name="b" options={options} defaultValue={ids[1]} />
      <button
        type="submit"
        className="inline-flex min-h-11 items-center border-2 border-ink px-4 font-semibold"
      >
        Compare
      </button>
    </form>
  )
}

async function OnlyIn({ a, b }: { a: PlanToCompare; b: PlanToCompare }) {
  const rows = [
    { which: 'first', parts: onlyMadeBy(a, b), name: await partNames(a.input) },
    { which: 'second', parts: onlyMadeBy(b, a), name: await partNames(b.input) },
  ].filter(({ parts }) => parts.length > 0)
  if (rows.length === 0) return <p className="mt-4">Both plans make the same parts.</p>
  return (
    <ul className="mt-4 grid gap-1">
      {rows.map(({ which, parts, name }) => (
        <li key={which}>
          Only the {which} plan makes {parts.map((id) => name(id) ?? id).join(', ')}.
        </li>
      ))}
    </ul>
  )
}

async function BoardsBeside({ a, b, units }: { a: PlanToCompare; b: PlanToCompare; units: LengthUnit }) {
  const boards = comparedBoards(a, b)
  const other = boards.filter((board) => !board.isSame)
  const same = boards.filter((board) => board.isSame)
  const named = await Promise.all([a, b].map(async (plan) => ({ plan, nameOf: await partNames(plan.input) })))
  const sheets = named.flatMap(({ plan, nameOf }) =>
    plan.result.plan.layouts.map((_, i) => boardSheet(plan.input, plan.result, i, nameOf)),
  )
  return (
    <Section title="Board by board">
      {other.length > 0 ? <LayoutLegend sheets={sheets} prefix="legend" /> : null}
      <div className="mt-4 grid gap-8">
        {other.map((board) => (
          <BoardBeside key={board.boardId} board={board} a={a} b={b} units={units} />
        ))}
      </div>
      {same.length > 0 ? (
        <p className="mt-6">
          Cut alike by both: {same.length === 1 ? 'board' : 'boards'}{' '}
          {same.map(({ number }) => number).join(', ')}.
        </p>
      ) : null}
    </Section>
  )
}

function BoardBeside({
  board,
  a,
  b,
  units,
}: {
  board: ComparedBoard
  a: PlanToCompare
  b: PlanToCompare
  units: LengthUnit
}) {
  const sides = [
    { name: 'First plan', plan: a, index: board.a },
    { name: 'Second plan', plan: b, index: board.b },
  ]
  return (
    <article
      aria-label={`Board ${board.number}`}
      className="grid min-w-0 gap-3 border-t border-hairline pt-4"
    >
      <h3 className="text-[1.15rem] font-semibold">Board {board.number}</h3>
      <div className="grid min-w-0 gap-5">
        {sides.map(({ name, plan, index }) => (
          <figure key={name} className="grid min-w-0 content-start gap-1">
            <figcaption className="font-medium">
              {name}
              {index === null ? ': not cut' : ''}
            </figcaption>
            {index === null ? null : <Drawing plan={plan} index={index} units={units} name={name} />}
          </figure>
        ))}
      </div>
    </article>
  )
}

async function Drawing({
  plan,
  index,
  units,
  name,
}: {
  plan: PlanToCompare
  index: number
  units: LengthUnit
  name: string
}) {
  const sheet = boardSheet(plan.input, plan.result, index, await partNames(plan.input))
  const prefix = `${name.slice(0, 1)}${sheet.board.number}`
  const label = `Board ${sheet.board.number}, ${name.toLowerCase()}`
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a phone, by keyboard too */}
      <section tabIndex={0} aria-label={label} className="overflow-x-auto">
        <BoardLayout sheet={sheet} kerfUm={plan.input.shop.kerfUm} units={units} prefix={prefix} />
      </section>
      <p className="text-[0.92rem] text-ink-soft">
        {sheet.parts.length} {sheet.parts.length === 1 ? 'piece' : 'pieces'}, {sheet.cuts.length} cuts,{' '}
        {sheet.rests.filter((r) => r.kind === 'offcut').length} offcuts kept
      </p>
    </>
  )
}
