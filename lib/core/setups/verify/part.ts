/**
 * One part: its blanks exist and are planed, staves are straightened and glued, it is ripped to its width, and every
 * operation is made once, phase after phase. Tests: tests/core/setups/verify-setups.test.ts.
 */
import type { Part } from '#lib/core/design/model'
import type { SetupKind } from '../setup-plan'
import { type Check, type Found, near, THIN_MM } from './check'
import { checkEased, checkEngraving, checkHole } from './edges-and-holes'
import { checkPlaning } from './planing'
import { checkEdgeBevel, checkEndCut, checkNotch, checkTaper } from './sawn'
import { type Leaf, parentOf, type TreeCuts, type Walked } from './trees'

const PHASES: readonly SetupKind[] = [
  'glueUp',
  'rip',
  'edgeBevel',
  'endCut',
  'notch',
  'drill',
  'countersink',
  'taper',
  'roundOver',
  'chamfer',
  'engrave',
]

export function checkPart(
  check: Check,
  walked: Walked,
  part: Part,
  blanks: readonly Leaf[],
  tree: TreeCuts,
): void {
  const own = check.all.filter((found) => found.cut.pieceId === part.id)
  for (const a of own) {
    for (const b of own) {
      if (PHASES.indexOf(a.cut.kind) < PHASES.indexOf(b.cut.kind))
        check.before(a, b, 'work on a part has an order')
    }
  }
  const first = own.toSorted((a, b) => a.at - b.at).at(0)
  for (const leaf of blanks) {
    check.before(tree.get(parentOf(leaf.pieceId)), first, 'its blank does not exist yet')
    checkPlaning(check, walked, leaf, part, tree, first)
  }
  check.expect(
    own.filter((f) => f.cut.kind === 'glueUp').length === (blanks.length > 1 ? 1 : 0),
    'missing',
    part.id,
    'glue-up',
  )
  checkJoints(
    check,
    blanks,
    own.find((f) => f.cut.kind === 'glueUp'),
  )
  checkWidth(check, part, blanks, own)
  for (const op of part.operations) checkOperation(check, part, op, own)
  const ids = new Set(part.operations.map((op) => op.id))
  for (const found of own) {
    for (const id of found.cut.operationIds ?? []) {
      check.expect(ids.has(id), 'unknown', found.cut.key, `no operation ${id}`)
    }
  }
}

/** Every edge of a stave that meets another is straightened before the glue-up: one of an outer stave, two of an inner. */
function checkJoints(check: Check, blanks: readonly Leaf[], glueUp: Found | undefined): void {
  const { jointMm } = check.input
  if (jointMm === undefined || blanks.length < 2) return
  const places = blanks.map(({ node }) => node.stave?.at ?? 0)
  blanks.forEach(({ pieceId, node }, i) => {
    const before = places.filter((at, j) => at < places[i] || (at === places[i] && j < i)).length
    const wanted = before === 0 || before === blanks.length - 1 ? 1 : 2
    const rips = check.all.filter(({ cut }) => cut.pieceId === pieceId && cut.kind === 'rip' && !cut.tree)
    check.expect(
      rips.length === wanted,
      'missing',
      pieceId,
      `${rips.length} of ${wanted} joint edges are straightened`,
    )
    rips.forEach((rip, n) => {
      const widthMm = node.widthUm / 1000 - (n + 1) * jointMm
      check.expect(
        near(rip.setup.settings.fenceMm, widthMm),
        'setting',
        rip.cut.key,
        'the fence takes another amount',
      )
      check.before(rip, glueUp, 'it is glued already')
    })
  })
}

function checkWidth(check: Check, part: Part, blanks: readonly Leaf[], own: readonly Found[]): void {
  const blankMm = blanks.reduce(
    (sum, { node }) => sum + (node.turned ? node.lengthUm : node.widthUm) / 1000,
    0,
  )
  const jointsMm = 2 * (check.input.jointMm ?? 0) * (blanks.length - 1)
  const rips = own.filter((found) => found.cut.kind === 'rip')
  if (blankMm - jointsMm - part.blank.widthMm <= THIN_MM) {
    check.expect(rips.length === 0, 'unknown', part.id, 'ripped though it has its width')
    return
  }
  const rip = check.one(rips, `${part.id}, to width`)
  if (rip === undefined) return
  check.expect(
    near(rip.setup.settings.fenceMm, part.blank.widthMm),
    'setting',
    rip.cut.key,
    'fence is not at the width',
  )
  check.limit(part.blank.lengthMm < check.input.shop.tableSaw.minRipLengthMm, 'tooShortToRip', rip.cut.key)
  check.limit(part.blank.widthMm > check.input.shop.tableSaw.maxRipMm, 'tooWideForFence', rip.cut.key)
}

function checkOperation(
  check: Check,
  part: Part,
  op: Part['operations'][number],
  own: readonly Found[],
): void {
  const making = (kind: SetupKind): readonly Found[] =>
    own.filter((found) => found.cut.kind === kind && found.cut.operationIds?.includes(op.id))
  const makes = making(op.kind === 'hole' ? 'drill' : op.kind === 'engravedField' ? 'engrave' : op.kind)
  const found = check.one(makes, `${part.id}, ${op.id}`)
  if (found === undefined) return
  if (op.kind === 'edgeBevel') checkEdgeBevel(check, part, op, found)
  if (op.kind === 'endCut') checkEndCut(check, part, op, found, own)
  if (op.kind === 'notch') checkNotch(check, part, op, found)
  if (op.kind === 'hole') checkHole(check, part, op, found, making('countersink'))
  if (op.kind === 'roundOver' || op.kind === 'chamfer') checkEased(check, part, op, found)
  if (op.kind === 'taper') checkTaper(check, part, op, found, own)
  if (op.kind === 'engravedField') checkEngraving(check, part, op, found)
}
