'use client'
import clsx from 'clsx'
import { Undo2 } from 'lucide-react'
import { useRouter } from 'next/navigation'
import { useEffect, useMemo, useState, useTransition } from 'react'
import { differences } from '#lib/core/design/recipe/differences'
import type { Recipe } from '#lib/core/design/recipe/recipe'
import type { LengthUnit } from '#lib/core/units/inches'
import { inReadersUnits } from '../../builds/[id]/design/in-readers-units'
import { ModelPanel } from '../../builds/[id]/design/model-panel'
import { Button, buttonClass } from '../../ui/button'
import { Notice } from '../../ui/notice'
import { type SavedRecipe, saveRecipe } from '../actions'
import { DifferencesList } from '../differences-list'
import type { NameHint } from './formula-input'
import { type Bench, RecipeFields } from './recipe-field'
import { PIECE_FIELDS, ROOMS } from './room-fields'
import { RoomTable } from './room-table'
import { useJudged, useRecipe } from './use-recipe'

interface EditorProps {
  readonly designId: string
  readonly start: Recipe
  readonly newest: { readonly version: number; readonly recipe: Recipe }
  readonly units: LengthUnit
  readonly mayChange: boolean
}

const UNREACHABLE: SavedRecipe = {
  ok: false,
  isClash: false,
  sentence: 'The shop could not be reached. Nothing was saved; what you typed is kept.',
  fields: {},
}

const TABS = [...ROOMS, { id: 'piece', title: 'The piece' }] as const
type TabId = (typeof TABS)[number]['id']

const tabOf = (path: string): TabId => TABS.find(({ id }) => path.split('.')[0] === id)?.id ?? 'piece'

/** Names for formulas, with what each is and what it is worth. */
function hintsOf(recipe: Recipe, worth: Bench['worth']): NameHint[] {
  const own = recipe.parameters.map((p) => ({ name: p.id, note: `${p.label}: ${p.default}` }))
  const derived = recipe.derived.map((d, i) => ({
    name: d.id,
    note: [d.note, worth[`derived.${i}.formula`]].filter(Boolean).join(': '),
  }))
  const fixed = [
    ['n', 'number of the copy, from 1'],
    ['i', 'number of the copy, from 0'],
    ['atRight', 'at the right'],
    ['atBack', 'at the back'],
    ['shank(screwSize)', 'thickness of a screw'],
    ...['min', 'max', 'round', 'floor', 'ceil', 'sqrt', 'sin', 'cos', 'tan', 'atan2'].map((f) => [
      `${f}(`,
      'function',
    ]),
  ].map(([name, note]) => ({ name, note }))
  return [...own, ...derived, ...fixed]
}

/** The recipe in rows, and the piece that it makes beside it; every change is seen at once. */
export function Editor({ designId, start, newest, units, mayChange }: EditorProps) {
  const router = useRouter()
  const [base, setBase] = useState(newest.version)
  const edit = useRecipe(designId, base, start)
  const live = useJudged(edit.recipe)
  const [tab, setTab] = useState<TabId>('parameters')
  const [note, setNote] = useState('')
  const [isBusy, startSaving] = useTransition()
  const [last, setLast] = useState<{ answer: SavedRecipe; of: Recipe } | null>(null)
  const answer = last && (last.of === edit.recipe || last.answer.ok) ? last.answer : null
  const refused = answer && !answer.ok ? answer.fields : null
  const { found, remarks, worth } = useMemo(() => {
    const said = (all: Readonly<Record<string, string>>) => inReadersUnits(all, units)
    const { faults, refusals, remarks, worth } = live.judged
    return { found: { ...faults, ...said(refusals) }, remarks: said(remarks), worth: said(worth) }
  }, [live.judged, units])
  const faults = useMemo(() => ({ ...refused, ...found }), [refused, found])
  const names = useMemo(() => hintsOf(edit.recipe, worth), [edit.recipe, worth])
  const bench: Bench = { edit, faults, remarks, worth, names, readOnly: !mayChange }
  const isDirty = JSON.stringify(edit.recipe) !== JSON.stringify(newest.recipe)
  const isBehind = newest.version > base
  // Nothing typed: the newer version takes the place of the old one.
  useEffect(() => {
    if (isBehind && edit.steps === 0) {
      edit.put(newest.recipe)
      setBase(newest.version)
    }
  }, [isBehind, edit, newest])
  const save = (over = base) =>
    startSaving(async () => {
      const recipe = edit.recipe
      const sent = await saveRecipe({ designId, version: over, recipe, note }).catch(() => UNREACHABLE)
      setLast({ answer: sent, of: recipe })
      if (!sent.ok) {
        if (sent.isClash) router.refresh()
        return
      }
      setBase(sent.version)
      edit.put(recipe)
      setNote('')
    })
  const fault = Object.values(faults)[0]
  /** Turns to the field at fault and opens its row. */
  const showFault = (form: HTMLFormElement, path: string) => {
    setTab(tabOf(path))
    requestAnimationFrame(() => {
      const field = form.querySelector<HTMLElement>('[aria-invalid="true"]')
      const row = field?.closest('details')
      if (row) row.open = true
      field?.focus()
    })
  }
  return (
    <div className="grid gap-x-10 gap-y-8 lg:grid-cols-[minmax(0,1fr)_minmax(0,26rem)]">
      <div className="min-w-0 self-start lg:sticky lg:top-0 lg:order-2 lg:max-h-dvh lg:overflow-y-auto lg:py-4">
        {live.failed ? (
          <Notice level="stop">
            The reader of formulas could not be fetched. Look whether you are online, and reload.
          </Notice>
        ) : (
          <ModelPanel title={edit.recipe.name} live={live} fault={fault} units={units} />
        )}
      </div>
      <form
        aria-label="Recipe of the design"
        noValidate
        className="grid min-w-0 grid-cols-[minmax(0,1fr)] content-start gap-5 lg:order-1"
        onSubmit={(event) => {
          event.preventDefault()
          const [first] = Object.keys(found)
          if (first === undefined) save()
          else showFault(event.currentTarget, first)
        }}
      >
        <Tabs tab={tab} pick={setTab} faults={faults} recipe={edit.recipe} />
        {ROOMS.map((room) => (
          <section key={room.id} aria-label={room.title} hidden={tab !== room.id}>
            {tab === room.id ? <RoomTable room={room} bench={bench} /> : null}
          </section>
        ))}
        {tab === 'piece' ? <RecipeFields fields={PIECE_FIELDS} at="" bench={bench} /> : null}
        {mayChange ? (
          <div className="sticky bottom-[calc(3.55rem+env(safe-area-inset-bottom))] z-20 -mx-4 grid gap-3 border-t border-hairline-strong bg-paper px-4 py-2.5 sm:-mx-8 sm:px-8 md:bottom-0 lg:mx-0 lg:px-0">
            {answer && !answer.ok ? (
              <Notice level="stop" role="alert">
                {answer.sentence}
              </Notice>
            ) : null}
            {isBehind && edit.steps > 0 ? (
              <Notice level="caution" title={`Version ${newest.version} was saved meanwhile`}>
                <p>What you typed is kept. This is how the newest version differs from yours:</p>
                <div className="mt-1 max-h-48 overflow-y-auto">
                  <DifferencesList all={differences(edit.recipe, newest.recipe)} />
                </div>
                <div className="mt-2 flex flex-wrap gap-2">
                  <Button onClick={() => save(newest.version)} disabled={isBusy}>
                    Save mine over it
                  </Button>
                  <Button
                    onClick={() => {
                      edit.put(newest.recipe)
                      setBase(newest.version)
                    }}
                  >
                    Take theirs
                  </Button>
                </div>
              </Notice>
            ) : null}
            <div className="flex flex-wrap items-center gap-x-4 gap-y-2">
              <button
                type="submit"
                className={buttonClass('primary')}
                disabled={isBusy || !isDirty}
                aria-busy={isBusy}
              >
                Save as version {base + 1}
              </button>
              <Button onClick={edit.undo} disabled={edit.steps === 0}>
                <Undo2 aria-hidden="true" className="size-4" />
                Undo
              </Button>
              <label className="flex min-w-0 flex-1 basis-48 items-center gap-2">
                <span className="text-[0.92rem] text-ink-soft">What changed</span>
                <input
                  className="control min-w-0"
                  value={note}
                  maxLength={200}
                  onChange={(event) => setNote(event.target.value)}
                />
              </label>
            </div>
            <p role="status" className="text-[0.92rem] text-ink-soft">
              {fault
                ? `${Object.keys(faults).length === 1 ? 'One field needs' : `${Object.keys(faults).length} fields need`} another look before it can be saved.`
                : answer?.ok && !isDirty
                  ? `Saved as version ${answer.version}.`
                  : isDirty
                    ? 'Not saved yet.'
                    : 'Saved.'}
            </p>
          </div>
        ) : null}
      </form>
    </div>
  )
}

interface TabsProps {
  readonly tab: TabId
  readonly pick: (tab: TabId) => void
  readonly faults: Readonly<Record<string, string>>
  readonly recipe: Recipe
}

function Tabs({ tab, pick, faults, recipe }: TabsProps) {
  const wrong = new Set(Object.keys(faults).map(tabOf))
  return (
    <fieldset className="no-scrollbar flex min-w-0 overflow-x-auto border-b border-hairline lg:flex-wrap">
      <legend className="sr-only">Part of the recipe</legend>
      {TABS.map(({ id, title }) => (
        <label
          key={id}
          className={clsx(
            'relative flex min-h-11 shrink-0 cursor-pointer items-center gap-1.5 border-b-[3px] border-transparent px-3 has-checked:border-accent has-checked:font-semibold has-focus-visible:outline-3 has-focus-visible:-outline-offset-3 has-focus-visible:outline-accent',
            wrong.has(id) && 'text-stop',
          )}
        >
          <input
            type="radio"
            name="room"
            className="sr-only"
            checked={tab === id}
            onChange={() => pick(id)}
          />
          {title}
          {id === 'piece' ? null : (
            <span className="text-[0.85rem] text-ink-soft">{recipe[id]?.length ?? 0}</span>
          )}
          {wrong.has(id) ? <span className="font-semibold">(look)</span> : null}
        </label>
      ))}
    </fieldset>
  )
}
