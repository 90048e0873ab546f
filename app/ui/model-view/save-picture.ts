/** Hands a picture to the browser as a file to keep. */

/** @example fileName('Counter seat, oak') //=> 'counter-seat-oak.png' */
export const fileName = (title: string): string =>
  `${
    title
      .toLowerCase()
      .replace(/[^\p{L}\p{N}]+/gu, '-')
      .replace(/^-+|-+$/g, '')
      .slice(0, 80) || 'model'
  }.png`

export function savePicture(picture: Blob, title: string): void {
  const address = URL.createObjectURL(picture)
  const link = document.createElement('a')
  link.href = address
  link.download = fileName(title)
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
