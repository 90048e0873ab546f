/**
 * Published and constructed cases, each by its id in the project's fact sheet with the number that it must give. A list
 * of the ids that there are stands beside them, so that none can go missing or be judged twice.
 */
import { describe, expect, it } from 'vitest'

export interface PublishedCase {
  /** Topic and number of the fact sheet: «screw-02». */
  readonly id: string
  /** What it is, and whose number. */
  readonly is: string
  readonly expected: number
  /** Largest difference, in the unit of `expected`. */
  readonly within: number
  readonly got: () => number
}

/** @param topics the numbers that each topic of the fact sheet has */
export function judgePublishedCases(
  topics: Readonly<Record<string, readonly number[]>>,
  cases: readonly PublishedCase[],
): void {
  const listed = Object.entries(topics).flatMap(([topic, numbers]) =>
    numbers.map((n) => `${topic}-${String(n).padStart(2, '0')}`),
  )
  it('every case of the fact sheet is judged', () => {
    const judged = new Set(cases.map(({ id }) => id.replace(/[a-z]$/, '')))
    expect([...judged].sort()).toEqual([...listed].sort())
    expect(new Set(cases.map(({ id }) => id)).size).toBe(cases.length)
  })
  for (const topic of Object.keys(topics))
    describe(topic, () => {
      it.each(cases.filter(({ id }) => id.startsWith(`${topic}-`)))('$id: $is: $expected', (one) => {
        expect(Math.abs(one.got() - one.expected)).toBeLessThanOrEqual(one.within)
      })
    })
}
