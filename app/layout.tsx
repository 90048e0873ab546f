import type { Metadata, Viewport } from 'next'
import { cookies } from 'next/headers'
import type { ReactNode } from 'react'
import Link from '#app/ui/link'
import { currentActor } from '#lib/auth/session'
import './globals.css'
import { Mark } from './ui/mark'
import { Navigation } from './ui/navigation'
import { SignOut } from './ui/sign-out'
import { type Theme, ThemeSwitch } from './ui/theme-switch'

export const metadata: Metadata = {
  title: { default: 'Fellowbench', template: '%s · Fellowbench' },
  description: 'Worn-out furniture into good furniture, together in one shop.',
}

export const viewport: Viewport = {
  width: 'device-width',
  initialScale: 1,
  themeColor: [
    { media: '(prefers-color-scheme: light)', color: '#f6f2e8' },
    { media: '(prefers-color-scheme: dark)', color: '#191816' },
  ],
}

async function chosenTheme(): Promise<Theme> {
  const theme = (await cookies()).get('theme')?.value
  return theme === 'light' || theme === 'dark' ? theme : 'auto'
}

export default async function RootLayout({ children }: { readonly children: ReactNode }) {
  const [actor, theme] = await Promise.all([currentActor(), chosenTheme()])
  return (
    <html lang="en" data-theme={theme === 'auto' ? undefined : theme}>
      <body>
        <a
          href="#content"
          className="link sr-only focus:not-sr-only focus:absolute focus:z-50 focus:bg-sheet focus:p-3"
        >
          Skip to the page
        </a>
        {actor ? (
          <div className="md:grid md:min-h-dvh md:grid-cols-[12.5rem_minmax(0,1fr)] print:block">
            <header className="flex items-center justify-between border-b border-hairline px-4 md:sticky md:top-0 md:h-dvh md:flex-col md:items-stretch md:justify-start md:border-r md:border-b-0 md:px-0 md:py-6 print:hidden">
              <Link
                href="/"
                className="flex min-h-12 items-center gap-2.5 text-[1.1rem] font-semibold md:px-5"
              >
                <Mark />
                Fellowbench
              </Link>
              <div className="md:mt-6">
                <Navigation />
              </div>
              <AccountMenu name={actor.name} isAdmin={actor.role === 'admin'} theme={theme} />
            </header>
            <div className="min-w-0">{children}</div>
          </div>
        ) : (
          children
        )}
      </body>
    </html>
  )
}

interface AccountProps {
  readonly name: string
  readonly isAdmin: boolean
  readonly theme: Theme
}

function AccountMenu({ name, isAdmin, theme }: AccountProps) {
  const item = 'link flex min-h-11 items-center text-[0.95rem]'
  return (
    <details className="group relative md:mt-auto md:px-5">
      <summary className="flex min-h-12 max-w-40 items-center truncate text-[0.95rem] font-medium md:max-w-none">
        {name}
      </summary>
      <div className="absolute right-0 z-40 grid w-56 border border-hairline-strong bg-sheet px-4 py-2 shadow-float md:static md:w-auto md:border-0 md:bg-transparent md:p-0 md:shadow-none">
        <Link className={item} href="/account">
          Your account
        </Link>
        {isAdmin ? (
          <>
            <Link className={item} href="/members">
              Members
            </Link>
            <Link className={item} href="/shop">
              Shop
            </Link>
          </>
        ) : null}
        <ThemeSwitch theme={theme} />
        <SignOut className={item} />
      </div>
    </details>
  )
}
