import Link from '#app/ui/link'
import type { LengthUnit } from '#lib/core/units/inches'
import { speciesById } from '#lib/core/wood/species'
import type { CutPlanView, PlannedBoardState } from '#lib/data/cut-plans'
import { sayLength, saySize } from '#lib/format/length'
import type { BoardSheet, SheetCut } from '#lib/shop/board-sheet'
import { partOfStave } from '#lib/shop/staves'
import { BoardLayout } from '../../../ui/board-layout'
import { ButtonLink } from '../../../ui/button'
import { AskFirst } from '../../../ui/dialog'
import { Tap } from '../../../ui/tap'
import { holdLonger, letGo } from './actions'
import { HoldState } from './holding'

interface Props {
  readonly plan: CutPlanView
  readonly sheet: BoardSheet
  readonly state: PlannedBoardState
  /** The build goes on. */
  readonly isOpen: boolean
  readonly units: LengthUnit
  readonly say: (at: Date) => string
}

/** One board of the plan: what it is, how it stands, what is cut from it and in which order. */
export function BoardPart({ plan, sheet, state, isOpen, units, say }: Props) {
  const { board } = sheet
  const from = [
    isOpen && board.needsYes && !state.hold && !state.cut
      ? `${board.ownerName}, to be asked first`
      : board.ownerName,
    board.place,
    board.origin === 'offcut' ? 'an offcut' : '',
  ].filter(Boolean)
  return (
    <article
      aria-label={`Board ${board.number}`}
      className="grid min-w-0 gap-3 border-t border-hairline pt-4"
    >
      <div className="flex flex-wrap items-start justify-between gap-x-6 gap-y-2">
        <div>
          <h3 className="text-[1.15rem] font-semibold">
            <Link href={`/boards/${board.id}`} className="link">
              Board {board.number}
            </Link>
          </h3>
          <p className="text-ink-soft">
            {saySize([board.lengthUm, board.widthUm, board.thicknessUm], units)} ·{' '}
            {speciesById(board.species).name} · {from.join(' · ')}
          </p>
        </div>
        {isOpen || state.cut ? <HoldState state={state} say={say} /> : null}
      </div>
      <BoardSheetView sheet={sheet} units={units} kerfUm={plan.input.shop.kerfUm} canPick />
      {plan.isMaker && isOpen && !state.cut ? <Buttons plan={plan} sheet={sheet} state={state} /> : null}
    </article>
  )
}

/** The drawing, then the same in words. */
export function BoardSheetView({
  sheet,
  units,
  kerfUm,
  isOpen = false,
  canPick = false,
}: {
  sheet: BoardSheet
  units: LengthUnit
  kerfUm: number
  isOpen?: boolean
  /** Stands where a tap on a part shows it in the piece. */
  canPick?: boolean
}) {
  const prefix = `b${sheet.board.number}`
  return (
    <>
      {/* biome-ignore lint/a11y/noNoninteractiveTabindex: it scrolls sideways on a phone, by keyboard too */}
      <section tabIndex={0} aria-label={`Drawing of board ${sheet.board.number}`} className="overflow-x-auto">
        <BoardLayout sheet={sheet} kerfUm={kerfUm} units={units} prefix={prefix} />
      </section>
      <details open={isOpen} className="group">
        <summary className="inline-flex min-h-11 items-center font-medium text-accent">
          Parts and cuts, in order
        </summary>
        <div className="grid gap-6 pt-2 md:grid-cols-[minmax(0,2fr)_minmax(0,3fr)]">
          <div className="grid content-start gap-3">
            <PartList sheet={sheet} units={units} canPick={canPick} />
            <Together groups={sheet.together} />
          </div>
          <CutTable cuts={sheet.cuts} units={units} />
        </div>
      </details>
    </>
  )
}

function PartList({ sheet, units, canPick }: { sheet: BoardSheet; units: LengthUnit; canPick: boolean }) {
  return (
    <ul aria-label="Parts" className="grid content-start gap-1">
      {sheet.parts.map((p) => (
        <li key={p.letter} className="grid grid-cols-[1.6rem_1fr] gap-x-2">
          <strong>{p.letter}</strong>
          <span>
            {canPick ? (
              <button
                type="button"
                data-part={partOfStave(p.partId)}
                className="min-h-8 text-left underline decoration-hairline-strong underline-offset-4 data-marked:font-semibold data-marked:text-accent"
              >
                {p.name}
              </button>
            ) : (
              p.name
            )}
            <span className="block text-[0.92rem] text-ink-soft">
              {saySize([p.lengthUm, p.widthUm], units)} rough
              {p.isTurnedOver ? '; its good face is the board’s face B' : ''}
            </span>
          </span>
        </li>
      ))}
    </ul>
  )
}

/** Short parts that go through the planer in one piece. */
function Together({ groups }: { groups: readonly (readonly string[])[] }) {
  if (groups.length === 0) return null
  return (
    <p className="max-w-[46ch] text-[0.92rem]">
      <strong>Plane before you cut short:</strong>{' '}
      {groups.map((letters) => letters.join(', ')).join('; and ')}{' '}
      {groups.length === 1 && groups[0].length === 1 ? 'stays' : 'stay'} in one piece until planed. Alone they
      are shorter than the planer takes.
    </p>
  )
}

/** Measured on the piece as it is drawn. */
const FROM = {
  crosscut: { first: 'the left end', second: 'the right end' },
  rip: { first: 'the upper edge', second: 'the lower edge' },
} as const

const measured = (cut: SheetCut, units: LengthUnit) =>
  cut.slantUm === undefined
    ? `${sayLength(cut.settingUm, units)} from ${FROM[cut.kind][cut.measured]}`
    : `sled at ${angleText(cut.slantUm, cut.piece.widthUm)}, ${sayLength(cut.settingUm, units)} along the edge at the sled’s fence`

const angleText = (slantUm: number, widthUm: number) =>
  `${((Math.atan2(Math.abs(slantUm), widthUm) * 180) / Math.PI).toFixed(1)}°`

/** «a», «offcut», «a piece for cut 3». */
const given = (what: string) => (what.startsWith('cut ') ? `a piece for ${what}` : what)

function CutTable({ cuts, units }: { cuts: readonly SheetCut[]; units: LengthUnit }) {
  return (
    <table className="w-full border-collapse text-left">
      <caption className="sr-only">Cuts in order</caption>
      <thead>
        <tr className="border-b border-hairline-strong text-[0.85rem] text-ink-soft">
          <th scope="col" className="py-1 pr-3 font-medium">
            Cut
          </th>
          <th scope="col" className="py-1 pr-3 font-medium">
            Where
          </th>
          <th scope="col" className="py-1 font-medium">
            Gives
          </th>
        </tr>
      </thead>
      <tbody>
        {cuts.map((cut) => (
          <tr key={cut.number} className="border-b border-hairline align-top">
            <th scope="row" className="py-1.5 pr-3 font-semibold whitespace-nowrap">
              {cut.number} <span className="font-normal">{cut.kind === 'crosscut' ? 'crosscut' : 'rip'}</span>
            </th>
            <td className="py-1.5 pr-3">
              {measured(cut, units)}
              {cut.after > 0 ? <span className="text-ink-soft">, on a piece of cut {cut.after}</span> : null}
            </td>
            <td className="py-1.5">{cut.gives.map(given).join(', ')}</td>
          </tr>
        ))}
      </tbody>
    </table>
  )
}

function Buttons({ plan, sheet, state }: { plan: CutPlanView; sheet: BoardSheet; state: PlannedBoardState }) {
  const { hold } = state
  if (!hold?.isHere) return null
  const ids = { holdId: hold.id, buildId: plan.buildId }
  const isLive = hold.status === 'live'
  const isReady = isLive && plan.status !== 'queued' && plan.status !== 'running'
  return (
    <div className="flex flex-wrap items-start gap-2">
      {isReady ? (
        <ButtonLink look="primary" href={`/builds/${plan.buildId}/cutting/${sheet.board.id}`}>
          Record the cutting
        </ButtonLink>
      ) : null}
      {isLive ? (
        <Tap look="quiet" action={holdLonger} hidden={ids}>
          Hold it longer
        </Tap>
      ) : null}
      <AskFirst
        label={isLive ? 'Let it go' : 'Take the request back'}
        look="quiet"
        question={isLive ? `Let board ${sheet.board.number} go?` : 'Take the request back?'}
        consequence="Anyone else may then take it for a build of their own."
        yes={isLive ? 'Let it go' : 'Take it back'}
        action={letGo}
        hidden={ids}
      />
    </div>
  )
}
