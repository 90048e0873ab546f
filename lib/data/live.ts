/**
 * Which topics a member may follow. A topic is `pool`, `hardware`, `builds`, `designs`, `stations`, `members` or `shop`,
 * or a kind and an id: `plan:…`, `build:…`, `board:…`, `station:…`, `member:…`. All members see the shop's boards,
 * builds and stations; what waits for a member is told to that member alone. Tests: tests/data/live.test.ts
 */
import 'server-only'
import { z } from 'zod'
import { err, ok } from '#lib/core/units/result'
import { refusal } from '#lib/shop/refusal'
import { query } from './action'

const MAX_TOPICS = 20
const TOPIC =
  /^(pool|hardware|builds|designs|stations|members|shop|(plan|build|board|station|member|teardown):[0-9a-f-]{36})$/

export const follow = query({
  audience: 'member',
  input: z.object({
    topics: z
      .array(z.string().regex(TOPIC, 'There is no such topic.'))
      .min(1, 'Name a topic.')
      .max(MAX_TOPICS, `At most ${MAX_TOPICS} topics.`),
  }),
  run: async (actor, { topics }) => {
    const others = topics.some((t) => t.startsWith('member:') && t !== `member:${actor.memberId}`)
    return others ? err(refusal('notAllowed')) : ok({ topics: [...new Set(topics)] })
  },
})
