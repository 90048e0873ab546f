'use client'
/**
 * Parts on the boards and parts of the piece: a part that is pointed at or tapped on either is marked on both. The
 * boards are drawn by the server; whatever in them carries `data-part` is listened to here. The piece in 3-D, which is
 * large, comes only when it is asked for.
 */
import dynamic from 'next/dynamic'
import { type MouseEvent, type ReactNode, useEffect, useRef, useState } from 'react'
import type { ParameterValues } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'

const Piece = dynamic(() => import('./piece'), {
  ssr: false,
  loading: () => <p className="grid min-h-64 place-items-center text-ink-soft">Drawing…</p>,
})

interface Props {
  readonly designId: string
  readonly parameters: ParameterValues
  readonly title: string
  readonly units: LengthUnit
  readonly children: ReactNode
}

const partAt = (target: EventTarget): string | null =>
  target instanceof Element ? (target.closest('[data-part]')?.getAttribute('data-part') ?? null) : null

export function PieceBeside({ designId, parameters, title, units, children }: Props) {
  const boards = useRef<HTMLDivElement>(null)
  const [isOpen, setOpen] = useState(false)
  const [picked, setPicked] = useState<string | null>(null)
  const [hovered, setHovered] = useState<string | null>(null)
  const shown = hovered ?? picked
  useEffect(() => {
    for (const el of boards.current?.querySelectorAll('[data-part]') ?? [])
      el.toggleAttribute('data-marked', el.getAttribute('data-part') === shown)
  })
  const pick = (event: MouseEvent) => {
    const part = partAt(event.target)
    if (part !== null) setPicked(part === picked ? null : part)
  }
  const pickFromPiece = (part: string | null) => {
    setPicked(part)
    const drawn =
      part === null ? null : boards.current?.querySelector(`svg [data-part="${CSS.escape(part)}"]`)
    drawn?.scrollIntoView({ block: 'nearest', inline: 'center' })
  }
  return (
    <div className="grid gap-5">
      <details
        className="sticky top-0 z-10 border border-hairline bg-sheet"
        onToggle={(event) => setOpen(event.currentTarget.open)}
      >
        <summary className="flex min-h-11 items-center px-4 font-medium text-accent">
          The piece in 3-D: point at a part there or on a board
        </summary>
        {isOpen ? (
          <div className="p-2">
            <Piece
              {...{ designId, parameters, title, units }}
              chosen={shown}
              onPick={pickFromPiece}
              onHover={setHovered}
            />
          </div>
        ) : null}
      </details>
      {/* biome-ignore lint/a11y/useKeyWithClickEvents: the list of parts under each drawing holds buttons for the keyboard */}
      {/* biome-ignore lint/a11y/noStaticElementInteractions: as above */}
      <div
        ref={boards}
        className="grid gap-6"
        onClick={pick}
        onMouseOver={(event) => setHovered(partAt(event.target))}
        onFocus={(event) => setHovered(partAt(event.target))}
        onBlur={() => setHovered(null)}
        onMouseLeave={() => setHovered(null)}
      >
        {children}
      </div>
    </div>
  )
}
