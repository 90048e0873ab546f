// How to add your actions to the authorisation test (../authorisation.test.ts):
//
// 1. Make `tests/data/authorisation/<slice>.ts` that exports `cases: AuthorisationCases`, one entry an exported
//    action or query of lib/data that is neither `shared` nor for admins only. Its key is file and export: 'holds.release'.
// 2. `refused`: arrange something that belongs to someone else and return the input that would touch it. The test
//    calls the action as a stranger, wants notAllowed or notFound, and compares `state()` before and after.
//    The stranger is a plain member, or the keeper of another station where the audience is 'keeper'; return
//    `stranger` to have another.
// 3. `ownOnly`: for what is called without naming anyone's row (a list of mine, a new one of mine). Arrange something
//    of someone else's; the call as stranger may succeed, and `check` gets its value and must throw when anything of
//    the other's came out; `state()` is compared too.
// 4. `open`: for audience 'anyone' only, with the reason why nothing of anyone's can be touched.
//
// Nobody, the wrong role and made-by-action() are checked for every export without an entry.
import type { Actor } from '#lib/shop/actor'

interface Arranged {
  readonly input: unknown
  /** What must be the same before and after: rows of the one who was not asked. */
  readonly state: () => Promise<unknown>
  readonly stranger?: Actor
}

export type AuthorisationCase =
  | { readonly refused: () => Promise<Arranged> }
  | { readonly ownOnly: () => Promise<Arranged & { readonly check: (value: unknown) => void }> }
  | { readonly open: string }

export type AuthorisationCases = Readonly<Record<string, AuthorisationCase>>
