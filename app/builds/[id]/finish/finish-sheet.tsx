'use client'
/** The finish of a piece: its regions and what they take, beside the piece as it will look. */
import dynamic from 'next/dynamic'
import { useMemo, useRef, useState, useTransition } from 'react'
import type { FaceName, Model, ParameterValues, Part } from '#lib/core/design/model'
import { finishCautions } from '#lib/core/finish/cautions'
import {
  type FinishPlan,
  regionAt,
  USUAL_COLOUR,
  usualCoating,
  usualPlan,
} from '#lib/core/finish/finish-plan'
import { productOf } from '#lib/core/finish/products'
import { type FinishNeed, finishNeed } from '#lib/core/finish/quantities'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayArea } from '#lib/format/amount'
import { Button } from '../../../ui/button'
import { Notice } from '../../../ui/notice'
import { Facts, Section } from '../../../ui/sheet'
import { useDesign } from '../design/use-design'
import { type Kept, keepFinishPlan } from './actions'
import { type Draft, type DraftRegion, draftOf, draftRegion, freshId, planOf } from './draft'
import { RegionFields } from './region-fields'
import { sayHours, sayLitres, sayTape } from './say-finish'

const Waiting = () => <p className="grid min-h-64 place-items-center text-ink-soft">Drawing…</p>
const ModelView = dynamic(() => import('../../../ui/model-view/model-view'), { ssr: false, loading: Waiting })

interface SavedPlan {
  readonly variantId: string
  /** 0: none was kept yet. */
  readonly version: number
  readonly plan: FinishPlan | null
}

interface SheetProps {
  readonly title: string
  readonly designId: string
  readonly parameters: ParameterValues
  readonly saved: SavedPlan
  readonly units: LengthUnit
  readonly mayChange: boolean
}

export function FinishSheet({ designId, parameters, ...rest }: SheetProps) {
  const { design, failed } = useDesign(designId)
  const built = useMemo(() => design?.build(parameters), [design, parameters])
  if (failed || (built && !built.ok))
    return (
      <Notice level="stop">
        {failed
          ? 'The design could not be fetched. Look whether you are online, and reload.'
          : 'The numbers of this variant make no piece: put them right under Design first.'}
      </Notice>
    )
  return built ? <Sheet model={built.value} {...rest} /> : <Waiting />
}

/** The last plan that could be read, while a number is half typed. */
function usePlan(draft: Draft, first: FinishPlan): FinishPlan {
  const last = useRef(first)
  const plan = useMemo(() => planOf(draft), [draft])
  if (plan) last.current = plan
  return last.current
}

const UNREACHABLE: Kept = {
  ok: false,
  sentence: 'The shop could not be reached. Nothing was saved; what you typed is kept.',
}

const textOf = (plan: FinishPlan | null): string => JSON.stringify(plan)

/** The draft, what it is kept over, and whether somebody else kept another plan meanwhile. */
function useKeeping(model: Model, saved: SavedPlan) {
  const stored = useMemo(() => saved.plan ?? usualPlan(model), [saved.plan, model])
  const [base, setBase] = useState({ version: saved.version, plan: stored })
  const [draft, setDraft] = useState(() => draftOf(stored))
  const [isBusy, startKeeping] = useTransition()
  const [failed, setFailed] = useState<string | null>(null)
  const isDirty = textOf(planOf(draft)) !== textOf(planOf(draftOf(base.plan)))
  const isMeanwhile = saved.version > base.version && !isBusy
  const takeNew = (): void => {
    setBase({ version: saved.version, plan: stored })
    setDraft(draftOf(stored))
    setFailed(null)
  }
  if (isMeanwhile && !isDirty) takeNew()
  const keep = (): void => {
    const plan = planOf(draft)
    if (plan === null) {
      setFailed('Some numbers need another look.')
      return
    }
    startKeeping(async () => {
      const version = Math.max(base.version, saved.version)
      const kept = await keepFinishPlan({ variantId: saved.variantId, version, plan }).catch(
        () => UNREACHABLE,
      )
      setFailed(kept.ok ? null : kept.sentence)
      if (kept.ok) setBase({ version: kept.version, plan })
    })
  }
  return {
    draft,
    setDraft,
    base,
    isBusy,
    isDirty,
    isMeanwhile: isMeanwhile && isDirty,
    failed,
    keep,
    takeNew,
  }
}

type Keeping = ReturnType<typeof useKeeping>

function statusOf({ base, isBusy, isDirty }: Keeping): string {
  if (isBusy) return 'Saving…'
  if (isDirty) return 'Not saved yet.'
  return base.version === 0 ? 'The usual plan of this design.' : 'All saved.'
}

function KeepBar({ keeping }: { readonly keeping: Keeping }) {
  const { base, isBusy, isDirty, isMeanwhile, failed, keep, takeNew } = keeping
  return (
    <div className="grid gap-3">
      {isMeanwhile ? (
        <Notice level="caution" role="alert" title="Changed meanwhile">
          Someone else saved another plan. What you typed is kept.
        </Notice>
      ) : null}
      {failed ? (
        <Notice level="stop" role="alert">
          {failed}
        </Notice>
      ) : null}
      <div className="flex flex-wrap items-center gap-3">
        <Button look="primary" disabled={isBusy || (base.version > 0 && !isDirty)} onClick={keep}>
          {isMeanwhile ? 'Save mine over it' : base.version === 0 && !isDirty ? 'Keep this plan' : 'Save'}
        </Button>
        {isMeanwhile ? (
          <Button look="quiet" onClick={takeNew}>
            Take the new state
          </Button>
        ) : null}
        <p role="status" className="text-[0.92rem] text-ink-soft">
          {statusOf(keeping)}
        </p>
      </div>
    </div>
  )
}

interface InnerProps extends Omit<SheetProps, 'designId' | 'parameters'> {
  readonly model: Model
}

function Sheet({ model, title, saved, units, mayChange }: InnerProps) {
  const keeping = useKeeping(model, saved)
  const { draft, setDraft, base } = keeping
  const plan = usePlan(draft, base.plan)
  const need = useMemo(() => finishNeed(model, plan), [model, plan])
  const coatOf = useMemo(
    () => (part: Part, face: FaceName) => {
      const coating = regionAt(plan, part, face)?.coating
      return coating ? { kind: coating.kind, colour: coating.colour } : ({ kind: 'bare' } as const)
    },
    [plan],
  )
  return (
    <div className="grid gap-x-10 gap-y-8 lg:grid-cols-[minmax(0,26rem)_minmax(0,1fr)]">
      <div className="grid min-w-0 content-start gap-8">
        <Regions {...{ model, draft, setDraft, need, units, mayChange }} />
        {mayChange ? <KeepBar keeping={keeping} /> : null}
      </div>
      <div className="grid min-w-0 content-start gap-8">
        <div className="border border-hairline bg-sheet p-3 sm:p-4">
          <ModelView model={model} title={`${title}, finish`} units={units} coatOf={coatOf} isBare />
        </div>
        <Needs {...{ need, units }} />
        <div className="grid gap-2">
          {finishCautions(model, plan).map(({ level, message, source }) => (
            <Notice key={message} level={level}>
              {message}
              {source ? <span className="caption mt-0.5 block">{source}</span> : null}
            </Notice>
          ))}
        </div>
      </div>
    </div>
  )
}

interface RegionsProps {
  readonly model: Model
  readonly draft: Draft
  readonly setDraft: (draft: Draft) => void
  readonly need: FinishNeed
  readonly units: LengthUnit
  readonly mayChange: boolean
}

const swapped = (regions: readonly DraftRegion[], i: number, j: number): DraftRegion[] =>
  regions.map((region, k) => (k === i ? regions[j] : k === j ? regions[i] : region))

function Regions({ model, draft, setDraft, need, units, mayChange }: RegionsProps) {
  const [newest, setNewest] = useState<string | null>(null)
  const kinds = useMemo(() => [...new Set(model.parts.map((part) => part.kind))], [model])
  const { regions } = draft
  const setRegions = (next: readonly DraftRegion[]): void => setDraft({ ...draft, regions: next })
  const add = (): void => {
    const id = freshId(regions)
    const coating = usualCoating('paint', USUAL_COLOUR)
    const made = draftRegion({ id, name: 'Another region', kinds: [kinds[0]], faces: [], roles: [], coating })
    setNewest(id)
    setRegions([made, ...regions])
  }
  return (
    <Section
      title="Regions"
      note={
        mayChange ? 'A face goes to the first region that takes it; what none takes stays bare.' : undefined
      }
    >
      <When draft={draft} setDraft={setDraft} mayChange={mayChange} />
      <ol className="mt-2 divide-y divide-hairline border-y border-hairline">
        {regions.map((region, i) => (
          <RegionFields
            key={region.id}
            {...{ region, kinds, units, mayChange }}
            need={need.regions.find((r) => r.region.id === region.id)}
            isOpen={region.id === newest}
            onChange={(next) => setRegions(regions.map((one, k) => (k === i ? next : one)))}
            onUp={i > 0 ? () => setRegions(swapped(regions, i, i - 1)) : undefined}
            onDown={i < regions.length - 1 ? () => setRegions(swapped(regions, i, i + 1)) : undefined}
            onRemove={() => setRegions(regions.filter((one) => one !== region))}
          />
        ))}
        <li className="flex min-h-12 items-center gap-3 py-2 text-ink-soft">
          <span aria-hidden="true" className="size-6 shrink-0 border border-dashed border-hairline-strong" />
          <span className="flex-1">Left bare</span>
          {sayArea(need.bareMm2, units)}
        </li>
      </ol>
      {mayChange ? (
        <Button className="mt-3" onClick={add}>
          Add a region
        </Button>
      ) : null}
    </Section>
  )
}

const WHEN_WORDS = [
  ['together', 'After the parts are together'],
  ['apart', 'Before the parts are put together'],
] as const

function When({ draft, setDraft, mayChange }: Pick<RegionsProps, 'draft' | 'setDraft' | 'mayChange'>) {
  return (
    <label className="grid gap-1">
      <span className="text-[0.92rem] font-medium">When</span>
      <select
        className="control min-h-11"
        value={draft.when}
        disabled={!mayChange}
        onChange={(event) => setDraft({ ...draft, when: event.target.value as Draft['when'] })}
      >
        {WHEN_WORDS.map(([when, words]) => (
          <option key={when} value={when}>
            {words}
          </option>
        ))}
      </select>
    </label>
  )
}

function Needs({ need, units }: { readonly need: FinishNeed; readonly units: LengthUnit }) {
  const coated = need.regions.filter(({ region, areaMm2 }) => region.coating.kind !== 'bare' && areaMm2 > 0)
  const ends = coated.reduce((sum, r) => sum + r.endGrainMm2, 0)
  return (
    <Section title="What it takes">
      <Facts
        bare
        items={[
          {
            label: 'To be coated',
            value: sayArea(
              coated.reduce((sum, r) => sum + r.areaMm2, 0),
              units,
            ),
          },
          { label: 'Of it, end grain', value: sayArea(ends, units) },
          { label: 'To be masked, at most', value: sayTape(need.maskingMm, units) },
          { label: 'Drying, all coats', value: sayHours(need.hours) },
        ]}
      />
      {coated.length === 0 ? (
        <p className="mt-3 text-ink-soft">Nothing is coated: add a region, or choose a finish for one.</p>
      ) : (
        <ol className="mt-4 grid list-decimal gap-2 pl-6">
          {coated.map(({ region, litres, hours }) => {
            const { name, cureDays } = productOf(region.coating.kind)
            return (
              <li key={region.id}>
                <span className="font-medium">{region.name}:</span> {name.toLowerCase()},{' '}
                {region.coating.coats} {region.coating.coats === 1 ? 'coat' : 'coats'},{' '}
                {sayLitres(litres, units)}, {sayHours(hours)} to dry; hard after {cureDays[0]} to{' '}
                {cureDays[1]} days.
              </li>
            )
          })}
        </ol>
      )}
      <p className="caption mt-3 max-w-[62ch]">
        In this order: what is not seen before what is, colour into the wood before what seals it, wax last. A
        tenth more than the faces need, for what stays in brush and tin. End grain drinks more than the tin
        reckons with: have some to spare. Below 15 °C or in damp air, drying takes twice as long.
      </p>
    </Section>
  )
}
