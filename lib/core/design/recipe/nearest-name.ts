/**
 * The known name that was most likely meant. Edit distance after Damerau (1964): two letters in the wrong order are
 * one slip. Case is left aside.
 */

function distance(a: string, b: string): number {
  let before: number[] = []
  let row = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const next = [i]
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1] ? 0 : 1
      next[j] = Math.min(next[j - 1] + 1, row[j] + 1, row[j - 1] + same)
      const isSwapped = i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]
      if (isSwapped) next[j] = Math.min(next[j], before[j - 2] + 1)
    }
    before = row
    row = next
  }
  return row[b.length]
}

/**
 * @returns undefined where nothing is near: more than about a third of its letters would have to change
 * @example nearestName('lenght', ['length', 'width']) //=> 'length'
 */
export function nearestName(wrong: string, known: Iterable<string>): string | undefined {
  const asked = wrong.slice(0, 60).toLowerCase()
  let best: { name: string; far: number } | undefined
  for (const name of known) {
    const far = distance(asked, name.toLowerCase())
    if (best === undefined || far < best.far) best = { name, far }
  }
  return best !== undefined && best.far <= Math.max(1, Math.ceil(asked.length / 3)) ? best.name : undefined
}
