import type { Metadata } from 'next'
import type { ReactNode } from 'react'
import Link from '#app/ui/link'
import { buildHeader, buildName } from './header'
import { BuildTabs } from './tabs'

interface Props {
  readonly params: Promise<{ id: string }>
  readonly children: ReactNode
}

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  const name = await buildName((await params).id)
  if (name === null) return { title: 'Not there' }
  return { title: { default: name, template: `%s · ${name} · Fellowbench` } }
}

/** Over every page of a build: which one it is, and its four sides. */
export default async function BuildLayout({ params, children }: Props) {
  const build = await buildHeader((await params).id)
  return (
    <>
      <div className="mx-auto w-full max-w-6xl px-4 pt-4 sm:px-8 print:hidden">
        <nav aria-label="Where you are" className="truncate text-[0.95rem]">
          <Link href="/builds" className="link">
            Builds
          </Link>
          <span aria-hidden="true" className="px-1.5 text-ink-soft">
            /
          </span>
          <span className="font-medium">{build.name}</span>
        </nav>
        <BuildTabs buildId={build.id} />
      </div>
      {children}
    </>
  )
}
