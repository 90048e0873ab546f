'use client'
import { useState } from 'react'
import type { ParameterSpec } from '#lib/core/design/model'
import type { LengthUnit } from '#lib/core/units/inches'
import { shownRow } from '#lib/shop/compare-variants'
import type { VariantShop } from '#lib/shop/variant-figures'
import { type Column, numberRows, sumRows } from './comparison-rows'
import { ComparisonTable } from './comparison-table'
import type { ShownVariant } from './shown-variant'
import { useAnswers, useVariantDesk } from './use-answers'
import { VariantDoings } from './variant-doings'
import { VariantHead } from './variant-head'

interface SheetProps {
  readonly buildId: string
  /** The chosen one first. */
  readonly variants: readonly ShownVariant[]
  /** By design. */
  readonly specs: Readonly<Record<string, readonly ParameterSpec[]>>
  readonly names: Readonly<Record<string, string>>
  readonly shop: VariantShop
  readonly units: LengthUnit
  readonly mayChange: boolean
  readonly mayVote: boolean
  readonly isAdmin: boolean
  /** What follows from choosing another one. */
  readonly consequence: string
}

/** Pictures first, then what each comes to. */
function useWorkedOut({ variants, shop }: Pick<SheetProps, 'variants' | 'shop'>) {
  const desk = useVariantDesk()
  const of = variants.map(({ designId, parameters }) => ({ designId, parameters }))
  const pictures = useAnswers(
    desk,
    of.map((v) => ({ ...v, kind: 'picture' as const, from: 'corner' as const })),
  )
  const sums = useAnswers(
    desk,
    of.map((v) => ({ ...v, kind: 'figures' as const, shop })),
  )
  return { pictures, sums }
}

export function VariantsSheet(props: SheetProps) {
  const { variants, specs, shop, units } = props
  const { pictures, sums } = useWorkedOut(props)
  const [showsAll, setShowsAll] = useState(false)
  const columns: Column[] = variants.map((v, i) => {
    const sum = sums[i]
    return {
      name: v.name,
      specs: specs[v.designId] ?? [],
      parameters: v.parameters,
      sum: sum.state === 'done' ? sum.answer.sum : sum.state === 'refused' ? sum.sentence : null,
      pool: v.pool.text,
    }
  })
  const done = sums.filter((s) => s.state !== 'waiting').length
  const rows = {
    sums: sumRows(columns, units, shop.prices.currency).map(shownRow),
    numbers: numberRows(columns, units).map(shownRow),
  }
  const isSingle = variants.length === 1
  const seen = (list: typeof rows.sums) => (showsAll || isSingle ? list : list.filter((row) => row.differs))
  const boxMm = largestFrame(pictures)
  return (
    <div className="grid min-w-0 grid-cols-[minmax(0,1fr)] gap-4">
      <div className="flex flex-wrap items-center justify-between gap-x-6 gap-y-2">
        {isSingle ? null : (
          <label className="inline-flex min-h-11 cursor-pointer items-center gap-2">
            <input
              type="checkbox"
              checked={showsAll}
              onChange={() => setShowsAll(!showsAll)}
              className="size-5 accent-accent"
            />
            Show what is alike too
          </label>
        )}
        <Progress done={done} of={variants.length} />
      </div>
      <ComparisonTable
        columns={variants.map((v, i) => ({
          id: v.id,
          head: <VariantHead {...props} variant={v} picture={pictures[i]} boxMm={boxMm} />,
          doings: <VariantDoings {...props} variant={v} chosenId={variants.find((one) => one.chosen)?.id} />,
        }))}
        groups={[
          { name: 'What it comes to', rows: seen(rows.sums) },
          // One alone: its numbers are on the Design page.
          { name: 'Its numbers', rows: isSingle ? [] : seen(rows.numbers) },
        ]}
        isSettled={done === variants.length}
        base={variants[0].name}
      />
      <Explanation hasPrice={hasPrice(shop)} isAdmin={props.isAdmin} />
    </div>
  )
}

const hasPrice = ({ prices }: VariantShop) =>
  prices.softwoodPerM3Minor !== null || prices.hardwoodPerM3Minor !== null

type Pictures = ReturnType<typeof useWorkedOut>['pictures']

/** All pictures stand in boxes of one size, so that they are at one scale. */
function largestFrame(pictures: Pictures): readonly [number, number] | undefined {
  const sizes = pictures.flatMap((p) => {
    if (p.state !== 'done') return []
    const { min, max } = p.answer.picture.frame
    return [[max[0] - min[0], max[1] - min[1]] as const]
  })
  if (sizes.length === 0) return undefined
  return [Math.max(...sizes.map((s) => s[0])), Math.max(...sizes.map((s) => s[1]))]
}

function Progress({ done, of }: { done: number; of: number }) {
  if (done === of)
    return (
      <p role="status" className="sr-only">
        All worked out.
      </p>
    )
  return (
    <div role="status" className="flex items-center gap-3 text-[0.95rem] text-ink-soft">
      <progress max={of} value={done} aria-label="Variants worked out" className="h-2 w-32 accent-accent" />
      {done} of {of} worked out
    </div>
  )
}

/** What the figures are, and are not. */
function Explanation({ hasPrice, isAdmin }: { hasPrice: boolean; isAdmin: boolean }) {
  return (
    <details className="text-[0.95rem]">
      <summary className="min-h-11 py-2.5 font-medium">How these are reckoned</summary>
      <ul className="grid max-w-[72ch] list-disc gap-1.5 pl-5 text-ink-soft">
        <li>
          Strength margin: what the governing check can bear over what is asked of it, for sound wood. 1× just
          passes. Advice, no certificate; the Strength page tells all of it.
        </li>
        <li>
          Hours and settings: as if every part came out of a board of its own, at this shop’s machines, test
          cuts with them. Glue, finish and drying are not in them. Planning the cutting gives the real ones.
        </li>
        <li>
          That wood, new: the rough wood at the shop’s price of sawn wood a cubic metre; where no wood is
          named, softwood. Salvage from the pool costs nothing.{' '}
          {hasPrice ? null : isAdmin ? (
            <a href="/shop#prices">Set the prices</a>
          ) : (
            'An admin can set the prices.'
          )}
        </li>
      </ul>
    </details>
  )
}
