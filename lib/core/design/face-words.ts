/** What faces are called in sentences: drawings, notes of parts, set-ups. */
import type { FaceName } from './model'

export const FACE_WORDS: Readonly<Record<FaceName, string>> = {
  endA: 'end A',
  endB: 'end B',
  edgeA: 'edge A',
  edgeB: 'edge B',
  faceA: 'face A',
  faceB: 'face B',
}

/** @example capital('edge A') //=> 'Edge A' */
export const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
