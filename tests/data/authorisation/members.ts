import type { AuthorisationCases } from './case'

export const cases: AuthorisationCases = {
  'sign-in.signIn': { open: 'gives nothing without the password, and its tries are counted' },
}
