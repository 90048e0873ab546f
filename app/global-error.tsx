'use client'
import { PageError } from './ui/page-error'
import './globals.css'

const loadAnew = () => location.reload()

/** In place of everything, where not even the frame around the pages arrived whole: as when a shop stops in the middle. */
export default function GlobalError({ error }: { readonly error: Error & { digest?: string } }) {
  return (
    <html lang="en">
      <body>
        <title>That did not work · Fellowbench</title>
        <PageError error={error} tryAgain={loadAnew} />
      </body>
    </html>
  )
}
