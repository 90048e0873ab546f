import type { LengthUnit } from '#lib/core/units/inches'
import type { TogetherView } from '#lib/data/plans-together'
import { sayArea } from '#lib/format/amount'
import { boardSheet } from '#lib/shop/board-sheet'
import {
  type AloneFigures,
  boardShares,
  partOfBuild,
  type Saving,
  savingOf,
  type TogetherInput,
  type TogetherResult,
  togetherFigures,
} from '#lib/shop/plan-together'
import { settings } from '../../../../load'
import { LayoutLegend } from '../../../../ui/board-layout'
import { Section } from '../../../../ui/sheet'
import { Tag } from '../../../../ui/tag'
import { Tap } from '../../../../ui/tap'
import { holdBoards } from '../actions'
import { BoardSheetView } from '../board-part'

interface Props {
  readonly view: TogetherView
  readonly result: TogetherResult
  /** The build that asked is the member's own. */
  readonly isMine: boolean
}

/** What planning together brings, build by build and board by board. */
export async function TogetherOutcome({ view, result, isMine }: Props) {
  const { units } = await settings()
  return (
    <>
      <Section title="Result">
        <p className="max-w-[60ch] text-[1.35rem] leading-snug font-semibold">
          {savingSentence(savingOf(view.input, result), units)}
        </p>
        <BuildTable view={view} result={result} units={units} />
      </Section>
      <Boards {...{ view, result, units, isMine }} />
    </>
  )
}

const MM2_PER_UM2 = 1e-6
const count = (n: number, one: string) => `${n} ${one}${n === 1 ? '' : 's'}`

/** In plain words; what counts most first. */
function savingSentence(saving: Saving | null, units: LengthUnit): string {
  if (!saving) return 'A first plan together is there; each build by itself is still to be compared.'
  const area = sayArea(Math.abs(saving.areaUm2) * MM2_PER_UM2, units)
  const boards =
    saving.boards > 0 ? `${count(saving.boards, 'board')} and ${area} of wood` : `${area} of wood`
  if (saving.parts > 0)
    return `Planned together, ${count(saving.parts, 'part')} more can be made than one build after another.`
  if (saving.cost <= 0) return 'Planning together saves nothing here: one build after another does as well.'
  return saving.areaUm2 > 0
    ? `Planning together saves ${boards} against planning one build after another.`
    : 'Planning together uses up less valuable boards than planning one build after another.'
}

function BuildTable({
  view,
  result,
  units,
}: {
  view: TogetherView
  result: TogetherResult
  units: LengthUnit
}) {
  const both = togetherFigures(view.input, result.plan)
  const say = (f: AloneFigures | undefined) =>
    f
      ? `${f.made} of ${f.wanted} parts, ${count(f.boards, 'board')}, ${sayArea(f.areaUm2 * MM2_PER_UM2, units)}`
      : 'not compared yet'
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a phone, by keyboard too
    <section tabIndex={0} aria-label="Build by build" className="mt-5 overflow-x-auto">
      <table className="w-full max-w-4xl border-collapse text-left tabular-nums">
        <thead>
          <tr className="border-b border-hairline-strong text-[0.9rem] text-ink-soft">
            {['Build', 'One after another', 'Together'].map((head) => (
              <th key={head} scope="col" className="py-1.5 pr-4 font-medium">
                {head}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {view.input.builds.map((build, i) => (
            <tr key={build.buildId} className="border-b border-hairline align-top">
              <th scope="row" className="py-1.5 pr-4 font-normal">
                <a className="link" href={`/builds/${build.buildId}/cutting`}>
                  {build.name}
                </a>
                <span className="block text-[0.92rem] text-ink-soft">
                  {build.makerName}
                  {build.priority === 'first' ? ', before others' : ''}
                  {build.priority === 'last' ? ', after others' : ''}
                </span>
              </th>
              <td className="py-1.5 pr-4">{say(result.alone?.[i])}</td>
              <td className="py-1.5 pr-4">{say(both[i])}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="mt-2 max-w-[60ch] text-[0.9rem] text-ink-soft">
        A board that several builds share counts for the one whose part comes first on it.
      </p>
    </section>
  )
}

/** What a part is called, with its build's name before it. */
function nameIn(input: TogetherInput): (id: string) => string | undefined {
  const names = new Map(input.needs.flatMap((n) => n.partIds.map((id) => [id, n.name] as const)))
  return (id) => {
    const plain = id.split('~')[0]
    const name = names.get(plain)
    return name === undefined ? undefined : `${input.builds[partOfBuild(plain).build].name}: ${name}`
  }
}

function Boards({ view, result, units, isMine }: Props & { readonly units: LengthUnit }) {
  const { input } = view
  const shares = boardShares(input, result)
  const sheets = shares.map(({ layout }) => boardSheet(input, result, layout, nameIn(input)))
  const states = new Map(view.boards.map((b) => [b.boardId, b]))
  const open = shares.flatMap(({ boardId, builds }) => {
    const state = states.get(boardId)
    return state?.isInPool && builds.length === 1 && builds[0] === 0 && !state.heldByBuildId
      ? [`${boardId}@${state.version}`]
      : []
  })
  return (
    <Section
      title="Boards"
      note="Hold the boards of your own build, then plan its cutting again: boards that it holds are taken first. A board that gives parts to several builds is held by one maker, who hands the other parts over."
    >
      <div className="grid gap-6">
        {isMine && open.length > 0 ? (
          <div>
            <Tap
              action={holdBoards}
              hidden={{ buildId: input.builds[0].buildId, boards: open.join(',') }}
              look="primary"
            >
              {open.length === 1
                ? `Hold the board of «${input.builds[0].name}»`
                : `Hold the ${open.length} boards of «${input.builds[0].name}»`}
            </Tap>
          </div>
        ) : null}
        <LayoutLegend sheets={sheets} prefix="legend" />
        {sheets.map((sheet, i) => (
          <article
            key={sheet.board.id}
            aria-label={`Board ${sheet.board.number}`}
            className="grid min-w-0 gap-3 border-t border-hairline pt-4"
          >
            <div className="flex flex-wrap items-start justify-between gap-3">
              <h3 className="text-[1.15rem] font-semibold">
                Board {sheet.board.number}{' '}
                <span className="font-normal text-ink-soft">
                  for {shares[i].builds.map((b) => input.builds[b].name).join(' and ')}
                </span>
              </h3>
              <HeldTag input={input} heldBy={states.get(sheet.board.id)?.heldByBuildId ?? null} />
            </div>
            <BoardSheetView sheet={sheet} units={units} kerfUm={input.shop.kerfUm} />
          </article>
        ))}
      </div>
    </Section>
  )
}

function HeldTag({ input, heldBy }: { input: TogetherInput; heldBy: string | null }) {
  if (heldBy === null) return <Tag>Not held</Tag>
  const build = input.builds.find((b) => b.buildId === heldBy)
  return (
    <Tag tone={build ? 'held' : 'stop'}>{build ? `Held for ${build.name}` : 'Held for another build'}</Tag>
  )
}
