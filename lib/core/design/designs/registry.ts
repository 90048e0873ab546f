/** Every design that the shop ships. A new one is a folder beside this file and a line here. */
import type { Design } from '../model'
import { bench } from './bench/bench'
import { bookcase } from './bookcase/bookcase'
import { counterSeat } from './counter-seat/counter-seat'
import { crate } from './crate/crate'
import { plantStand } from './plant-stand/plant-stand'
import { sideTable } from './side-table/side-table'
import { splayedStool } from './splayed-stool/splayed-stool'
import { stepStool } from './step-stool/step-stool'
import { trestleTable } from './trestle-table/trestle-table'
import { wallShelf } from './wall-shelf/wall-shelf'

export const designs: readonly Design[] = [
  counterSeat,
  sideTable,
  bench,
  splayedStool,
  stepStool,
  wallShelf,
  bookcase,
  crate,
  plantStand,
  trestleTable,
]

/** @example designById('counterSeat')?.name //=> 'Counter seat on raked legs' */
export const designById = (id: string): Design | undefined => designs.find((design) => design.id === id)
