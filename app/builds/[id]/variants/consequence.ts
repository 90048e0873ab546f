interface Standing {
  readonly partsMade: number
  readonly boardsHeld: number
  readonly variants: readonly { readonly plan: unknown; readonly chosen: boolean }[]
}

/** What follows from choosing another variant, as things stand. */
export function choosingConsequence({ partsMade, boardsHeld, variants }: Standing): string {
  const isPlanned = variants.some((v) => v.chosen && v.plan !== null)
  return [
    'The build is made to its numbers from then on.',
    isPlanned ? 'The cut plan that there is was made for other numbers: plan again.' : '',
    boardsHeld > 0
      ? `${boardsHeld === 1 ? 'The board that is' : 'Boards that are'} held ${boardsHeld === 1 ? 'stays' : 'stay'} held.`
      : '',
    partsMade > 0
      ? `Of the ${partsMade} ${partsMade === 1 ? 'part' : 'parts'} cut already, those that do not fit are set aside.`
      : '',
  ]
    .filter(Boolean)
    .join(' ')
}
