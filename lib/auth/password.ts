import 'server-only'
import { type Algorithm, hash, verify } from '@node-rs/argon2'

/**
 * Passwords as Argon2id hashes (RFC 9106) in PHC strings, which carry their own salt and parameters.
 * Parameters: OWASP Password Storage Cheat Sheet, Argon2id with m = 19 MiB, t = 2, p = 1.
 * Typed characters are normalised first (NIST SP 800-63B, 5.1.1.2: NFKC), so that one password typed on two
 * keyboards is one password. Tests: tests/auth/password.test.ts.
 */
export const PASSWORD_HASHING = {
  algorithm: 2 satisfies Algorithm.Argon2id,
  memoryCost: 19_456, // KiB
  timeCost: 2,
  parallelism: 1,
} as const

const normalised = (password: string) => password.normalize('NFKC')

export const hashPassword = (password: string): Promise<string> =>
  hash(normalised(password), PASSWORD_HASHING)

let hashOfNobody: Promise<string> | undefined

/**
 * Whether the password is the one that was hashed. Without a hash (nobody of that e-mail, or a removed member) it
 * spends the same time on a hash of nobody's and says no, so that the time of an answer tells nothing.
 */
export async function verifyPassword(passwordHash: string | undefined, password: string): Promise<boolean> {
  hashOfNobody ??= hashPassword(crypto.randomUUID())
  const isRight = await verify(passwordHash ?? (await hashOfNobody), normalised(password)).catch(() => false)
  return isRight && passwordHash !== undefined
}
