'use client'
import { type RefObject, useEffect, useState } from 'react'

/** Colours of the 3-D view, as CSS writes them. */
export interface ViewTheme {
  readonly accent: string
  readonly edge: string
  readonly place: string
  /** Of the sheet behind the model. */
  readonly ground: string
  readonly isDark: boolean
}

/** The page's light colours (app/globals.css). */
export const LIGHT: ViewTheme = {
  accent: '#0d5a70',
  edge: '#25241f',
  place: '#8b8370',
  ground: '#fdfbf5',
  isDark: false,
}

function readTheme(element: Element): ViewTheme {
  const style = getComputedStyle(element)
  const token = (name: string, fallback: string): string => style.getPropertyValue(name).trim() || fallback
  return {
    accent: token('--accent', LIGHT.accent),
    edge: token('--ink', LIGHT.edge),
    place: token('--hairline-strong', LIGHT.place),
    ground: token('--sheet', LIGHT.ground),
    isDark: style.colorScheme.includes('dark'),
  }
}

/** The page's colours around an element, followed when the theme is switched. */
export function useViewTheme(ref: RefObject<Element | null>): ViewTheme {
  const [theme, setTheme] = useState(LIGHT)
  useEffect(() => {
    const read = (): void => {
      if (ref.current !== null) setTheme(readTheme(ref.current))
    }
    read()
    const observer = new MutationObserver(read)
    observer.observe(document.documentElement, { attributes: true })
    const dark = matchMedia('(prefers-color-scheme: dark)')
    dark.addEventListener('change', read)
    return () => {
      observer.disconnect()
      dark.removeEventListener('change', read)
    }
  }, [ref])
  return theme
}
