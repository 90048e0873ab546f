import { unstable_rethrow } from 'next/navigation'
import { currentActor } from '#lib/auth/session'
import { err, type Result } from '#lib/core/units/result'
import type { Action } from '#lib/data/action'
import { type Refusal, refusal, refusalSentence } from '#lib/shop/refusal'
import type { FormState } from './form-state'

/** Passwords by the names that their fields have; the one that there is goes by `current`. */
const SECRET = /password|^current$/i

/** What was typed, to be shown again. Files and passwords are not kept. */
export function typedIn(form: FormData): Record<string, string> {
  const values: Record<string, string> = {}
  for (const [name, value] of form)
    if (typeof value === 'string' && !SECRET.test(name) && !name.startsWith('$ACTION')) values[name] = value
  return values
}

/** Calls an action as the member who is signed in. A bug becomes a refusal with a reference; nothing internal leaves. */
export async function call<In, Out>(action: Action<In, Out>, input: unknown): Promise<Result<Out, Refusal>> {
  try {
    return await action(await currentActor(), input)
  } catch (error) {
    unstable_rethrow(error)
    const reference = crypto.randomUUID().slice(0, 8)
    console.error(`[${reference}]`, error)
    return err(refusal('busy', { about: `If it stays so, tell your admin this reference: ${reference}.` }))
  }
}

/** The form's next state after `call`. On success the caller revalidates or redirects. */
export function formState<T>(result: Result<T, Refusal>, form: FormData): FormState {
  const at = Date.now()
  if (result.ok) return { ok: true, at }
  const { code, fields } = result.error
  return { ok: false, code, sentence: refusalSentence(result.error), fields, values: typedIn(form), at }
}
