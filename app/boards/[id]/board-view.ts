import type { board } from '#lib/data/boards'

/** All that the page of a board shows. */
export type BoardView = Extract<Awaited<ReturnType<typeof board>>, { ok: true }>['value']
