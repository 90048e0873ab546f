import { expect } from 'vitest'
import { database } from '#lib/data/client'
import { add } from '#lib/data/comments'
import { show } from '#lib/data/stills'
import { chosen, make } from '#lib/data/variants'
import { cast } from '#lib/data/votes'
import { start as startWait } from '#lib/data/waits'
import { member } from '../arrange'
import { must, started } from '../arrange-build'
import { onePixel } from '../one-pixel'
import type { AuthorisationCases } from './case'

/** Someone else's build, with something that dries in it and a comment of theirs. */
async function theirs() {
  const maker = await member('member', 'Maker')
  const buildId = await started(maker)
  const wait = must(await startWait(maker, { buildId, kind: 'glue', hours: 24 }))
  const comment = must(await add(maker, { buildId, body: 'Mine.' }))
  const variant = must(await chosen(maker, { buildId }))
  const { variantId: otherId } = must(await make(maker, { fromId: variant.id, name: 'Other' }))
  must(await cast(maker, { variantId: otherId, version: 1 }))
  const picture = { variantId: otherId, version: 1, caption: 'Mine', png: onePixel() }
  const { stillId } = must(await show(maker, picture))
  const state = () =>
    database().build.findUnique({
      where: { id: buildId },
      include: {
        variants: { orderBy: { id: 'asc' }, include: { finishPlan: true, stills: true } },
        waits: true,
        comments: true,
        votes: true,
      },
    })
  return { buildId, waitId: wait.waitId, commentId: comment.commentId, variant, otherId, stillId, state }
}

const ofBuild = (more: object = {}) => ({
  refused: async () => {
    const { buildId, state } = await theirs()
    return { input: { buildId, ...more }, state }
  },
})

export const cases: AuthorisationCases = {
  'builds.start': {
    ownOnly: async () => ({
      input: { name: 'Mine', designId: 'counterSeat' },
      state: (await theirs()).state,
      check: (value) => expect(value).toEqual({ buildId: expect.any(String) }),
    }),
  },
  'builds.describe': ofBuild({ name: 'Taken over', notes: '' }),
  'builds.finish': ofBuild(),
  'builds.abandon': ofBuild(),
  'builds.reopen': ofBuild(),
  'variants.save': {
    refused: async () => {
      const { variant, state } = await theirs()
      return { input: { variantId: variant.id, version: 1, parameters: { rake: 3 } }, state }
    },
  },
  'finish-plans.save': {
    refused: async () => {
      const { variant, state } = await theirs()
      return { input: { variantId: variant.id, version: 0, plan: { when: 'apart', regions: [] } }, state }
    },
  },
  'variants.takeVersion': {
    refused: async () => {
      const { variant, state } = await theirs()
      return { input: { variantId: variant.id, version: 1, designId: 'counterSeat' }, state }
    },
  },
  'variants.make': {
    refused: async () => {
      const { variant, state } = await theirs()
      return { input: { fromId: variant.id, name: 'Mine' }, state }
    },
  },
  'variants.rename': {
    refused: async () => {
      const { variant, state } = await theirs()
      return { input: { variantId: variant.id, name: 'Mine' }, state }
    },
  },
  'variants.remove': {
    refused: async () => {
      const { otherId, state } = await theirs()
      return { input: { variantId: otherId }, state }
    },
  },
  'variants.choose': {
    refused: async () => {
      const { variant, otherId, state } = await theirs()
      return { input: { variantId: otherId, version: 1, insteadOfId: variant.id }, state }
    },
  },
  // Of one's own vote alone: there is none here.
  'votes.takeBack': ofBuild(),
  'comments.remove': {
    refused: async () => {
      const { commentId, state } = await theirs()
      return { input: { commentId }, state }
    },
  },
  'stills.remove': {
    refused: async () => {
      const { stillId, state } = await theirs()
      return { input: { stillId }, state }
    },
  },
  'waits.start': ofBuild({ kind: 'paint', hours: 4 }),
  'waits.clear': {
    refused: async () => {
      const { waitId, state } = await theirs()
      return { input: { waitId }, state }
    },
  },
  'waits.lengthen': {
    refused: async () => {
      const { waitId, state } = await theirs()
      return { input: { waitId, hours: 3 }, state }
    },
  },
  'today.mine': {
    ownOnly: async () => {
      const { buildId, state } = await theirs()
      return {
        input: {},
        state,
        check: (value) => expect(JSON.stringify(value)).not.toContain(buildId),
      }
    },
  },
}
