'use client'
import { PageError } from './ui/page-error'
import './globals.css'

const loadAnew = () => location.reload()

/** Light or dark as chosen: the frame that knew it is gone. */
const chosenTheme = () =>
  typeof document === 'undefined' ? undefined : /\btheme=(light|dark)\b/.exec(document.cookie)?.[1]

/** In place of everything, where not even the frame around the pages arrived whole: as when a shop stops in the middle. */
export default function GlobalError({ error }: { readonly error: Error & { digest?: string } }) {
  return (
    <html lang="en" data-theme={chosenTheme()} suppressHydrationWarning>
      <body>
        <title>That did not work · Fellowbench</title>
        <PageError error={error} tryAgain={loadAnew} />
      </body>
    </html>
  )
}
