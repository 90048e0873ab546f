/** What the address of a build's drawings asks for. Whatever makes no sense is left at what the member is used to. */
import type { LengthUnit } from '#lib/core/units/inches'
import { PAPERS, type PaperName } from '#lib/documents/sheet/paper'
import { SCALES, type ScaleDenominator } from '#lib/documents/sheet/scales'

export interface Asked {
  readonly sheet: string
  readonly paper: PaperName
  readonly units: LengthUnit
  /** Absent: the largest that fits. */
  readonly scale?: ScaleDenominator
}

export type Params = Readonly<Record<string, string | string[] | undefined>>

const isPaper = (text: string): text is PaperName => Object.hasOwn(PAPERS, text)

/** @param own the units that the member reads lengths in */
export function askedFor(params: Params, own: LengthUnit): Asked {
  const text = (name: string): string => {
    const value = params[name]
    return (Array.isArray(value) ? value[0] : value) ?? ''
  }
  const units = text('units') === 'mm' || text('units') === 'in' ? (text('units') as LengthUnit) : own
  const paper = text('paper')
  const scale = SCALES.find((one) => String(one) === text('scale'))
  return {
    sheet: text('sheet') || 'all',
    paper: isPaper(paper) ? paper : units === 'in' ? 'letter' : 'a4',
    units,
    ...(scale === undefined ? {} : { scale }),
  }
}

/** The same as a query, for links. @example queryOf({ sheet: 'all', paper: 'a4', units: 'mm' }) //=> 'sheet=all&paper=a4&units=mm' */
export const queryOf = ({ sheet, paper, units, scale }: Asked): string =>
  new URLSearchParams({
    sheet,
    paper,
    units,
    ...(scale === undefined ? {} : { scale: String(scale) }),
  }).toString()
