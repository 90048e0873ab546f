import { ButtonLink } from './button'

/** The page that an address asks for; 1 where it asks for none or for nonsense. */
export function pageFrom(text: string | undefined): number {
  const page = Number(text)
  return Number.isInteger(page) && page >= 1 && page <= 10_000 ? page : 1
}

interface PagesProps {
  readonly page: number
  readonly pages: number
  readonly href: (page: number) => string
}

/** To the page before and the page after of a long list. */
export function Pages({ page, pages, href }: PagesProps) {
  if (pages <= 1) return null
  return (
    <nav aria-label="Pages of this list" className="flex flex-wrap items-center justify-between gap-3">
      {page > 1 ? <ButtonLink href={href(page - 1)}>Page before</ButtonLink> : <span />}
      <span className="text-ink-soft">
        Page {Math.min(page, pages)} of {pages}
      </span>
      {page < pages ? <ButtonLink href={href(page + 1)}>Next page</ButtonLink> : <span />}
    </nav>
  )
}
