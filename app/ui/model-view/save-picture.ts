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

const asFile = (picture: Blob, title: string): File =>
  new File([picture], fileName(title), { type: 'image/png' })

/** Whether this browser can hand a picture on to other people, as phones do. */
export function canSharePictures(): boolean {
  const probe = new File([], 'picture.png', { type: 'image/png' })
  return navigator.canShare?.({ files: [probe] }) ?? false
}

/** Hands a picture on; who thinks better of it has failed at nothing. */
export async function sharePicture(picture: Blob, title: string): Promise<void> {
  try {
    await navigator.share({ title, files: [asFile(picture, title)] })
  } catch (error) {
    if (!(error instanceof DOMException && error.name === 'AbortError')) throw error
  }
}

export function savePicture(picture: Blob, title: string): void {
  const address = URL.createObjectURL(picture)
  const link = document.createElement('a')
  link.href = address
  link.download = fileName(title)
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
