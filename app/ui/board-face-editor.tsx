'use client'
/**
 * A board's faces with their marks, to scale: looked at by all, drawn on by who may. Marks are placed with a mouse, a
 * finger, keys or typed figures, and saved all at once; nothing is lost when saving fails, and leaving asks first.
 * Drawing: board-face-canvas.tsx. State: board-face-marks.ts.
 */
import clsx from 'clsx'
import { Trash2, Undo2, ZoomIn, ZoomOut } from 'lucide-react'
import {
  startTransition,
  useActionState,
  useEffect,
  useLayoutEffect,
  useReducer,
  useRef,
  useState,
} from 'react'
import { DEFECT_KINDS } from '#lib/core/board/board'
import type { MarkBox } from '#lib/core/board/mark-edit'
import type { LengthUnit } from '#lib/core/units/inches'
import { sayLength } from '#lib/format/length'
import { DEFECT_WORDS, FACE_WORDS } from '#lib/shop/boards'
import { type FormState, freshForm } from '../form-state'
import type { Face, FaceMark } from './board-face'
import { BoardFaceCanvas } from './board-face-canvas'
import { BoardFaceMarkForm } from './board-face-mark-form'
import {
  beginMarks,
  type EditMark,
  type MarksEvent,
  marksAfter,
  plainMark,
  sameMarks,
} from './board-face-marks'
import { SIDE_PX, type Tool } from './board-face-view'
import { buttonClass } from './button'
import { Notice } from './notice'
import { send } from './send'

const MOST_HEIGHT_PX = 460
/** A 10 mm hole is then at least 5 px wide, and is hit within 44. */
const FINE_SCALE = 0.5
const MOST_SCALE = 6

interface EditorProps {
  readonly board: {
    readonly id: string
    readonly version: number
    readonly lengthUm: number
    readonly widthUm: number
    readonly thicknessUm: number
    readonly defects: readonly FaceMark[]
  }
  readonly units: LengthUnit
  /** Saves all marks. Absent: the faces are only looked at. */
  readonly save?: (state: FormState, form: FormData) => Promise<FormState>
}

const markWords = (mark: FaceMark, units: LengthUnit): string => {
  const say = (um: number) => sayLength(um, units)
  return `${say(mark.widthUm)} by ${say(mark.heightUm)}, at ${say(mark.xUm)} along, ${say(mark.yUm)} across`
}

/** Asks before a page with marks that are not saved is left: closed, reloaded, or by a link. */
function useAskBeforeLeaving(isDirty: boolean) {
  useEffect(() => {
    if (!isDirty) return
    const onUnload = (event: BeforeUnloadEvent) => event.preventDefault()
    const onClick = (event: MouseEvent) => {
      const link = (event.target as Element | null)?.closest?.('a[href]')
      if (!link || link.getAttribute('href')?.startsWith('#')) return
      if (window.confirm('Your marks are not saved. Leave without them?')) return
      event.preventDefault()
      event.stopPropagation()
    }
    window.addEventListener('beforeunload', onUnload)
    document.addEventListener('click', onClick, true)
    return () => {
      window.removeEventListener('beforeunload', onUnload)
      document.removeEventListener('click', onClick, true)
    }
  }, [isDirty])
}

/** Width of the drawing area, and the stretch of the board that it shows. */
function useWindow(board: { readonly lengthUm: number; readonly widthUm: number }) {
  const frame = useRef<HTMLDivElement>(null)
  const [widthPx, setWidthPx] = useState(340)
  const [zoom, setZoom] = useState<number | null>(null)
  const [wantedFromUm, setFromUm] = useState(0)
  useLayoutEffect(() => {
    const el = frame.current
    if (!el) return
    const measure = () => setWidthPx(Math.max(280, Math.floor(el.clientWidth)))
    measure()
    const observer = new ResizeObserver(measure)
    observer.observe(el)
    return () => observer.disconnect()
  }, [])
  const innerPx = widthPx - 2 * SIDE_PX
  const fit = Math.min((innerPx / board.lengthUm) * 1000, (MOST_HEIGHT_PX / board.widthUm) * 1000)
  const most = Math.max(fit, Math.min(MOST_SCALE, (MOST_HEIGHT_PX / board.widthUm) * 1000))
  const usual = Math.min(most, Math.max(fit, FINE_SCALE))
  const scale = zoom === null ? usual : Math.max(fit, Math.min(most, zoom))
  const spanUm = (innerPx / scale) * 1000
  const lastFromUm = Math.max(0, board.lengthUm - spanUm)
  const fromUm = Math.max(0, Math.min(lastFromUm, wantedFromUm))
  const show = (box: MarkBox) => {
    if (box.xUm < fromUm) setFromUm(box.xUm - spanUm * 0.1)
    else if (box.xUm + box.widthUm > fromUm + spanUm) setFromUm(box.xUm + box.widthUm - spanUm * 0.9)
  }
  const zoomBy = (factor: number) => {
    const next = Math.max(fit, Math.min(most, scale * factor))
    const middleUm = fromUm + spanUm / 2
    setZoom(next)
    setFromUm(middleUm - ((innerPx / next) * 1000) / 2)
  }
  return { frame, widthPx, scale, fit, most, fromUm, lastFromUm, spanUm, setFromUm, show, zoomBy }
}

/**
 * The marks as they are edited here, over those that are stored. When the stored ones change meanwhile they are taken
 * over, unless there is work here that would be lost: then saving goes on naming the old version, and is refused,
 * until the person has chosen.
 */
function useMarks(board: EditorProps['board'], units: LengthUnit) {
  const [state, dispatchPlain] = useReducer(marksAfter, board.defects, beginMarks)
  const [said, setSaid] = useState('')
  const [from, setFrom] = useState({ defects: board.defects, version: board.version })
  const isDirty = !sameMarks(state.marks, from.defects)
  const isBehind = !sameMarks(board.defects, from.defects)
  const stored = { defects: board.defects, version: board.version }
  const isAsStored = sameMarks(state.marks, board.defects)
  useEffect(() => {
    if (isBehind && isDirty && !isAsStored) return
    if (isBehind || from.version !== board.version)
      setFrom({ defects: board.defects, version: board.version })
    if (isBehind && !isDirty) dispatchPlain({ do: 'take', marks: board.defects })
  }, [isBehind, isDirty, isAsStored, from.version, board.defects, board.version])
  const dispatch = (event: MarksEvent) => {
    const next = marksAfter(state, event)
    const now = next.marks.find((m) => m.key === next.selected)
    dispatchPlain(event)
    if (event.do === 'remove') setSaid('Mark deleted.')
    else if (event.do === 'undo') setSaid(`Undone. ${next.marks.length} marks.`)
    else if (now)
      setSaid(`${DEFECT_WORDS[now.kind].name}, ${FACE_WORDS[now.face]}, ${markWords(now, units)}.`)
  }
  const takeStored = () => {
    setFrom(stored)
    dispatchPlain({ do: 'take', marks: board.defects })
  }
  return {
    ...state,
    version: from.version,
    said,
    isDirty,
    isBehind,
    dispatch,
    takeStored,
    keepMine: () => setFrom(stored),
  }
}

export function BoardFaceEditor({ board, units, save }: EditorProps) {
  const canEdit = save !== undefined
  const marks = useMarks(board, units)
  const view = useWindow(board)
  const [face, setFace] = useState<Face>('A')
  const [tool, setTool] = useState<Tool>('select')
  const [isThrough, setThrough] = useState(false)
  const chosen = marks.marks.find((m) => m.key === marks.selected)
  useAskBeforeLeaving(canEdit && marks.isDirty)

  /** The next mark is begun: keys aim it now and leave the last one where it is. */
  const pickTool = (next: Tool) => {
    setTool(next)
    if (next !== 'select') marks.dispatch({ do: 'select', key: null })
  }
  const choose = (mark: EditMark) => {
    if (mark.face !== 'through') setFace(mark.face)
    marks.dispatch({ do: 'select', key: mark.key })
    view.show(mark)
  }

  return (
    <div className="grid grid-cols-1 gap-4">
      <div className="flex flex-wrap items-center gap-x-5 gap-y-2">
        <Switch
          label="Face"
          options={(['A', 'B'] as const).map((value) => ({ value, label: FACE_WORDS[value] }))}
          value={face}
          onPick={setFace}
        />
        <div className="flex gap-1">
          <IconButton label="Smaller" disabled={view.scale <= view.fit} onClick={() => view.zoomBy(1 / 1.6)}>
            <ZoomOut aria-hidden="true" className="size-5" />
          </IconButton>
          <IconButton label="Larger" disabled={view.scale >= view.most} onClick={() => view.zoomBy(1.6)}>
            <ZoomIn aria-hidden="true" className="size-5" />
          </IconButton>
        </div>
      </div>
      {canEdit ? (
        <ToolChoice tool={tool} isThrough={isThrough} onTool={pickTool} onThrough={setThrough} />
      ) : null}
      <div ref={view.frame} className="-mx-4 min-w-0 bg-sheet sm:mx-0">
        <BoardFaceCanvas
          board={board}
          marks={marks.marks}
          selected={marks.selected}
          face={face}
          tool={canEdit ? tool : 'select'}
          isThrough={isThrough}
          scale={view.scale}
          fromUm={view.fromUm}
          widthPx={view.widthPx}
          units={units}
          canEdit={canEdit}
          dispatch={marks.dispatch}
          show={view.show}
        />
        {view.lastFromUm > 0 ? <Along view={view} lengthUm={board.lengthUm} marks={marks.marks} /> : null}
      </div>
      <p aria-live="polite" className="sr-only">
        {marks.said}
      </p>
      {canEdit ? (
        <div className="flex flex-wrap gap-2">
          <button
            type="button"
            className={buttonClass('plain')}
            disabled={marks.past.length === 0}
            onClick={() => marks.dispatch({ do: 'undo' })}
          >
            <Undo2 aria-hidden="true" className="size-4" /> Undo
          </button>
          <button
            type="button"
            className={buttonClass('plain')}
            disabled={!chosen}
            onClick={() => chosen && marks.dispatch({ do: 'remove', key: chosen.key })}
          >
            <Trash2 aria-hidden="true" className="size-4" /> Delete mark
          </button>
        </div>
      ) : null}
      {save ? <Saving board={board} units={units} marks={marks} save={save} /> : null}
      <MarkList marks={marks.marks} selected={marks.selected} units={units} onChoose={choose} />
      {canEdit ? (
        <details className="border-t border-hairline pt-2" open={chosen ? true : undefined}>
          <summary className="min-h-11 py-2 font-medium">
            {chosen ? `${DEFECT_WORDS[chosen.kind].name} in figures` : 'Add a mark by typing its figures'}
          </summary>
          <BoardFaceMarkForm
            key={chosen ? JSON.stringify(chosen) : 'new'}
            board={board}
            units={units}
            mark={chosen}
            take={(mark) =>
              marks.dispatch(
                chosen ? { do: 'change', key: chosen.key, to: mark } : { do: 'add', mark: plainMark(mark) },
              )
            }
          />
        </details>
      ) : null}
    </div>
  )
}

interface SwitchProps<V extends string> {
  readonly label: string
  readonly options: readonly { readonly value: V; readonly label: string }[]
  readonly value: V
  readonly onPick: (value: V) => void
}

function Switch<V extends string>({ label, options, value, onPick }: SwitchProps<V>) {
  return (
    <fieldset className="flex flex-wrap gap-1">
      <legend className="sr-only">{label}</legend>
      {options.map((o) => (
        <button
          key={o.value}
          type="button"
          aria-pressed={o.value === value}
          onClick={() => onPick(o.value)}
          className={clsx(
            'min-h-11 border px-3 py-1.5',
            o.value === value
              ? 'border-accent bg-accent-wash font-semibold'
              : 'border-hairline-strong bg-sheet',
          )}
        >
          {o.label}
        </button>
      ))}
    </fieldset>
  )
}

function IconButton({ label, ...rest }: { readonly label: string } & React.ComponentProps<'button'>) {
  return (
    <button type="button" aria-label={label} className={buttonClass('plain', 'min-w-11 px-2')} {...rest} />
  )
}

const TOOLS = [
  { value: 'select' as const, label: 'Choose, move' },
  ...DEFECT_KINDS.map((value) => ({
    value,
    label: `${DEFECT_WORDS[value].letter} · ${DEFECT_WORDS[value].name}`,
  })),
]

interface ToolProps {
  readonly tool: Tool
  readonly isThrough: boolean
  readonly onTool: (tool: Tool) => void
  readonly onThrough: (isThrough: boolean) => void
}

function ToolChoice({ tool, isThrough, onTool, onThrough }: ToolProps) {
  return (
    <div className="grid gap-1">
      <Switch label="What to mark" options={TOOLS} value={tool} onPick={onTool} />
      {tool === 'select' ? (
        <p className="text-[0.88rem] text-ink-soft">Choose a kind, then tap or drag on the face.</p>
      ) : (
        <>
          <label className="inline-flex min-h-11 items-center gap-3 justify-self-start">
            <input
              type="checkbox"
              checked={isThrough}
              onChange={(e) => onThrough(e.target.checked)}
              className="size-6 accent-[var(--accent)]"
            />
            It goes right through the board
          </label>
          <p className="text-[0.88rem] text-ink-soft">
            Tap for one of the usual size, or drag over it. With keys: arrows move, Shift and arrows resize,
            Enter places, Delete removes.
          </p>
        </>
      )}
    </div>
  )
}

interface AlongProps {
  readonly view: ReturnType<typeof useWindow>
  readonly lengthUm: number
  readonly marks: readonly EditMark[]
}

/** The whole board small, and which stretch of it is shown; a slider moves the stretch. */
function Along({ view, lengthUm, marks }: AlongProps) {
  const share = (um: number) => `${(um / lengthUm) * 100}%`
  return (
    <div className="px-4 pb-1">
      <div className="relative h-3 border border-ink bg-wood" aria-hidden="true">
        {marks.map((d) => (
          <span
            key={d.key}
            className="absolute inset-y-0 min-w-0.5 bg-wood-ink"
            style={{ left: share(d.xUm), width: share(d.widthUm) }}
          />
        ))}
        <span
          className="absolute -inset-y-1 border-2 border-accent"
          style={{ left: share(view.fromUm), width: share(Math.min(view.spanUm, lengthUm)) }}
        />
      </div>
      <input
        type="range"
        aria-label="Which stretch of the board is shown"
        className="block h-11 w-full accent-[var(--accent)]"
        min={0}
        max={Math.ceil(view.lastFromUm / 1000)}
        value={Math.round(view.fromUm / 1000)}
        onChange={(e) => view.setFromUm(Number(e.target.value) * 1000)}
      />
    </div>
  )
}

interface MarkListProps {
  readonly marks: readonly EditMark[]
  readonly selected: string | null
  readonly units: LengthUnit
  readonly onChoose: (mark: EditMark) => void
}

function MarkList({ marks, selected, units, onChoose }: MarkListProps) {
  if (marks.length === 0) return <p className="text-ink-soft">No damage is marked on this board.</p>
  return (
    <ul aria-label="Marks" className="grid gap-x-6 sm:grid-cols-2">
      {marks.map((mark) => (
        <li key={mark.key} className="border-b border-hairline">
          <button
            type="button"
            aria-pressed={mark.key === selected}
            onClick={() => onChoose(mark)}
            className={clsx(
              'flex min-h-11 w-full items-baseline gap-3 px-1 py-2 text-left',
              mark.key === selected && 'bg-accent-wash font-semibold',
            )}
          >
            <span className="grid size-6 shrink-0 place-items-center self-center border border-ink bg-sheet text-[0.85rem] font-bold">
              {DEFECT_WORDS[mark.kind].letter}
            </span>
            <span>
              {DEFECT_WORDS[mark.kind].name},{' '}
              {FACE_WORDS[mark.face].toLowerCase().replace(/ ([ab])$/, (l) => l.toUpperCase())}:{' '}
              {markWords(mark, units)}
            </span>
          </button>
        </li>
      ))}
    </ul>
  )
}

interface SavingProps {
  readonly board: EditorProps['board']
  readonly units: LengthUnit
  readonly marks: ReturnType<typeof useMarks>
  readonly save: NonNullable<EditorProps['save']>
}

function Saving({ board, units, marks, save }: SavingProps) {
  const [state, dispatch, isPending] = useActionState(
    (was: FormState, form: FormData) => send(save, was, form),
    freshForm,
  )
  const saveAll = () => {
    const form = new FormData()
    form.set('boardId', board.id)
    form.set('version', String(marks.version))
    form.set('units', units)
    form.set('defects', JSON.stringify(marks.marks.map(plainMark)))
    startTransition(() => dispatch(form))
  }
  const details = Object.entries(state.fields ?? {}).map(([path, sentence]) => {
    const nth = /^defects\.(\d+)\./.exec(path)?.[1]
    const mark = nth === undefined ? undefined : marks.marks[Number(nth)]
    return mark ? `${DEFECT_WORDS[mark.kind].name}: ${sentence}` : sentence
  })
  return (
    <div className="grid gap-2" aria-busy={isPending}>
      {state.ok === false ? (
        <Notice level="stop" role="alert">
          {state.sentence} {details.join(' ')}
        </Notice>
      ) : null}
      {marks.isBehind && marks.isDirty ? (
        <Notice level="caution" title="Changed meanwhile" role="status">
          <p>Someone changed the marks of this board while you had it open. Yours are still here.</p>
          <div className="mt-2 flex flex-wrap gap-2">
            <button type="button" className={buttonClass('plain')} onClick={marks.takeStored}>
              Take theirs
            </button>
            <button type="button" className={buttonClass('plain')} onClick={marks.keepMine}>
              Keep mine in place of theirs
            </button>
          </div>
        </Notice>
      ) : null}
      <div className="flex flex-wrap items-center gap-3">
        <button
          type="button"
          className={buttonClass('primary')}
          disabled={isPending || !marks.isDirty}
          onClick={saveAll}
        >
          Save marks
        </button>
        <span role="status" className="text-[0.92rem] text-ink-soft">
          {isPending ? 'Saving…' : marks.isDirty ? 'Not saved yet.' : state.ok ? 'Saved.' : ''}
        </span>
      </div>
    </div>
  )
}
