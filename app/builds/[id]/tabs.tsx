'use client'
import clsx from 'clsx'
import Link from 'next/link'
import { usePathname } from 'next/navigation'

const SIDES = [
  { path: '', label: 'Overview' },
  { path: '/design', label: 'Design' },
  { path: '/strength', label: 'Strength' },
  { path: '/cutting', label: 'Cutting' },
  { path: '/setups', label: 'Set-ups' },
  { path: '/drawings', label: 'Drawings' },
  { path: '/finish', label: 'Finish' },
] as const

export function BuildTabs({ buildId }: { readonly buildId: string }) {
  const here = usePathname()
  const root = `/builds/${buildId}`
  return (
    <nav aria-label="This build" className="mt-1 border-b border-hairline">
      <ul className="-mb-px flex overflow-x-auto [scrollbar-width:none]">
        {SIDES.map(({ path, label }) => {
          const href = `${root}${path}`
          const isHere = path === '' ? here === root : here === href || here.startsWith(`${href}/`)
          return (
            <li key={path} className="flex-auto sm:flex-none">
              <Link
                href={href}
                aria-current={isHere ? 'page' : undefined}
                className={clsx(
                  'flex min-h-11 items-center justify-center border-b-[3px] px-1 text-[0.84rem] whitespace-nowrap sm:px-4 sm:text-[0.98rem]',
                  isHere
                    ? 'border-accent font-semibold text-ink'
                    : 'border-transparent text-ink-soft hover:border-hairline-strong hover:text-ink',
                )}
              >
                {label}
              </Link>
            </li>
          )
        })}
      </ul>
    </nav>
  )
}
