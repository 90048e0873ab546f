import { expect } from 'vitest'
import { crateRecipe } from '#lib/core/design/designs/crate/crate-recipe'
import { database } from '#lib/data/client'
import { copy, share } from '#lib/data/own-designs'
import { member } from '../arrange'
import { must } from '../arrange-build'
import type { AuthorisationCases } from './case'

/** Someone else's design. */
async function theirs(isShared = false) {
  const owner = await member('member', 'Owner')
  const { designId } = must(await copy(owner, { from: 'crate', name: 'Theirs' }))
  if (isShared) must(await share(owner, { designId, sharing: 'shop' }))
  const state = () =>
    database().ownDesign.findUnique({ where: { id: designId }, include: { versions: true } })
  return { designId, state }
}

const ofDesign = (more: object, isShared: boolean) => ({
  refused: async () => {
    const { designId, state } = await theirs(isShared)
    return { input: { designId, ...more }, state }
  },
})

export const cases: AuthorisationCases = {
  'own-designs.copy': {
    refused: async () => {
      const { designId, state } = await theirs()
      return { input: { from: `own:${designId}@1`, name: 'Mine' }, state }
    },
  },
  'own-designs.save': ofDesign({ version: 1, recipe: crateRecipe, note: '' }, true),
  'own-designs.share': ofDesign({ sharing: 'mine' }, true),
  'own-designs.remove': ofDesign({}, true),
  'own-designs.open': ofDesign({}, false),
  'own-designs.recipe': {
    refused: async () => {
      const { designId, state } = await theirs()
      return { input: { designId: `own:${designId}@1` }, state }
    },
  },
  'own-designs.offered': {
    ownOnly: async () => {
      const { designId, state } = await theirs()
      return { input: {}, state, check: (value) => expect(JSON.stringify(value)).not.toContain(designId) }
    },
  },
}
