'use client'
import { useCallback, useEffect, useRef, useState } from 'react'
import { buttonClass } from '../../ui/button'
import { CheckField, LengthField, SelectField, TextArea, TextField } from '../../ui/field'
import { Form, Submit } from '../../ui/form'
import { Notice } from '../../ui/notice'
import { boardChanged } from '../actions'
import { FINISH_OPTIONS, SPECIES_OPTIONS, TERMS_OPTIONS } from '../choices'
import { type Shown, shownBoard } from '../shown-board'
import type { BoardView } from './board-view'

interface ChangeProps {
  readonly board: BoardView
  readonly units: 'mm' | 'in'
}

type Field = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement

const isTick = (field: Field): field is HTMLInputElement =>
  field instanceof HTMLInputElement && field.type === 'checkbox'
const typedIn = (field: Field) => (isTick(field) ? (field.checked ? 'on' : '') : field.value)
const put = (field: Field, value: string) => {
  if (isTick(field)) field.checked = value === 'on'
  else field.value = value
}

/**
 * The form goes on from the state that it was opened with. When the board changes meanwhile, an untouched form follows
 * it; one that was typed in says so, keeps its old version (so that saving is refused) and lets the person decide.
 */
function useSeed(board: BoardView, units: 'mm' | 'in') {
  const ref = useRef<HTMLDivElement>(null)
  const [seed, setSeed] = useState(board)
  const [isSaved, setSaved] = useState(false)
  const isBehind = board.version !== seed.version

  /** On from the new state: what was typed stays, the rest follows. */
  const follow = useCallback(
    (typedStays: boolean) => {
      const [was, is] = [shownBoard(seed, units), shownBoard(board, units)]
      for (const name of Object.keys(is) as (keyof Shown)[]) {
        const field = ref.current?.querySelector<Field>(`[name="${name}"]`)
        if (field && (!typedStays || typedIn(field) === was[name])) put(field, is[name])
      }
      setSeed(board)
    },
    [board, seed, units],
  )

  useEffect(() => {
    if (!isBehind) return
    const [was, is] = [shownBoard(seed, units), shownBoard(board, units)]
    const isTouched = (Object.keys(is) as (keyof Shown)[]).some((name) => {
      const field = ref.current?.querySelector<Field>(`[name="${name}"]`)
      return (
        field !== null && field !== undefined && typedIn(field) !== was[name] && typedIn(field) !== is[name]
      )
    })
    if (isTouched && !isSaved) return
    follow(false)
    setSaved(false)
  }, [isBehind, isSaved, board, seed, units, follow])

  return { ref, seed, isBehind, follow, noteSaved: () => setSaved(true) }
}

/** For the owner and an admin. A size that is not touched keeps its exact value, whatever units it is shown in. */
export function ChangeBoard({ board, units }: ChangeProps) {
  const { ref, seed, isBehind, follow, noteSaved } = useSeed(board, units)
  const shown = shownBoard(seed, units)
  const at = (name: keyof Shown) => ({ name, defaultValue: shown[name] })
  const length = (label: string, name: keyof Shown, help?: string) => (
    <LengthField label={label} units={units} help={help} {...at(name)} />
  )
  const exact = {
    length: seed.lengthUm,
    width: seed.widthUm,
    thickness: seed.thicknessUm,
    cup: seed.warp.cupUm,
    bow: seed.warp.bowUm,
    crook: seed.warp.crookUm,
    twist: seed.warp.twistUm,
  }
  return (
    <details className="mt-5 border-t border-hairline pt-2">
      <summary className="min-h-11 py-2 font-medium">Change measures, finish, terms or place</summary>
      <div ref={ref}>
        <Form
          action={boardChanged}
          done="Changed."
          label="Change the board"
          className="mt-2 grid gap-4"
          onDone={noteSaved}
        >
          <input type="hidden" name="boardId" value={board.id} />
          <input type="hidden" name="version" value={seed.version} />
          <input type="hidden" name="units" value={units} />
          <input type="hidden" name="shown" value={JSON.stringify(exact)} />
          {isBehind ? (
            <Behind was={shown} is={shownBoard(board, units)} onFollow={() => follow(true)} />
          ) : null}
          <div className="grid grid-cols-2 items-start gap-3 sm:grid-cols-4">
            {length('Length', 'length')}
            {length('Width', 'width')}
            {length('Thickness', 'thickness')}
            <SelectField label="Species" options={SPECIES_OPTIONS} {...at('species')} />
            {length('Cup', 'cup', 'Over its width.')}
            {length('Bow', 'bow', 'Over its length, flat side.')}
            {length('Crook', 'crook', 'Over its length, edge.')}
            {length('Twist', 'twist', 'Lift of the fourth corner.')}
          </div>
          <div className="grid items-start gap-3 sm:grid-cols-3">
            <SelectField label="Old finish" options={FINISH_OPTIONS} {...at('finish')} />
            <SelectField label="Terms" options={TERMS_OPTIONS} {...at('terms')} />
            <TextField label="Where it lies" maxLength={80} {...at('place')} />
          </div>
          <CheckField label="Preservative-treated" name="treated" defaultChecked={seed.treated} />
          <TextArea label="Notes" rows={2} maxLength={1000} {...at('notes')} />
          <div>
            <Submit>Save the board</Submit>
          </div>
        </Form>
      </div>
    </details>
  )
}

const LABELS: Readonly<Record<keyof Shown, string>> = {
  length: 'length',
  width: 'width',
  thickness: 'thickness',
  cup: 'cup',
  bow: 'bow',
  crook: 'crook',
  twist: 'twist',
  species: 'species',
  finish: 'old finish',
  terms: 'terms',
  place: 'place',
  notes: 'notes',
  treated: 'treated',
}

interface BehindProps {
  readonly was: Shown
  readonly is: Shown
  readonly onFollow: () => void
}

function Behind({ was, is, onFollow }: BehindProps) {
  const names = (Object.keys(is) as (keyof Shown)[]).filter((name) => was[name] !== is[name])
  const what = names.length > 0 ? `: ${names.map((name) => LABELS[name]).join(', ')}` : ''
  return (
    <Notice level="caution" title="Changed meanwhile" role="status">
      <p>Someone changed this board while you had it open{what}. What you typed is kept.</p>
      <button type="button" className={buttonClass('plain', 'mt-2')} onClick={onFollow}>
        Go on from the new state
      </button>
    </Notice>
  )
}
