'use client'
/** What this browser can draw with, and whether its user wants things to keep still. */
import { useEffect, useState } from 'react'

export type Graphics = 'none' | 'software' | 'hardware'

/** A processor that draws by itself is spared fine pixels. */
function findGraphics(): Graphics {
  try {
    const gl = document.createElement('canvas').getContext('webgl2')
    if (gl === null) return 'none'
    const info = gl.getExtension('WEBGL_debug_renderer_info')
    const name = String(gl.getParameter(info?.UNMASKED_RENDERER_WEBGL ?? gl.RENDERER))
    gl.getExtension('WEBGL_lose_context')?.loseContext()
    return /swiftshader|llvmpipe|software|basic render/i.test(name) ? 'software' : 'hardware'
  } catch {
    return 'none'
  }
}

/** Null until it is known. */
export function useGraphics(): Graphics | null {
  const [graphics, setGraphics] = useState<Graphics | null>(null)
  useEffect(() => setGraphics(findGraphics()), [])
  return graphics
}

export function usePrefersStill(): boolean {
  const [isStill, setStill] = useState(true)
  useEffect(() => {
    const query = matchMedia('(prefers-reduced-motion: reduce)')
    const read = (): void => setStill(query.matches)
    read()
    query.addEventListener('change', read)
    return () => query.removeEventListener('change', read)
  }, [])
  return isStill
}
