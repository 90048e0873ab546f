'use client'
import { useState } from 'react'

const NEXT = { auto: 'light', light: 'dark', dark: 'auto' } as const
export type Theme = keyof typeof NEXT
const WORD = { auto: 'as this device', light: 'light', dark: 'dark' } as const
const YEAR_S = 31_536_000

/** Light, dark or as the device has it; kept in a cookie, so that the first paint is right. */
export function ThemeSwitch({ theme: first }: { readonly theme: Theme }) {
  const [theme, setTheme] = useState(first)
  const turn = () => {
    const next = NEXT[theme]
    // biome-ignore lint/suspicious/noDocumentCookie: the Cookie Store API is not in every browser yet
    document.cookie = `theme=${next};path=/;max-age=${YEAR_S};samesite=lax`
    if (next === 'auto') document.documentElement.removeAttribute('data-theme')
    else document.documentElement.dataset.theme = next
    setTheme(next)
  }
  return (
    <button type="button" onClick={turn} className="link min-h-11 text-left text-[0.88rem]">
      Colours: {WORD[theme]}
    </button>
  )
}
