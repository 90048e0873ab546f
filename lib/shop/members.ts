/** Rules about members that need no database. Tests: tests/shop/members.test.ts. */
export const MIN_PASSWORD_LENGTH = 10
export const MAX_PASSWORD_LENGTH = 200

/** Very common passwords of 10 characters and more (from memory of published lists), letters in lower case. */
const COMMON_PASSWORDS = new Set([
  '1234567890',
  '0123456789',
  '12345678910',
  '123456789a',
  '1234567891',
  '0987654321',
  '123123123123',
  '1q2w3e4r5t',
  '1q2w3e4r5t6y',
  '1qaz2wsx3edc',
  'qwertyuiop',
  'qwertyuiop123',
  'qwerty12345',
  'qwerty123456',
  'qwertyuiop[]',
  'asdfghjkl;',
  'asdfghjkl123',
  'zxcvbnm123',
  'password12',
  'password123',
  'password1234',
  'password12345',
  'passw0rd123',
  'p@ssw0rd123',
  'passwordpassword',
  'changeme123',
  'letmein123',
  'welcome123',
  'welcome1234',
  'iloveyou12',
  'iloveyou123',
  'sunshine123',
  'princess123',
  'football123',
  'baseball123',
  'michael123',
  'superman123',
  'administrator',
  'admin12345',
  'administrator1',
  'abcdefghij',
  'abcdefghijk',
  'abc1234567',
  'abcd123456',
  'a123456789',
  'q123456789',
  'aa12345678',
  'qazwsxedcrfv',
  'trustno1trustno1',
  'woodworking',
  'woodshop123',
  'fellowbench',
  'fellowbench1',
  'fellowbench123',
]) // prettier-ignore

/**
 * What is wrong with a new password, as a sentence, or null. Length and a list of very common ones rather than
 * rules of composition: NIST SP 800-63B, 5.1.1.2.
 * @example passwordFault('short') //=> 'Use at least 10 characters.'
 */
export function passwordFault(password: string, own: { email?: string; name?: string } = {}): string | null {
  const length = [...password].length
  if (length < MIN_PASSWORD_LENGTH) return `Use at least ${MIN_PASSWORD_LENGTH} characters.`
  if (password.length > MAX_PASSWORD_LENGTH) return `Use at most ${MAX_PASSWORD_LENGTH} characters.`
  const plain = password.normalize('NFKC').toLowerCase()
  if (COMMON_PASSWORDS.has(plain) || new Set(plain).size < 4)
    return 'Too many people use that one. Choose another; three or four unrelated words do well.'
  const isOwn = (word?: string) => word !== undefined && word !== '' && plain === word.toLowerCase()
  if (isOwn(own.email) || isOwn(own.name)) return 'Your name or e-mail is too easy to guess. Choose another.'
  return null
}
