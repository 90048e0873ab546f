import { unstable_rethrow } from 'next/navigation'
import type { FormState } from '../form-state'

/** Sends a form. Where the shop does not answer, that is the answer: the page stays, and so does what was typed. */
export async function send(
  action: (state: FormState, form: FormData) => Promise<FormState>,
  state: FormState,
  form: FormData,
): Promise<FormState> {
  try {
    return await action(state, form)
  } catch (error) {
    unstable_rethrow(error)
    return {
      ok: false,
      sentence: 'The shop did not answer. What you entered is still here: try again when you are connected.',
      values: state.values,
      at: Date.now(),
    }
  }
}
