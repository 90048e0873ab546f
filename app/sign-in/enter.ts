import { REFUSALS, type RefusalCode } from '#lib/shop/refusal'
import type { FormState } from '../form-state'

const isCode = (code: string): code is RefusalCode => code in REFUSALS

const HERE = 'https://here.invalid'

/** Only a path within this shop, never somewhere else. @example safeNext('//evil.example') //=> '/' */
export function safeNext(next: string | undefined): string {
  if (!next?.startsWith('/') || !URL.canParse(next, HERE)) return '/'
  const { origin, pathname, search } = new URL(next, HERE)
  return origin === HERE && !pathname.startsWith('/sign-in') ? pathname + search : '/'
}

/**
 * Signs in from the browser and goes to `next`. The library comes when it is used, so that no other page carries it.
 * @returns the form's state when it did not work
 */
export async function enter(email: string, password: string, next: string): Promise<FormState> {
  const { signIn } = await import('next-auth/react')
  const answer = await signIn('credentials', { email, password, redirect: false }).catch(() => undefined)
  if (answer?.ok && !answer.error) {
    window.location.assign(safeNext(next))
    return { ok: true, at: Date.now() }
  }
  const code = answer?.error && isCode(answer.error) ? answer.error : 'busy'
  return { ok: false, code, sentence: REFUSALS[code][1], values: { email }, at: Date.now() }
}
