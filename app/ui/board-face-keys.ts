'use client'
/**
 * Marks placed, moved and resized with keys. Without a chosen mark the keys move an aim; Enter places it. A key that
 * is held goes ten steps at a time.
 */
import { type FocusEvent, type KeyboardEvent, useState } from 'react'
import { type MarkBox, markAt, moveMark, resizeMark } from '#lib/core/board/mark-edit'
import { boxOnly, type CanvasProps, type FaceView } from './board-face-view'

const HELD_STEPS = 10

const ARROWS: Readonly<Record<string, readonly [number, number]>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, -1],
  ArrowDown: [0, 1],
}

export function useFaceKeys(props: CanvasProps, view: FaceView) {
  const [isFocused, setFocused] = useState(false)
  const [cursor, setCursor] = useState<MarkBox | null>(null)
  const { board, tool, canEdit, dispatch } = props
  const { stepUm, chosen } = view

  /** What Enter would place: in the middle of the window until it is moved. */
  const aim = (): MarkBox | null => {
    if (tool === 'select') return null
    return cursor ?? markAt(tool, view.middle, board, stepUm)
  }

  const goTo = (box: MarkBox) => {
    if (chosen) dispatch({ do: 'change', key: chosen.key, to: boxOnly(box), isNudge: true })
    else setCursor(boxOnly(box))
    props.show(box)
  }

  const nudge = (event: KeyboardEvent, [x, y]: readonly [number, number]) => {
    const from = chosen ?? aim()
    if (!from) return
    const byUm = stepUm * (event.repeat ? HELD_STEPS : 1)
    goTo(
      event.shiftKey
        ? resizeMark(from, 'farEnd', x * byUm, y * byUm, board, stepUm)
        : moveMark(from, x * byUm, y * byUm, board, stepUm),
    )
  }

  const toEnd = (isStart: boolean) => {
    const from = chosen ?? aim()
    if (from) goTo(moveMark(from, isStart ? -board.lengthUm : board.lengthUm, 0, board, stepUm))
  }

  const enter = () => {
    const box = aim()
    if (chosen) dispatch({ do: 'select', key: null })
    else if (box && tool !== 'select') view.place(tool, box)
  }

  const press = (event: KeyboardEvent<SVGSVGElement>) => {
    if (!canEdit) return
    const arrow = ARROWS[event.key]
    if (arrow) nudge(event, arrow)
    else if (event.key === 'Home' || event.key === 'End') toEnd(event.key === 'Home')
    else if (event.key === 'Enter' || event.key === ' ') enter()
    else if (event.key === 'Delete' || event.key === 'Backspace') {
      if (chosen) dispatch({ do: 'remove', key: chosen.key })
    } else if (event.key === 'Escape') dispatch({ do: 'select', key: null })
    else if (event.key.toLowerCase() === 'z' && (event.ctrlKey || event.metaKey)) dispatch({ do: 'undo' })
    else return
    event.preventDefault()
  }

  return {
    aim: isFocused && !chosen && canEdit ? aim() : null,
    handlers: {
      onKeyDown: press,
      onFocus: (event: FocusEvent<SVGSVGElement>) =>
        setFocused(event.currentTarget.matches(':focus-visible')),
      onBlur: () => {
        setFocused(false)
        setCursor(null)
      },
    },
  }
}
