'use client'
/** Fewer pixels while things move, where a processor draws by itself; all of them again once they rest. */
import { useThree } from '@react-three/fiber'
import { useEffect } from 'react'

const COARSE = 0.6
const RESTS_MS = 350

/** @param changes what is drawn anew when any of them changes */
export function CoarseWhileMoving({ changes }: { changes: readonly unknown[] }) {
  const { setDpr, invalidate } = useThree()
  useEffect(() => {
    setDpr(COARSE)
    const timer = setTimeout(() => {
      setDpr(1)
      invalidate()
    }, RESTS_MS)
    return () => clearTimeout(timer)
  }, [setDpr, invalidate, ...changes])
  return null
}
