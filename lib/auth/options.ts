import 'server-only'
import type { NextAuthOptions } from 'next-auth'
import CredentialsProvider from 'next-auth/providers/credentials'
import { signIn } from '#lib/data/sign-in'

/** Sessions last this long from signing in; removal and password changes end them sooner (session.ts). */
const SESSION_SECONDS = 30 * 24 * 3600

interface Headers {
  readonly [name: string]: string | undefined
}

/**
 * The address that a try came from: the last one in X-Forwarded-For, which is what the nearest proxy saw, or what
 * Next saw when there is none. Without a proxy a caller can forge it; the limit by e-mail holds all the same.
 */
export function addressOf(headers: Headers | undefined): string {
  const last = headers?.['x-forwarded-for']?.split(',').at(-1)?.trim()
  return last ? last.slice(0, 100) : 'unknown'
}

/**
 * E-mail and password, sessions in a signed and encrypted cookie (HttpOnly, SameSite=Lax, Secure under https). The
 * cookie holds who and which session version only; rights are looked up at every request.
 */
export const authOptions: NextAuthOptions = {
  session: { strategy: 'jwt', maxAge: SESSION_SECONDS },
  pages: { signIn: '/sign-in', error: '/sign-in' },
  providers: [
    CredentialsProvider({
      name: 'E-mail and password',
      credentials: { email: { type: 'email' }, password: { type: 'password' } },
      authorize: async (typed, request) => {
        const address = addressOf(request.headers as Headers | undefined)
        const result = await signIn(null, { email: typed?.email, password: typed?.password, address })
        // The page turns the code into its sentence.
        if (!result.ok) throw new Error(result.error.code === 'badInput' ? 'signInFailed' : result.error.code)
        return { id: result.value.memberId, sessionVersion: result.value.sessionVersion }
      },
    }),
  ],
  callbacks: {
    jwt: ({ token, user }) =>
      user ? { memberId: user.id, sessionVersion: user.sessionVersion, sub: user.id } : token,
    session: ({ session, token }) => ({
      expires: session.expires,
      memberId: token.memberId,
      sessionVersion: token.sessionVersion,
    }),
  },
}

declare module 'next-auth' {
  interface User {
    id: string
    sessionVersion: number
  }
  interface Session {
    memberId: string
    sessionVersion: number
  }
}

declare module 'next-auth/jwt' {
  interface JWT {
    memberId: string
    sessionVersion: number
  }
}
