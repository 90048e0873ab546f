/**
 * Answers that were worked out, kept by the text of their question: at most so many, the oldest goes first.
 * For pure answers only: one that is kept is as good as one worked out anew. Tests: tests/core/units/kept.test.ts
 */

/** @example const kept = new Kept<number>(2); kept.set('a', 1); kept.get('a') //=> 1 */
export class Kept<T> {
  readonly #answers = new Map<string, T>()

  /** @param most whole, at least 1 @throws RangeError naming it otherwise */
  constructor(private readonly most: number) {
    if (!Number.isInteger(most) || most < 1)
      throw new RangeError(`most: ${most} is not a whole number from 1`)
  }

  has(question: string): boolean {
    return this.#answers.has(question)
  }

  get(question: string): T | undefined {
    return this.#answers.get(question)
  }

  set(question: string, answer: T): void {
    this.#answers.delete(question)
    if (this.#answers.size >= this.most) this.#answers.delete(this.#answers.keys().next().value as string)
    this.#answers.set(question, answer)
  }

  /** The answer that is kept, or the one worked out now. An error is thrown on and nothing is kept. */
  orElse(question: string, workOut: () => T): T {
    if (this.#answers.has(question)) return this.#answers.get(question) as T
    const answer = workOut()
    this.set(question, answer)
    return answer
  }
}
