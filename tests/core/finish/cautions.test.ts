import { expect, test } from 'vitest'
import { finishCautions } from '#lib/core/finish/cautions'
import { type FinishPlan, usualCoating } from '#lib/core/finish/finish-plan'
import type { CoatKind } from '#lib/core/finish/products'
import { boards } from './boards'

const planOf = (kind: CoatKind, when: FinishPlan['when'] = 'together'): FinishPlan => ({
  when,
  regions: [{ id: 'a', name: 'a', kinds: [], faces: [], roles: [], coating: usualCoating(kind) }],
})
const said = (kind: CoatKind, when?: FinishPlan['when'], glued = false) =>
  finishCautions(boards(glued), planOf(kind, when)).map((n) => `${n.level} ${n.message}`)

test('rags with oil come first', () => expect(said('oil')[0]).toMatch(/^stop Rags/))
test('no rags for paint', () => expect(said('paint').join()).not.toMatch(/Rags/))
test('the tin goes first and lead is named, whatever is used', () => {
  for (const kind of ['oil', 'paint', 'wax', 'bare'] as const) {
    expect(said(kind).join()).toMatch(/The tin/)
    expect(said(kind).join()).toMatch(/lead/)
  }
})
test('glue faces are named where parts are finished before they are glued', () => {
  expect(said('oil', 'apart', true).join()).toMatch(/Glue faces stay bare/)
  expect(said('oil', 'apart', false).join()).not.toMatch(/Glue faces/)
  expect(said('oil', 'together', true).join()).not.toMatch(/Glue faces/)
})
test('food, where there is a table', () => {
  const table = { ...boards(), use: { kind: 'table', surfaces: ['flat'] } as const }
  expect(
    finishCautions(table, planOf('oil'))
      .map((n) => n.message)
      .join(),
  ).toMatch(/food/)
})
