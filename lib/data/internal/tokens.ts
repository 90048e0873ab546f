import 'server-only'
import { createHash, randomBytes } from 'node:crypto'

/** 256 random bits for a link: cannot be guessed, so tries at it need no counting. */
export const randomToken = (): string => randomBytes(32).toString('base64url')

/** What is kept of a one-time token. A plain SHA-256 does: the token is as random as the hash. */
export const tokenHash = (token: string): string => createHash('sha256').update(token).digest('hex')
