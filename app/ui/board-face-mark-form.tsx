'use client'
/** One mark in figures: placing one by typing, or changing the one that is chosen. */
import { type FormEvent, useState } from 'react'
import { DEFECT_KINDS, type DefectKind } from '#lib/core/board/board'
import { validateBoard } from '#lib/core/board/validate'
import { type LengthUnit, lengthProblemSentence, parseLength } from '#lib/core/units/inches'
import { typedLength } from '#lib/format/length'
import { DEFECT_WORDS, FACE_WORDS } from '#lib/shop/boards'
import type { EditMark, NewMark } from './board-face-marks'
import { buttonClass } from './button'
import { LengthField, SelectField } from './field'

const LENGTHS = [
  { name: 'x', key: 'xUm', label: 'Along the board, from' },
  { name: 'y', key: 'yUm', label: 'Across it, from' },
  { name: 'width', key: 'widthUm', label: 'How long' },
  { name: 'height', key: 'heightUm', label: 'How wide' },
] as const

type Fields = Readonly<Record<string, string>>

const FLAT = { cupUm: 0, bowUm: 0, crookUm: 0, twistUm: 0 }

interface MarkFormProps {
  readonly board: { readonly lengthUm: number; readonly widthUm: number; readonly thicknessUm: number }
  readonly units: LengthUnit
  /** The mark that is changed; absent: a new one. */
  readonly mark?: EditMark
  readonly take: (mark: NewMark) => void
}

function readMark(
  form: FormData,
  { board, units, mark: was }: MarkFormProps,
): { mark: NewMark; errors: Fields } {
  const errors: Record<string, string> = {}
  const read = ({ name, key }: (typeof LENGTHS)[number]) => {
    const text = String(form.get(name) ?? '')
    // Shown to the nearest fraction; what nobody touched stays exact.
    if (was && text === typedLength(was[key], units)) return was[key]
    const length = parseLength(text, { unit: units })
    if (length.ok) return length.value
    errors[name] = lengthProblemSentence(length.error)
    return Number.NaN
  }
  const [xUm, yUm, widthUm, heightUm] = LENGTHS.map(read)
  const kind = String(form.get('kind')) as DefectKind
  const mark: NewMark = {
    kind,
    face: String(form.get('face')) as NewMark['face'],
    xUm,
    yUm,
    widthUm,
    heightUm,
  }
  const complaints = validateBoard({ ...board, warp: FLAT, defects: [mark] }, { unit: units })
  for (const c of complaints)
    if (c.field.startsWith('defects.0.')) errors[c.field.slice('defects.0.'.length)] ??= c.message
  return { mark, errors }
}

export function BoardFaceMarkForm(props: MarkFormProps) {
  const { units, mark, take } = props
  const [errors, setErrors] = useState<Fields>({})
  const submit = (event: FormEvent<HTMLFormElement>) => {
    event.preventDefault()
    const form = event.currentTarget
    const read = readMark(new FormData(form), props)
    setErrors(read.errors)
    const [first] = Object.keys(read.errors)
    if (first) return form.querySelector<HTMLElement>(`[name="${first}"]`)?.focus()
    take(read.mark)
    if (mark) return
    for (const { name } of LENGTHS) form.querySelector<HTMLInputElement>(`[name="${name}"]`)!.value = ''
    form.querySelector<HTMLElement>('[name="x"]')?.focus()
  }
  return (
    <form
      aria-label={mark ? 'Change this mark' : 'Add a mark'}
      onSubmit={submit}
      noValidate
      className="grid grid-cols-2 items-start gap-3 sm:grid-cols-3 lg:grid-cols-6"
    >
      <SelectField
        label="Kind"
        name="kind"
        defaultValue={mark?.kind ?? 'nailHole'}
        options={DEFECT_KINDS.map((value) => ({ value, label: DEFECT_WORDS[value].name }))}
      />
      <SelectField
        label="Seen on"
        name="face"
        defaultValue={mark?.face ?? 'A'}
        options={(['A', 'B', 'through'] as const).map((value) => ({ value, label: FACE_WORDS[value] }))}
      />
      {LENGTHS.map(({ name, key, label }) => (
        <LengthField
          key={name}
          label={label}
          name={name}
          units={units}
          error={errors[name]}
          defaultValue={mark ? typedLength(mark[key], units) : undefined}
        />
      ))}
      <div className="col-span-full">
        <button type="submit" className={buttonClass('plain')}>
          {mark ? 'Change this mark' : 'Add this mark'}
        </button>
      </div>
    </form>
  )
}
