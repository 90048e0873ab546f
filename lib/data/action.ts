import 'server-only'
import { z } from 'zod'
import { err, type Result } from '#lib/core/units/result'
import { type Actor, type Audience, isAmong } from '#lib/shop/actor'
import { fieldsOf } from '#lib/shop/fields'
import { type Refusal, refusal } from '#lib/shop/refusal'

/**
 * Everything that `lib/data` offers is an action or a query made here: it names who may call it, checks what it is
 * given, and returns a Result. A test walks over all exports of `lib/data` and calls each as nobody, in the wrong
 * role and as another member, so a new one cannot be forgotten.
 */
export interface Action<In, Out> {
  (actor: Actor | null, input: unknown): Promise<Result<Out, Refusal>>
  readonly kind: 'action' | 'query'
  readonly audience: Audience
  readonly input: z.ZodType<In>
  /** Said where anyone of the audience may call it on anything: nothing in it belongs to one member. */
  readonly shared: boolean
}

interface Definition<In, Out> {
  readonly audience: Audience
  readonly input: z.ZodType<In>
  readonly shared?: boolean
  readonly run: (actor: Actor, input: In) => Promise<Result<Out, Refusal>>
}

/** Who calls an action that is open to anyone and is not signed in. */
const NOBODY: Actor = { memberId: '00000000-0000-0000-0000-000000000000', name: '', role: 'member' }

function define<In, Out>(kind: 'action' | 'query', d: Definition<In, Out>): Action<In, Out> {
  const call = async (actor: Actor | null, input: unknown): Promise<Result<Out, Refusal>> => {
    if (!actor && d.audience !== 'anyone') return err(refusal('notSignedIn'))
    if (!isAmong(actor, d.audience)) return err(refusal('notAllowed'))
    const parsed = d.input.safeParse(input)
    if (!parsed.success) return err(refusal('badInput', { fields: fieldsOf(parsed.error) }))
    return d.run(actor ?? NOBODY, parsed.data)
  }
  return Object.assign(call, {
    kind,
    audience: d.audience,
    input: d.input,
    shared: d.shared ?? false,
  })
}

/** Something that changes the shop. */
export const action = <In, Out>(d: Definition<In, Out>): Action<In, Out> => define('action', d)
/** Something that only reads. */
export const query = <In, Out>(d: Definition<In, Out>): Action<In, Out> => define('query', d)

/** For queries that need nothing. */
export const nothing = z.object({}).optional()
export const id = z.uuid('That is not there (any more).')
