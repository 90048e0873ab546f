'use client'
import clsx from 'clsx'
import { CalendarClock, DraftingCompass, Layers, Sun, Unplug } from 'lucide-react'
import { usePathname } from 'next/navigation'
import Link from './link'

const PLACES = [
  { href: '/', label: 'Today', Icon: Sun, also: [] as string[] },
  { href: '/builds', label: 'Builds', Icon: DraftingCompass, also: ['/designs'] },
  { href: '/pool', label: 'Pool', Icon: Layers, also: ['/boards', '/hardware'] },
  { href: '/teardowns', label: 'Teardowns', Icon: Unplug, also: [] },
  { href: '/stations', label: 'Stations', Icon: CalendarClock, also: ['/bookings'] },
] as const

const isUnder = (path: string, href: string) =>
  href === '/' ? path === '/' : path === href || path.startsWith(`${href}/`)

/** Five places: words down the side at the desk, a bar under the thumb on a phone. */
export function Navigation() {
  const path = usePathname()
  return (
    <nav
      aria-label="Places"
      className="fixed inset-x-0 bottom-0 z-30 border-t border-hairline-strong bg-paper pb-[env(safe-area-inset-bottom)] md:static md:border-0 md:pb-0 print:hidden"
    >
      <ul className="grid grid-cols-5 md:grid-cols-1">
        {PLACES.map(({ href, label, Icon, also }) => {
          const isHere = isUnder(path, href) || also.some((a) => isUnder(path, a))
          return (
            <li key={href}>
              <Link
                href={href}
                aria-current={isHere ? 'page' : undefined}
                className={clsx(
                  'flex min-h-14 flex-col items-center justify-center gap-0.5 border-t-4 text-[0.76rem] md:min-h-11 md:flex-row md:justify-start md:gap-3 md:border-t-0 md:border-l-4 md:px-4 md:text-base',
                  isHere
                    ? 'border-accent font-semibold text-ink'
                    : 'border-transparent text-ink-soft hover:text-ink',
                )}
              >
                <Icon aria-hidden="true" strokeWidth={1.8} className="size-[1.35rem]" />
                {label}
              </Link>
            </li>
          )
        })}
      </ul>
    </nav>
  )
}
