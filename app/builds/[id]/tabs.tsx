'use client'
import clsx from 'clsx'
import { usePathname } from 'next/navigation'
import { useEffect, useRef } from 'react'
import Link from '#app/ui/link'

const SIDES = [
  { path: '', label: 'Overview' },
  { path: '/design', label: 'Design' },
  { path: '/variants', label: 'Variants' },
  { path: '/strength', label: 'Strength' },
  { path: '/cutting', label: 'Cutting' },
  { path: '/setups', label: 'Set-ups' },
  { path: '/drawings', label: 'Drawings' },
  { path: '/finish', label: 'Finish' },
] as const

export function BuildTabs({ buildId }: { readonly buildId: string }) {
  const here = usePathname()
  const root = `/builds/${buildId}`
  const list = useRef<HTMLUListElement>(null)
  // biome-ignore lint/correctness/useExhaustiveDependencies: looked at anew on another page
  useEffect(() => {
    const open = list.current?.querySelector<HTMLElement>('[aria-current="page"]')
    if (open && list.current) list.current.scrollLeft = open.offsetLeft - list.current.clientWidth / 3
  }, [here])
  return (
    <nav aria-label="This build" className="mt-1 border-b border-hairline">
      {/* On a phone they go sideways, the one that is open in sight. */}
      <ul ref={list} className="no-scrollbar -mb-px flex overflow-x-auto">
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
