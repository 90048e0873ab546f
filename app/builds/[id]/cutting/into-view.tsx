'use client'
import { useEffect, useRef } from 'react'

/** Brings the page to where it stands as soon as it is there: what was asked for at the bottom is answered at the top. */
export function IntoView() {
  const ref = useRef<HTMLSpanElement>(null)
  useEffect(() => {
    ref.current?.scrollIntoView({ block: 'center' })
  }, [])
  return <span ref={ref} aria-hidden="true" className="absolute inset-0 -z-10" />
}
